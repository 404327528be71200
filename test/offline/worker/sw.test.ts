import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { FakeCaches } from "../caches";

const SCOPE = "https://hall.example/app/";

/** A worker that runs the script under test; the build gives it its files and its version. */
class FakeWorker extends EventTarget {
  readonly registration = { scope: SCOPE };
  readonly clients = { claim: async () => {} };
  readonly skipWaiting = async () => {};
}

let caches: FakeCaches;
let worker: FakeWorker;

/** Tells the worker of something and waits as long as it wants. */
const tell = async (name: string): Promise<void> => {
  const event = new Event(name) as Event & { waitUntil?: (work: Promise<unknown>) => void };
  let work: Promise<unknown> = Promise.resolve();
  event.waitUntil = (promise) => {
    work = promise;
  };
  worker.dispatchEvent(event);
  await work;
};

/** What the worker answers; undefined where it leaves the request to the browser. */
const asked = async (request: Request): Promise<Response | undefined> => {
  const event = new Event("fetch") as Event & {
    request?: Request;
    respondWith?: (a: Promise<Response>) => void;
  };
  let answer: Promise<Response> | undefined;
  event.request = request;
  event.respondWith = (promise) => {
    answer = promise;
  };
  worker.dispatchEvent(event);
  return answer;
};

beforeEach(async () => {
  caches = new FakeCaches();
  worker = new FakeWorker();
  vi.stubGlobal("self", worker);
  vi.stubGlobal("caches", caches);
  vi.stubGlobal("fetch", async (request: Request) => new Response(`from the network: ${request.url}`));
  vi.stubGlobal("__FILES__", [
    { url: "./", integrity: "" },
    { url: "assets/a.js", integrity: "" },
  ]);
  vi.resetModules();
  await import("../../../src/offline/worker/sw");
});
afterEach(() => vi.unstubAllGlobals());

/** The cache of this version, which the test build calls by the version of the package. */
const own = (): string => [...caches.all.keys()].at(-1) ?? "";

describe("a version that is accepted", () => {
  /** A version before: its cache holds what pages still open on it ask for. */
  const earlier = async (name: string, wasUsed: boolean): Promise<void> => {
    const cache = await caches.open(`hatside-files-${name}`);
    await cache.put(`${SCOPE}assets/${name}.js`, new Response(name));
    if (wasUsed) await cache.put(`${SCOPE}used?`, new Response());
  };

  it("keeps the files of the one that pages still run on, though another waited in between", async () => {
    await earlier("first", true);
    await earlier("never-accepted", false);
    await caches.open("another program's");
    await tell("activate");
    expect([...caches.all.keys()]).toEqual(["hatside-files-first", "another program's", own()]);
    const answer = await asked(new Request(`${SCOPE}assets/first.js`));
    expect(await answer?.text()).toBe("first");
  });

  it("keeps only the last of those that were in use, and is itself the one before for the next", async () => {
    await earlier("first", true);
    await earlier("second", true);
    await tell("activate");
    expect([...caches.all.keys()]).toEqual(["hatside-files-second", own()]);
    expect([...(caches.all.get(own())?.held.keys() ?? [])]).toEqual([`${SCOPE}used?`]);
  });
});

describe("while the caches cannot be read", () => {
  beforeEach(() => {
    caches.broken = true;
  });

  it("a part of the page comes from the network", async () => {
    const answer = await asked(new Request(`${SCOPE}assets/a.js`));
    expect(await answer?.text()).toBe(`from the network: ${SCOPE}assets/a.js`);
  });

  it("the page itself comes from the network", async () => {
    const request = new Request(SCOPE);
    Object.defineProperty(request, "mode", { value: "navigate" });
    expect(await (await asked(request))?.text()).toBe(`from the network: ${SCOPE}`);
  });

  it("files shared to the app are not kept, and the page is told", async () => {
    const body = new FormData();
    body.append("files", new File(["{}"], "a.hatside"));
    const answer = await asked(new Request(`${SCOPE}share`, { method: "POST", body }));
    expect([answer?.status, answer?.headers.get("location")]).toEqual([303, `${SCOPE}?share-failed`]);
  });
});

it("files that are shared while storage is full are not kept, and the page is told that it is full", async () => {
  const cache = await caches.open("hatside-shared");
  Object.assign(cache, { put: () => Promise.reject(new DOMException("no room", "QuotaExceededError")) });
  const body = new FormData();
  body.append("files", new File(["{}"], "a.hatside"));
  const answer = await asked(new Request(`${SCOPE}share`, { method: "POST", body }));
  expect(answer?.headers.get("location")).toBe(`${SCOPE}?share-failed=full`);
});

it("keeps files that are shared under their names", async () => {
  const body = new FormData();
  body.append("files", new File(["{}"], "a b.hatside"));
  const answer = await asked(new Request(`${SCOPE}share`, { method: "POST", body }));
  expect(answer?.headers.get("location")).toBe(`${SCOPE}?shared`);
  const [kept = ""] = [...(caches.all.get("hatside-shared")?.held.keys() ?? [])];
  expect(kept).toMatch(/\/a%20b\.hatside$/);
});
