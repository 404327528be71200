import "./pieces/base.css";
import "./pieces/parts.css";
import { render } from "preact";
import { allowOwnScripts } from "./offline/own-scripts";
import { startOffline } from "./offline/update";
import { lazy } from "./pieces/lazy";
import { CheckScreen } from "./screens/check/check";
import { ImageScreen } from "./screens/image/image";
import { KitScreen } from "./screens/kit/kit";
import { Notices } from "./screens/notices";
import { PatchScreen } from "./screens/patch/patch";
import { followAddress } from "./screens/route";
import { Shell } from "./screens/shell";
import { offline } from "./screens/state";
import { SumScreen } from "./screens/sum/sum";
import { shelf, startShelf } from "./shelf/here";

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

const start = async (): Promise<void> => {
  allowOwnScripts();
  followAddress();
  await startShelf();
  const root = document.getElementById("app");
  if (root) render(<Shell screens={SCREENS} notices={Notices} />, root);
  if (!import.meta.env.PROD) return;
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
