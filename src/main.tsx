import "./pieces/base.css";
import "./pieces/parts.css";
import { render } from "preact";
import { allowOwnScripts } from "./offline/own-scripts";
import { lazy, loadTheRest } from "./pieces/lazy";
import { CheckScreen } from "./screens/check/check";
import { ImageScreen } from "./screens/image/image";
import { KitScreen } from "./screens/kit/kit";
import { Notices } from "./screens/notices";
import { PatchScreen } from "./screens/patch/patch";
import { followAddress } from "./screens/route";
import { Shell } from "./screens/shell";
import { offline } from "./screens/state";
import { SumScreen } from "./screens/sum/sum";
import { startTheme } from "./screens/theme";
import { shelf, startShelf } from "./shelf/here";

/** By then the first screen stands and answers. */
const SETTLED_MS = 1500;

const SCREENS = {
  kit: KitScreen,
  image: ImageScreen,
  sum: SumScreen,
  patch: PatchScreen,
  check: CheckScreen,
  setups: lazy(async () => (await import("./screens/setups/setups")).SetupsScreen),
  about: lazy(async () => (await import("./screens/about")).AboutScreen),
};

/** Takes the newer version only once everything is safe. */
const acceptSafely = (accept: () => void) => async (): Promise<void> => {
  await shelf.flush();
  if (!shelf.isUnsaved()) accept();
};

/** Files that the app was opened with, or that were shared to it. */
const receive = async (): Promise<void> => {
  const [{ receiveFiles }, { takeFiles }] = await Promise.all([
    import("./offline/received"),
    import("./screens/arrived"),
  ]);
  receiveFiles(takeFiles);
};

const start = async (): Promise<void> => {
  allowOwnScripts();
  startTheme();
  followAddress();
  await startShelf();
  const root = document.getElementById("app");
  if (root) render(<Shell screens={SCREENS} notices={Notices} />, root);
  setTimeout(loadTheRest, SETTLED_MS);
  // Where a part cannot be loaded the files wait for the next start.
  receive().catch(() => {});
  if (!import.meta.env.PROD) return;
  const { startOffline } = await import("./offline/update");
  startOffline({
    ready: () => {
      offline.value = { ...offline.value, ready: true };
    },
    waiting: (accept) => {
      offline.value = { ...offline.value, accept: acceptSafely(accept) };
    },
    failed: () => {
      offline.value = { ...offline.value, ready: false };
    },
  });
};

void start();
