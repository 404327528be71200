import { readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { FakeCache, FakeCaches } from "../caches";

const SCOPE = "https://hall.example/app/";

/** A worker that runs the script under test; the build gives it its files and its version. */
class FakeWorker extends EventTarget {
  readonly registration = { scope: SCOPE };
  readonly clients = { claim: async () => {} };
  skipped = 0;
  readonly skipWaiting = async () => {
    this.skipped += 1;
  };
}

let caches: FakeCaches;
/** What the server answers, by address. */
let server: Map<string, Response>;
let worker: FakeWorker;

/** Tells the worker of something and waits as long as it wants. */
const tell = async (name: string, more: object = {}): Promise<void> => {
  const event = Object.assign(new Event(name), more) as Event & {
    waitUntil?: (work: Promise<unknown>) => void;
  };
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

/** What the worker answers to a word of the page. */
const says = async (data: unknown): Promise<unknown> => {
  let answer: unknown;
  const port = {
    postMessage: (said: unknown) => {
      answer = said;
    },
  };
  await tell("message", { data, ports: [port] });
  return answer;
};

const navigation = (url: string): Request => {
  const request = new Request(url);
  Object.defineProperty(request, "mode", { value: "navigate" });
  return request;
};

/** What a server answers that redirected the request: as a browser hands it to the worker. */
const redirected = (body: string): Response =>
  Object.defineProperty(new Response(body, { headers: { "content-type": "text/html" } }), "redirected", {
    value: true,
  });

beforeEach(async () => {
  caches = new FakeCaches();
  worker = new FakeWorker();
  vi.stubGlobal("self", worker);
  vi.stubGlobal("caches", caches);
  server = new Map();
  vi.stubGlobal(
    "fetch",
    async ({ url }: Request) => server.get(url) ?? new Response(`from the network: ${url}`),
  );
  vi.stubGlobal("__FILES__", [
    { url: "./", integrity: "" },
    { url: "assets/a.js", integrity: "" },
  ]);
  vi.resetModules();
  await import("../../../src/offline/worker/sw");
});
afterEach(() => vi.unstubAllGlobals());

/** The cache of this version, which the test build calls by the version of the package. */
const OWN = `hatside-files ${SCOPE} ${JSON.parse(readFileSync(join(import.meta.dirname, "../../../package.json"), "utf8")).version}`;
const held = (name: string): string[] => [...(caches.all.get(name)?.held.keys() ?? [])];

/** A version before: its cache holds what pages still open on it ask for. */
const earlier = async (name: string, used: string | null, scope = SCOPE): Promise<void> => {
  const cache = await caches.open(name);
  await cache.put(scope, new Response("page"));
  await cache.put(`${scope}assets/a-${used}.js`, new Response(name));
  if (used !== null) await cache.put(`${scope}used?`, new Response(used));
};
const named = (version: string, scope = SCOPE): string => `hatside-files ${scope} ${version}`;

describe("an installation", () => {
  it("keeps every file, and makes a clean answer of one that came by a redirect", async () => {
    server.set(SCOPE, redirected("the page"));
    await tell("install");
    expect(held(OWN)).toEqual([SCOPE, `${SCOPE}assets/a.js`]);
    const answer = await asked(navigation(SCOPE));
    expect(caches.all.get(OWN)?.held.get(SCOPE)?.redirected).toBe(false);
    expect(answer?.headers.get("content-type")).toBe("text/html");
    expect(await answer?.text()).toBe("the page");
  });

  it("keeps nothing where one file is missing", async () => {
    server.set(`${SCOPE}assets/a.js`, new Response("", { status: 404 }));
    await expect(tell("install")).rejects.toThrow("assets/a.js: 404");
    expect([...caches.all.keys()]).toEqual([]);
  });

  it("keeps nothing where there is no room, but what pages run on stays", async () => {
    const { put } = FakeCache.prototype;
    const full = vi.spyOn(FakeCache.prototype, "put").mockImplementation(async function (
      this: FakeCache,
      at,
      answer,
    ) {
      if (this === caches.all.get(OWN)) throw new DOMException("", "QuotaExceededError");
      return put.call(this, at, answer);
    });
    await expect(tell("install")).rejects.toThrow();
    expect([...caches.all.keys()]).toEqual([]);
    full.mockRestore();
    await earlier(OWN, "1");
    vi.spyOn(FakeCache.prototype, "put").mockRejectedValue(new DOMException("", "QuotaExceededError"));
    await expect(tell("install")).rejects.toThrow();
    expect(held(OWN)).toHaveLength(3);
    vi.restoreAllMocks();
  });
});

describe("a version that is accepted", () => {
  it("keeps the files of the one that pages still run on, though another waited in between", async () => {
    await earlier(named("first"), "5");
    await earlier(named("never-accepted"), null);
    await caches.open("another program's");
    await tell("activate");
    expect([...caches.all.keys()]).toEqual([named("first"), "another program's", OWN]);
    const answer = await asked(new Request(`${SCOPE}assets/a-5.js`));
    expect(await answer?.text()).toBe(named("first"));
  });

  it("keeps only the last of those that were in use, also where the server went back to it, and is the next to be kept", async () => {
    await earlier(named("went-back-to"), "7");
    await earlier(named("second"), "6");
    await tell("activate");
    expect([...caches.all.keys()]).toEqual([named("went-back-to"), OWN]);
    expect(held(OWN)).toEqual([`${SCOPE}used?`]);
    const used = await (await caches.open(OWN)).match(`${SCOPE}used?`);
    expect(Number(await used?.text())).toBeGreaterThan(1e12);
  });

  it.each(["https://hall.example/other/", "https://hall.example/app/below/", "https://hall.example/"])(
    "touches nothing of a deployment under %s",
    async (scope) => {
      const theirs = [named("a", scope), named("b", scope)];
      await earlier(theirs[0] ?? "", null, scope);
      await earlier(theirs[1] ?? "", "1", scope);
      await earlier("hatside-files-0123456789ab", "1", scope);
      const before = held("hatside-files-0123456789ab");
      await caches.open("hatside-files-000000000000");
      await earlier(named("last"), "9");
      await tell("activate");
      expect([...caches.all.keys()]).toEqual([
        ...theirs,
        "hatside-files-0123456789ab",
        "hatside-files-000000000000",
        named("last"),
        OWN,
      ]);
      expect(held("hatside-files-0123456789ab")).toEqual(before);
    },
  );

  it("takes its own files out of the caches of before the scope was in their names, and keeps the last of them", async () => {
    const [old, both, last] = ["00", "11", "22"].map((end) => `hatside-files-0123456789${end}`) as [
      string,
      string,
      string,
    ];
    await earlier(old, "");
    await earlier(both, null);
    await earlier(both, "", "https://hall.example/app/below/");
    await earlier(last, "");
    await tell("activate");
    expect([...caches.all.keys()]).toEqual([both, last, OWN]);
    expect(held(both).every((url) => url.startsWith("https://hall.example/app/below/"))).toBe(true);
    expect(held(both)).toHaveLength(3);
    expect(held(last)).toHaveLength(3);
  });
});

describe("asked to look the copy up", () => {
  const page = `${SCOPE}`;
  it("fetches what is missing, also where all is gone, and says that nothing is missing then", async () => {
    await tell("install");
    await caches.delete(OWN);
    expect(await says({ type: "REPAIR" })).toBe(0);
    expect(new Set(held(OWN))).toEqual(new Set([page, `${SCOPE}assets/a.js`, `${SCOPE}used?`]));
  });

  it("leaves what is there, and says how much could not be fetched", async () => {
    const cache = await caches.open(OWN);
    await cache.put(page, new Response("kept"));
    server.set(`${SCOPE}assets/a.js`, new Response("", { status: 500 }));
    expect(await says({ type: "REPAIR" })).toBe(1);
    expect(await (await cache.match(page))?.text()).toBe("kept");
  });

  it("counts every file as missing where the caches cannot be read", async () => {
    caches.broken = true;
    expect(await says({ type: "REPAIR" })).toBe(2);
  });
});

it("says which version it is, and takes over only when it is told to, also by a page of before", async () => {
  expect(OWN).toBe(`hatside-files ${SCOPE} ${await says({ type: "VERSION" })}`);
  await says({ type: "something else" });
  expect(worker.skipped).toBe(0);
  await says({ type: "SKIP_WAITING" });
  await says("accept");
  expect(worker.skipped).toBe(2);
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
    expect(await (await asked(navigation(SCOPE)))?.text()).toBe(`from the network: ${SCOPE}`);
  });

  it("files shared to the app are not kept, and the page is told", async () => {
    const body = new FormData();
    body.append("files", new File(["{}"], "a.hatside"));
    const answer = await asked(new Request(`${SCOPE}share`, { method: "POST", body }));
    expect([answer?.status, answer?.headers.get("location")]).toEqual([303, `${SCOPE}?share-failed`]);
    expect(await says({ type: "SHARE_FAILED" })).toBe("unread");
    expect(await says({ type: "SHARE_FAILED" }), "told twice").toBeNull();
  });
});

it("files that are shared while storage is full are not kept, and the page is told that it is full", async () => {
  const cache = await caches.open("hatside-shared");
  Object.assign(cache, { put: () => Promise.reject(new DOMException("no room", "QuotaExceededError")) });
  const body = new FormData();
  body.append("files", new File(["{}"], "a.hatside"));
  const answer = await asked(new Request(`${SCOPE}share`, { method: "POST", body }));
  expect(answer?.headers.get("location")).toBe(`${SCOPE}?share-failed`);
  expect(await says({ type: "SHARE_FAILED" })).toBe("full");
});

it("keeps files that are shared under their names", async () => {
  const body = new FormData();
  body.append("files", new File(["{}"], "a b.hatside"));
  const answer = await asked(new Request(`${SCOPE}share`, { method: "POST", body }));
  expect(answer?.headers.get("location")).toBe(`${SCOPE}?shared`);
  expect(await says({ type: "SHARE_FAILED" })).toBeNull();
  const [kept = ""] = [...(caches.all.get("hatside-shared")?.held.keys() ?? [])];
  expect(kept).toMatch(/\/a%20b\.hatside$/);
});
