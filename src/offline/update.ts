import { messageSW, Workbox } from "workbox-window";
import type { Word } from "./names";
import { ROOT } from "./root";

/** What the page is told about its offline copy. */
export interface OfflineCallbacks {
  /** Everything is kept: the app opens with no network from now on. */
  ready(): void;
  /**
   * Another version is here; null where it is gone again. Nothing changes until `accept` is called; then the page
   * reloads as soon as the version in use is at rest, so everything must be saved and nothing under way by then.
   */
  waiting(accept: (() => void) | null): void;
  /** There is no offline copy; the app works, but only with a network. `why` is the middle of a sentence. */
  failed(why: string): void;
}

/** How long a version may take to say which one it is, ms: those from before the question never do. */
const ANSWER_MS = 2000;

const ask = (worker: ServiceWorker, type: Word): Promise<unknown> => messageSW(worker, { type });

const versionOf = (worker: ServiceWorker): Promise<unknown> =>
  Promise.race([ask(worker, "VERSION"), new Promise((done) => setTimeout(done, ANSWER_MS))]);

const living = (worker: ServiceWorker | null): ServiceWorker | null =>
  worker?.state === "redundant" ? null : worker;

const isMissing = (files: unknown): string =>
  files === 1 ? "one file is missing on this device" : `${files} files are missing on this device`;

/** Follows the versions on this device. Gives a way to look up whether the copy is whole, and to make it whole. */
const follow = (container: ServiceWorkerContainer, tell: OfflineCallbacks): (() => Promise<void>) => {
  let workbox: Workbox | undefined;
  let registration: ServiceWorkerRegistration | undefined;
  let agreed = false;
  let offered: ServiceWorker | null = null;

  /** What this page runs on: the version that serves it, on a first visit the first that is active. */
  const own = (async () => {
    const worker = container.controller ?? (await container.ready).active;
    return { worker, version: worker && (await versionOf(worker)) };
  })();

  /** Not by the worker alone: the server may have gone back to the version that this page runs on. */
  const isOther = async (worker: ServiceWorker): Promise<boolean> => {
    const mine = await own;
    // Nor is it asked: the version in use ought to have nothing to do when it is to go.
    if (worker === mine.worker) return false;
    const version = await versionOf(worker);
    return version === undefined || version !== mine.version;
  };

  const accept = (): void => {
    agreed = true;
    if (offered === registration?.waiting) workbox?.messageSkipWaiting();
    // Another tab has let it in already.
    else location.reload();
  };

  const find = async (): Promise<void> => {
    if (!registration || agreed) return;
    const [installing, waiting, active] = [
      living(registration.installing),
      living(registration.waiting),
      living(registration.active),
    ];
    if (!active) {
      if (!installing && !waiting) tell.failed("some files did not arrive whole");
      return;
    }
    const other = (await isOther(active)) ? active : waiting && (await isOther(waiting)) ? waiting : null;
    if (other === offered || agreed) return;
    offered = other;
    tell.waiting(other && accept);
  };

  const register = async (): Promise<void> => {
    workbox = new Workbox(`${ROOT}sw.js`);
    workbox.addEventListener("activated", look);
    workbox.addEventListener("controlling", () => (agreed ? location.reload() : void find()));
    const here = await workbox.register({ immediate: true });
    if (!here) return;
    registration = here;
    // The `waiting` of workbox-window misses a version that was on its way before, and of those that other tabs
    // bring all but the first.
    const followToo = (): void => here.installing?.addEventListener("statechange", find);
    followToo();
    here.addEventListener("updatefound", followToo);
  };

  const lookUp = async (): Promise<void> => {
    if (!registration || !(await container.getRegistration(ROOT))) await register();
    await find();
    const active = living(registration?.active ?? null);
    if (!active || agreed) return;
    const files = await ask(active, "REPAIR");
    if (files === 0) tell.ready();
    else tell.failed(isMissing(files));
  };
  const look = (): Promise<void> =>
    lookUp().catch((error) => tell.failed(error instanceof Error ? error.message : String(error)));
  return look;
};

/**
 * Keeps the app on the device and tells of other versions. Call it once, in the built app only.
 * @returns looks up whether the copy is whole and fetches what is missing; it is done at the start and each time that
 * the page comes into sight or the network comes back, and belongs before each promise
 */
export const startOffline = (tell: OfflineCallbacks): (() => Promise<void>) => {
  if (!("serviceWorker" in navigator)) {
    tell.failed("this browser keeps no apps, or the page did not come over https");
    return async () => {};
  }
  const look = follow(navigator.serviceWorker, tell);
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void look();
  });
  addEventListener("online", () => void look());
  void look();
  return look;
};
