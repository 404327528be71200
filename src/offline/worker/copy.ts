declare const self: ServiceWorkerGlobalScope;
/** What was built: address from the scope, and the fingerprint that the server's answer must have. */
declare const __FILES__: readonly { readonly url: string; readonly integrity: string }[];
/** Changes with any built file. */
declare const __VERSION__: string;

const SCOPE = self.registration.scope;

/** Address of the page. */
export const PAGE = new URL("./", SCOPE).href;

/** Name of this version. */
export const NAME = __VERSION__;

const FILES = new Map(__FILES__.map(({ url, integrity }) => [new URL(url, SCOPE).href, integrity]));

/**
 * Begins the name of each cache of this deployment, one a version. No address holds a blank, so no name of a
 * deployment in a folder below begins like it; what does not begin like it is another's.
 */
const PREFIX = `hatside-files ${SCOPE} `;
const CACHE = PREFIX + NAME;

/** Names that caches had before they carried the scope: deployments of one origin that had the same build share one. */
const SHARED_NAME = /^hatside-files-[0-9a-f]{12}$/;

/** What any build lays beside the page or in its two folders; deeper down another deployment may lie. */
const LAYOUT = /^((assets|icons)\/)?[^/]*$/;
const isOurs = (url: string): boolean => url.startsWith(SCOPE) && LAYOUT.test(url.slice(SCOPE.length));

/** Says since when pages run on the version of a cache, ms; no file has this name. */
const USED = new URL("./used?", SCOPE).href;

/** Whether an address is that of a built file. */
export const isBuilt = (url: string): boolean => FILES.has(url);

/** A file exactly as it was built; rejects for any other answer. */
const fetchBuilt = async (url: string, integrity: string): Promise<Response> => {
  const answer = await fetch(new Request(url, { integrity, cache: "no-cache", mode: "same-origin" }));
  if (!answer.ok) throw new TypeError(`${url}: ${answer.status}`);
  // No browser opens a page from an answer that came by a redirect.
  return answer.redirected ? new Response(answer.body, answer) : answer;
};

/** All or nothing: a file that is missing or not exactly as built leaves the working version as it is. */
export const install = async (): Promise<void> => {
  const answers = await Promise.all(
    [...FILES].map(async ([url, integrity]) => ({ url, answer: await fetchBuilt(url, integrity) })),
  );
  const cache = await caches.open(CACHE);
  try {
    await Promise.all(answers.map(({ url, answer }) => cache.put(url, answer)));
  } catch (error) {
    // Pages run on it where the server went back to a version of before.
    if (!(await cache.match(USED))) await caches.delete(CACHE);
    throw error;
  }
};

const others = async (): Promise<string[]> =>
  (await caches.keys()).filter(
    (name) => name !== CACHE && (name.startsWith(PREFIX) || SHARED_NAME.test(name)),
  );

/** Since when pages run on the version of a cache, ms; 0 where it is not known, null where none ever did. */
const usedSince = async (name: string): Promise<number | null> => {
  const used = await (await caches.open(name)).match(USED);
  return used ? Number(await used.text()) : null;
};

/** The version that pages ran on before this one; another may have waited in between without being accepted. */
const before = async (names: readonly string[]): Promise<string | undefined> => {
  let [last, since] = [undefined as string | undefined, 0];
  for (const name of names) {
    const used = await usedSince(name);
    if (used !== null && used >= since) [last, since] = [name, used];
  }
  return last;
};

const drop = async (name: string): Promise<void> => {
  if (name.startsWith(PREFIX)) {
    await caches.delete(name);
    return;
  }
  const cache = await caches.open(name);
  const held = await cache.keys();
  const ours = held.filter(({ url }) => isOurs(url));
  await Promise.all(ours.map((request) => cache.delete(request)));
  // An empty one may be that of an installation which has just begun.
  if (held.length > 0 && ours.length === held.length) await caches.delete(name);
};

const markUsed = async (): Promise<void> =>
  (await caches.open(CACHE)).put(USED, new Response(String(Date.now())));

/** Keeps the version before, so that a page still open on it finds its parts that load on demand. */
export const activate = async (): Promise<void> => {
  const names = await others();
  const stays = await before(names);
  await Promise.all(names.filter((name) => name !== stays).map(drop));
  await self.clients.claim();
  await markUsed();
};

const repaired = async (): Promise<number> => {
  const cache = await caches.open(CACHE);
  const held = new Set((await cache.keys()).map(({ url }) => url));
  if (!held.has(USED)) await markUsed();
  const missing = [...FILES].filter(([url]) => !held.has(url));
  const tries = await Promise.allSettled(
    missing.map(async ([url, integrity]) => cache.put(url, await fetchBuilt(url, integrity))),
  );
  return tries.filter(({ status }) => status === "rejected").length;
};

/**
 * Fetches again what is missing of the copy: other pages of the origin, the browser and its user can clear it.
 * @returns how many files are missing after that
 */
export const repairCopy = (): Promise<number> => repaired().catch(() => FILES.size);

const kept = async (url: string): Promise<Response | undefined> => {
  try {
    for (const name of [CACHE, ...(await others())]) {
      const answer = await (await caches.open(name)).match(url);
      if (answer) return answer;
    }
  } catch {
    // As if nothing were kept: the network may still have it.
  }
  return undefined;
};

/** The kept file of an address, else what the network answers to the request. */
export const keptOrFetched = async (url: string, request: Request): Promise<Response> =>
  (await kept(url)) ?? fetch(request);
