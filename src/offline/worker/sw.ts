import { ACCEPT } from "../names";
import { keepShared } from "./share";

declare const self: ServiceWorkerGlobalScope;
/** What was built: address from the scope, and the fingerprint that the server's answer must have. */
declare const __FILES__: readonly { readonly url: string; readonly integrity: string }[];
/** Changes with any built file. */
declare const __VERSION__: string;

/** One cache for each version; nothing of another name is ever touched. */
const PREFIX = "hatside-files-";
const CACHE = PREFIX + __VERSION__;
const SCOPE = self.registration.scope;
const PAGE = new URL("./", SCOPE).href;
const OURS = new Set(__FILES__.map(({ url }) => new URL(url, SCOPE).href));

/** All or nothing: a file that is missing or not exactly as built leaves the working version as it is. */
const install = async (): Promise<void> => {
  const cache = await caches.open(CACHE);
  try {
    await cache.addAll(
      __FILES__.map(
        ({ url, integrity }) => new Request(new URL(url, SCOPE), { integrity, cache: "no-cache" }),
      ),
    );
  } catch (error) {
    if ((await cache.keys()).length === 0) await caches.delete(CACHE);
    throw error;
  }
};

const others = async (): Promise<string[]> =>
  (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);

/** In the cache of a version that pages ran on; no file has this name. */
const USED = new URL("./used?", SCOPE).href;

/** The version that pages ran on before this one; another may have waited in between without being accepted. */
const before = async (names: readonly string[]): Promise<string | undefined> => {
  const used = await Promise.all(
    names.map(async (name) => (await (await caches.open(name)).match(USED)) !== undefined),
  );
  return names.filter((_, at) => used[at]).at(-1);
};

/** Keeps the version before, so that a page still open on it finds its parts that load on demand. */
const activate = async (): Promise<void> => {
  const names = await others();
  const stays = await before(names);
  await Promise.all(names.filter((name) => name !== stays).map((name) => caches.delete(name)));
  await self.clients.claim();
  await (await caches.open(CACHE)).put(USED, new Response());
};

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

const withoutQuery = (address: string): string => {
  const url = new URL(address);
  return url.origin + url.pathname;
};

/** Every address under the scope leads to the one page. */
const page = async (request: Request): Promise<Response> => {
  const address = withoutQuery(request.url);
  const wanted = address === `${PAGE}index.html` ? PAGE : address;
  if (OURS.has(wanted)) return (await kept(wanted)) ?? fetch(request);
  return Response.redirect(PAGE + new URL(request.url).search);
};

const answer = (request: Request): Promise<Response> | undefined => {
  if (!request.url.startsWith(SCOPE)) return undefined;
  if (request.method === "POST" && withoutQuery(request.url) === new URL("share", SCOPE).href)
    return keepShared(request, PAGE);
  if (request.method !== "GET") return undefined;
  if (request.mode === "navigate") return page(request);
  return kept(request.url).then((found) => found ?? fetch(request));
};

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => {
  if (event.data === ACCEPT) event.waitUntil(self.skipWaiting());
});
self.addEventListener("fetch", (event) => {
  const answered = answer(event.request);
  if (answered) event.respondWith(answered);
});
