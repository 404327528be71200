import { ACCEPT, type Word } from "../names";
import { activate, install, isBuilt, keptOrFetched, NAME, PAGE, repairCopy } from "./copy";
import { keepShared, tellFailure } from "./share";

declare const self: ServiceWorkerGlobalScope;

const SCOPE = self.registration.scope;

const withoutQuery = (address: string): string => {
  const url = new URL(address);
  return url.origin + url.pathname;
};

/** Every address under the scope leads to the one page. */
const page = async (request: Request): Promise<Response> => {
  const address = withoutQuery(request.url);
  const wanted = address === `${PAGE}index.html` ? PAGE : address;
  if (isBuilt(wanted)) return keptOrFetched(wanted, request);
  return Response.redirect(PAGE + new URL(request.url).search);
};

const answer = (request: Request): Promise<Response> | undefined => {
  if (!request.url.startsWith(SCOPE)) return undefined;
  if (request.method === "POST" && withoutQuery(request.url) === new URL("share", SCOPE).href)
    return keepShared(request, PAGE);
  if (request.method !== "GET") return undefined;
  if (request.mode === "navigate") return page(request);
  return keptOrFetched(request.url, request);
};

/** What is done at each word of a page; its result is the answer. */
const HEED: { readonly [word in Word]: () => unknown } = {
  SKIP_WAITING: () => self.skipWaiting(),
  VERSION: () => NAME,
  REPAIR: repairCopy,
  SHARE_FAILED: tellFailure,
};

const heed = async ({ data, ports }: ExtendableMessageEvent): Promise<void> => {
  const word: Word = data === ACCEPT ? "SKIP_WAITING" : data.type;
  ports[0]?.postMessage(await HEED[word]?.());
};

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("message", (event) => event.waitUntil(heed(event)));
self.addEventListener("fetch", (event) => {
  const answered = answer(event.request);
  if (answered) event.respondWith(answered);
});
