import "./ui/base.css";
import "./ui/parts.css";
import { effect } from "@preact/signals";
import { render } from "preact";
import { allowOwnScripts } from "./offline/own-scripts";
import { ROOT } from "./offline/root";
import { ChannelsScreen } from "./screens/channels/channels";
import { Notices } from "./screens/notices";
import { followAddress } from "./screens/route";
import { Shell } from "./screens/shell";
import { offline } from "./screens/state";
import { startTheme } from "./screens/theme";
import { startShelf } from "./shelf/here";
import { isStorageSlow } from "./shelf/patience";
import { troubleOf } from "./shelf/trouble";
import { clause } from "./text/words";
import { lazy } from "./ui/lazy";
import { painted } from "./ui/painted";
import { showPlainPage } from "./ui/plain-page";

const SCREENS = {
  channels: ChannelsScreen,
  image: lazy(async () => (await import("./screens/image/image")).ImageScreen, "h1"),
  headroom: lazy(async () => (await import("./screens/headroom/headroom")).HeadroomScreen, "h1"),
  patch: lazy(async () => (await import("./screens/patch/patch")).PatchScreen, "h1"),
  decide: lazy(async () => (await import("./screens/decide/decide")).DecideScreen, "h1"),
  desk: lazy(async () => (await import("./screens/desk/desk")).DeskScreen, "h1"),
  trace: lazy(async () => (await import("./screens/trace/trace")).TraceScreen, "h1"),
  check: lazy(async () => (await import("./screens/check/check")).CheckScreen, "h1"),
  setups: lazy(async () => (await import("./screens/setups/setups")).SetupsScreen, "h1"),
  about: lazy(async () => (await import("./screens/about")).AboutScreen, "h1"),
};

const sayWhatIsAwaited = (): void => {
  if (!isStorageSlow.value) return;
  showPlainPage("Opening your setups …", [
    "The browser’s storage has not answered yet. Another tab may be using it: close other tabs of Hatside.",
    "After a few more seconds Hatside starts without your saved setups. They are not deleted.",
  ]);
};

const start = async (): Promise<void> => {
  allowOwnScripts();
  startTheme();
  followAddress();
  const endWait = effect(sayWhatIsAwaited);
  await startShelf();
  endWait();
  const root = document.getElementById("app");
  if (!root) return;
  // In it is the word for a start that never comes.
  root.replaceChildren();
  render(<Shell screens={SCREENS} notices={Notices} />, root);
};

/** What the first screen does not wait for. Where it cannot be loaded, the next start tries again. */
const goOn = async (): Promise<void> => {
  await painted();
  await import("./later").then(
    ({ goOnLater }) => goOnLater(),
    (error) => {
      offline.value = { ...offline.value, failed: clause(troubleOf(error)) };
    },
  );
};

/** In the place of a screen, so that nobody looks at an empty page. */
const sayWhy = (error: unknown): void =>
  showPlainPage("Hatside could not start", [
    `The reason: ${troubleOf(error)}.`,
    "What is saved on this device stays there. Reload the page; if that does not help, update the browser.",
  ]);

/** Around it another page could lead taps astray, onto buttons that delete. */
const sayFramed = (): void =>
  showPlainPage(
    "Hatside does not run inside another page",
    ["The page around it could make you tap buttons that you do not see. Open Hatside in its own tab."],
    { href: location.href, says: "Open Hatside" },
  );

if (globalThis.top !== globalThis.self) sayFramed();
// A host may answer every address with this page; only from its own folder is it the app.
else if (new URL("./", location.href).href !== ROOT) location.replace(ROOT + location.search + location.hash);
else start().then(goOn, sayWhy);
