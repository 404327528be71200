import { afterEach, beforeEach, expect, it, vi } from "vitest";
import type { Missing } from "../../src/offline/names";
import { receiveFiles } from "../../src/offline/received";
import { ROOT } from "../../src/offline/root";
import { FakeCaches } from "./caches";

let caches: FakeCaches;
let told: (readonly [names: readonly string[], missing: Missing | null])[];
let launch: (launch: { files: readonly { getFile: () => Promise<File> }[] }) => void;

/** How many shared files wait still. */
const waiting = (): number => caches.all.get("hatside-shared")?.held.size ?? 0;
const share = async (name: string, answer = new Response("{}"), to = ROOT): Promise<void> =>
  (await caches.open("hatside-shared")).put(`${to}shared/1/${encodeURIComponent(name)}`, answer);
const begin = async (): Promise<void> => {
  receiveFiles((files, missing) => {
    told.push([files.map((file) => file.name), missing]);
    expect(waiting(), "taken out before they were handed over").toBe(before);
  });
  await vi.waitFor(() => expect(waiting()).toBe(0));
};
let before = 0;

beforeEach(() => {
  caches = new FakeCaches();
  told = [];
  before = 0;
  vi.stubGlobal("caches", caches);
  vi.stubGlobal("location", { search: "" });
  vi.stubGlobal("navigator", {});
  vi.stubGlobal("launchQueue", {
    setConsumer: (take: typeof launch) => {
      launch = take;
    },
  });
});
afterEach(() => vi.unstubAllGlobals());

it("hands shared files over, and only then takes them out", async () => {
  await share("a b.hatside");
  await share("c.wav");
  before = 2;
  await begin();
  expect(told).toEqual([[["a b.hatside", "c.wav"], null]]);
});

it("hands over the others where one cannot be read, and says that it is not all", async () => {
  const broken = new Response("x");
  broken.clone = () => ({ blob: () => Promise.reject(new Error("gone")) }) as unknown as Response;
  await share("broken.wav", broken);
  await share("whole.wav");
  before = 2;
  await begin();
  expect(told).toEqual([[["whole.wav"], "unread"]]);
});

it("hands over every file that the app was opened with and that is still there", async () => {
  await begin();
  launch({
    files: [
      { getFile: async () => new File([], "a.hatside") },
      { getFile: () => Promise.reject(new DOMException("", "NotFoundError")) },
      { getFile: async () => new File([], "b.hatside") },
    ],
  });
  await vi.waitFor(() => expect(told).toEqual([[["a.hatside", "b.hatside"], "unread"]]));
});

const lost: (typeof told)[number] = [[], "unread"];

/** The address says that files were shared which could not be kept; the worker says whether that is so. */
const beginFailed = async (why: Missing | null): Promise<void> => {
  vi.stubGlobal("location", { search: "?share-failed" });
  vi.stubGlobal(
    "MessageChannel",
    class {
      port1: { onmessage?: (event: { data: Missing | null }) => void } = {};
      port2 = () => this.port1.onmessage?.({ data: why });
    },
  );
  const controller = {
    postMessage: ({ type }: { type: string }, [answer]: (() => void)[]) =>
      type === "SHARE_FAILED" && queueMicrotask(() => answer?.()),
  };
  vi.stubGlobal("navigator", { serviceWorker: { controller } });
  caches.broken = true;
  await begin();
  await new Promise((done) => setTimeout(done));
};

it.each(["unread", "full"] as const)(
  "says that files were shared which could not be kept, and why: %s",
  async (why) => {
    await beginFailed(why);
    expect(told).toEqual([[[], why]]);
  },
);

it("says nothing where only the address says so, which anybody can link to", async () => {
  await beginFailed(null);
  expect(told).toEqual([]);
  vi.stubGlobal("navigator", {});
  await begin();
  expect(told).toEqual([]);
});

it("leaves what was shared to another deployment of the origin", async () => {
  await share("theirs.wav", undefined, "https://hall.example/other/");
  await share("ours.wav");
  before = 2;
  receiveFiles((files, missing) => told.push([files.map((file) => file.name), missing]));
  await vi.waitFor(() => expect(waiting()).toBe(1));
  expect(told).toEqual([[["ours.wav"], null]]);
});

it("says that shared files cannot be reached now, and leaves them where they are", async () => {
  await share("a.hatside");
  const { held } = await caches.open("hatside-shared");
  caches.open = () => Promise.reject(new DOMException("", "UnknownError"));
  receiveFiles((files, missing) => told.push([files.map((file) => file.name), missing]));
  await vi.waitFor(() => expect(told).toEqual([lost]));
  expect(held.size).toBe(1);
});

it("says nothing where nothing came", async () => {
  await begin();
  launch({ files: [] });
  await Promise.resolve();
  expect(told).toEqual([]);
});
