import { messageSW } from "workbox-window";
import { type Missing, SHARE_FAILED, SHARED_CACHE, type Word } from "./names";
import { ROOT } from "./root";

/** What browsers with file handlers give; not in the type library yet. */
interface LaunchQueue {
  setConsumer(take: (launch: { readonly files: readonly FileSystemFileHandle[] }) => void): void;
}

const queue = (): LaunchQueue | undefined => (globalThis as { launchQueue?: LaunchQueue }).launchQueue;

/** Takes files over; `missing` where there were others. */
type Take = (files: readonly File[], missing: Missing | null) => void;

/** Hands over those files that can be read. */
const handOver = async (coming: readonly Promise<File>[], take: Take): Promise<void> => {
  const arrived = await Promise.allSettled(coming);
  const files = arrived.flatMap((one) => (one.status === "fulfilled" ? [one.value] : []));
  if (coming.length > 0) take(files, files.length === coming.length ? null : "unread");
};

const fileOf = async (cache: Cache, request: Request): Promise<File> => {
  const answer = await cache.match(request);
  if (!answer) throw new Error("it is not there any more");
  const content = await answer.blob();
  const name = decodeURIComponent(new URL(request.url).pathname.split("/").pop() ?? "");
  // Of some files only the type says what they are.
  return new File([content], name, { type: content.type });
};

/** Hands the shared files over, then takes them out of their cache: not before, or a page that is closed meanwhile loses them. */
const takeShared = async (take: Take): Promise<void> => {
  // Where the browser lets this page keep nothing, nothing was shared to it either.
  const isThere = "caches" in globalThis && (await caches.has(SHARED_CACHE).catch(() => false));
  if (!isThere) return;
  const cache = await caches.open(SHARED_CACHE);
  // What was shared to another deployment of the origin waits for that one.
  const requests = (await cache.keys()).filter(({ url }) => url.startsWith(`${ROOT}shared/`));
  await handOver(
    requests.map((request) => fileOf(cache, request)),
    take,
  );
  await Promise.all(requests.map((request) => cache.delete(request)));
};

/** Why files that were shared could not be kept, as the worker says: the address alone can come from anybody. */
const whatFailed = async (): Promise<Missing | null> => {
  const worker = navigator.serviceWorker?.controller;
  if (!worker || !new URLSearchParams(location.search).has(SHARE_FAILED)) return null;
  return messageSW(worker, { type: "SHARE_FAILED" satisfies Word });
};

/**
 * Hands over every file with which the app is started: shared to it, or opened with it.
 * @param take called once for each lot
 */
export const receiveFiles = (take: Take): void => {
  void whatFailed().then((missing) => missing && take([], missing));
  takeShared(take).catch(() => take([], "unread"));
  queue()?.setConsumer(({ files }) => {
    void handOver(
      files.map((handle) => handle.getFile()),
      take,
    );
  });
};
