import type { Missing } from "./offline/names";
import { laterNotice, offline, toast } from "./screens/state";
import { shelf } from "./shelf/here";
import { troubleOf } from "./shelf/trouble";
import { clause } from "./text/words";
import { loadTheRest } from "./ui/lazy";

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

/** What the first screen does not wait for: files that the app was given, notices, its copy on the device. */
export const goOnLater = (): void => {
  receive().catch(() => {});
  followDesks().catch(() => {});
  if (import.meta.env.PROD) stayOffline().catch((error) => offlineFailed(troubleOf(error)));
  else restLater();
};
