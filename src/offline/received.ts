import { SHARED_CACHE } from "./names";

/** What browsers with file handlers give; not in the type library yet. */
interface LaunchQueue {
  setConsumer(take: (launch: { readonly files: readonly FileSystemFileHandle[] }) => void): void;
}

const queue = (): LaunchQueue | undefined => (globalThis as { launchQueue?: LaunchQueue }).launchQueue;

/** Takes the shared files out of their cache. */
const takeShared = async (): Promise<File[]> => {
  if (!("caches" in globalThis) || !(await caches.has(SHARED_CACHE))) return [];
  const cache = await caches.open(SHARED_CACHE);
  const files: File[] = [];
  for (const request of await cache.keys()) {
    const answer = await cache.match(request);
    const name = decodeURIComponent(new URL(request.url).pathname.split("/").pop() ?? "");
    if (answer) {
      const content = await answer.blob();
      files.push(new File([content], name, { type: content.type }));
    }
    await cache.delete(request);
  }
  return files;
};

/**
 * Hands over every file with which the app is started: shared to it, or opened with it.
 * @param take called once for each lot of at least one file
 */
export const receiveFiles = (take: (files: readonly File[]) => void): void => {
  const give = (files: readonly File[]): void => {
    if (files.length > 0) take(files);
  };
  void takeShared().then(give);
  queue()?.setConsumer(({ files }) => {
    void Promise.all(files.map((handle) => handle.getFile())).then(give);
  });
};
