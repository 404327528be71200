import { ACCEPT } from "./names";

/** What the page is told about its offline copy. */
export interface OfflineCallbacks {
  /** Everything is kept: the app opens with no network from now on. */
  ready(): void;
  /**
   * A newer version is here. Nothing changes until `accept` is called; then the page reloads as soon as the version
   * in use is at rest, so everything must be saved and nothing under way by then.
   */
  waiting(accept: () => void): void;
  /** There is no offline copy; the app works, but only with a network. `why` is the middle of a sentence. */
  failed(why: string): void;
}

/** Calls back when a worker that is being installed waits, or when it is thrown away. */
const follow = (worker: ServiceWorker, installed: () => void, thrown: () => void): void => {
  worker.addEventListener("statechange", () => {
    if (worker.state === "installed") installed();
    if (worker.state === "redundant") thrown();
  });
};

const watch = (registration: ServiceWorkerRegistration, tell: OfflineCallbacks): void => {
  const container = navigator.serviceWorker;
  /** The version that this page runs on. */
  const own = container.controller ?? registration.installing ?? registration.waiting ?? registration.active;
  let agreed = false;
  const accept = (): void => {
    agreed = true;
    registration.waiting?.postMessage(ACCEPT);
  };
  const offer = (): void => {
    if (registration.active) tell.waiting(accept);
  };
  const gone = (): void => {
    if (!registration.active) tell.failed("some files did not arrive whole");
  };
  const followInstalling = (): void => {
    if (registration.installing) follow(registration.installing, offer, gone);
  };
  if (registration.waiting) offer();
  followInstalling();
  registration.addEventListener("updatefound", followInstalling);
  container.addEventListener("controllerchange", () => {
    if (agreed) location.reload();
    // Another tab has taken the newer version: this one goes on as it is until its own user agrees.
    else if (container.controller !== own) tell.waiting(() => location.reload());
  });
  void container.ready.then(() => tell.ready());
};

/** Keeps the app on the device and tells of newer versions. Call it once, in the built app only. */
export const startOffline = (tell: OfflineCallbacks): void => {
  if (!("serviceWorker" in navigator)) {
    tell.failed("this browser keeps no apps, or the page did not come over https");
    return;
  }
  navigator.serviceWorker.register(new URL("./sw.js", document.baseURI)).then(
    (registration) => watch(registration, tell),
    (error: unknown) => tell.failed(error instanceof Error ? error.message : String(error)),
  );
};
