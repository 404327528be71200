import "./ui/base.css";
import "./ui/parts.css";
import { effect } from "@preact/signals";
import { render } from "preact";
import type { Missing } from "./offline/names";
import { allowOwnScripts } from "./offline/own-scripts";
import { ROOT } from "./offline/root";
import { ChannelsScreen } from "./screens/channels/channels";
import { Notices } from "./screens/notices";
import { followAddress } from "./screens/route";
import { Shell } from "./screens/shell";
import { laterNotice, offline, toast } from "./screens/state";
import { startTheme } from "./screens/theme";
import { shelf, startShelf } from "./shelf/here";
import { isStorageSlow } from "./shelf/patience";
import { troubleOf } from "./shelf/trouble";
import { clause } from "./text/words";
import { lazy, loadTheRest } from "./ui/lazy";
import { painted } from "./ui/painted";
import { showPlainPage } from "./ui/plain-page";

/** By then the first screen stands and answers, and its parts come from the device where they are kept. */
const SETTLED_MS = 1500;
let restTimer: ReturnType<typeof setTimeout> | undefined;
let rest = Promise.resolve();
const restLater = (): void => {
  restTimer = setTimeout(() => {
    rest = loadTheRest();
  }, SETTLED_MS);
};

/**
 * Nothing is being loaded. Chromium ends the version in use to let a newer one in; if something is asked of it in that
 * moment it begins anew, and is not ended again before it has had nothing to do for half a minute.
 */
const quiet = (): Promise<void> => {
  clearTimeout(restTimer);
  return rest;
};

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

/** Takes the newer version only once everything is safe. */
const acceptSafely = (accept: () => void) => async (): Promise<void> => {
  offline.value = { ...offline.value, isComing: true };
  await quiet();
  await shelf.flush();
  if (!shelf.isUnsaved()) {
    accept();
    return;
  }
  offline.value = { ...offline.value, isComing: false };
  restLater();
  toast.value = {
    says: "Not yet: the open setup is not saved. Download it, then close every tab of Hatside.",
    undo: false,
  };
};

const MISSING: { readonly [why in Missing]: string } = {
  full: "Not every file arrived: the browser’s storage is full. Import the missing ones here instead.",
  unread: "Not every file arrived. Import the missing ones here instead.",
};

/** Files that the app was opened with, or that were shared to it. */
const receive = async (): Promise<void> => {
  const [{ receiveFiles }, { takeFiles }] = await Promise.all([
    import("./offline/received"),
    import("./screens/arrived"),
  ]);
  receiveFiles((files, missing) => {
    takeFiles(files);
    if (missing) toast.value = { says: MISSING[missing], undo: false };
  });
};

/** Tells a setup of another desk apart when it is opened. */
const followDesks = async (): Promise<void> => {
  laterNotice.value = (await import("./screens/desks/desk-notice")).DeskNotice;
};

const offlineFailed = (why: string): void => {
  offline.value = { ...offline.value, ready: false, failed: clause(why) };
  restLater();
};

/** Keeps the app on the device. */
const stayOffline = async (): Promise<void> => {
  const { startOffline } = await import("./offline/update");
  const look = startOffline({
    ready: () => {
      offline.value = { ...offline.value, ready: true, failed: "" };
      restLater();
    },
    waiting: (accept) => {
      offline.value = { ...offline.value, accept: accept && acceptSafely(accept), isComing: false };
    },
    failed: offlineFailed,
  });
  offline.value = { ...offline.value, look };
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

/** What the first screen does not wait for. Where a part of it cannot be loaded, the next start tries again. */
const goOn = async (): Promise<void> => {
  await painted();
  receive().catch(() => {});
  followDesks().catch(() => {});
  if (import.meta.env.PROD) stayOffline().catch((error) => offlineFailed(troubleOf(error)));
  else restLater();
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
