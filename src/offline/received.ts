import { SHARE_FAILED, SHARE_FULL, SHARED_CACHE } from "./names";

/** What browsers with file handlers give; not in the type library yet. */
interface LaunchQueue {
  setConsumer(take: (launch: { readonly files: readonly FileSystemFileHandle[] }) => void): void;
}

const queue = (): LaunchQueue | undefined => (globalThis as { launchQueue?: LaunchQueue }).launchQueue;

/** Why other files are missing: storage was full, or they could not be read. */
export type Missing = "full" | "unread";

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
  const requests = await cache.keys();
  await handOver(
    requests.map((request) => fileOf(cache, request)),
    take,
  );
  await Promise.all(requests.map((request) => cache.delete(request)));
};

/**
 * Hands over every file with which the app is started: shared to it, or opened with it.
 * @param take called once for each lot
 */
export const receiveFiles = (take: Take): void => {
  const failed = new URLSearchParams(location.search).get(SHARE_FAILED);
  if (failed !== null) take([], failed === SHARE_FULL ? "full" : "unread");
  takeShared(take).catch(() => take([], "unread"));
  queue()?.setConsumer(({ files }) => {
    void handOver(
      files.map((handle) => handle.getFile()),
      take,
    );
  });
};
