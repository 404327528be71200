import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { startOffline } from "../../src/offline/update";

/** One version; it says which, and how many files of the copy are missing. */
class FakeWorker extends EventTarget {
  state = "installing";
  readonly scriptURL = "https://hall.example/app/sw.js";
  readonly asked: string[] = [];
  missing = 0;
  constructor(readonly version: string | null) {
    super();
  }
  readonly postMessage = ({ type }: { type: string }, [port]: { answer(data: unknown): void }[]): void => {
    this.asked.push(type);
    if (type === "VERSION" && this.version !== null) port?.answer(this.version);
    if (type === "REPAIR") port?.answer(this.missing);
  };
  become(state: string): void {
    this.state = state;
    const event = new Event("statechange");
    this.dispatchEvent(event);
  }
}
/** As the platform's, but answers at once. */
class FakeChannel {
  readonly port1: { onmessage?: (event: { data: unknown }) => void } = {};
  readonly port2 = { answer: (data: unknown) => queueMicrotask(() => this.port1.onmessage?.({ data })) };
}
class FakeRegistration extends EventTarget {
  installing: FakeWorker | null = null;
  waiting: FakeWorker | null = null;
  active: FakeWorker | null = null;
}
class FakeContainer extends EventTarget {
  controller: FakeWorker | null = null;
  readonly ready: Promise<FakeRegistration>;
  /** A first version is active. */
  arrive: () => void = () => {};
  constructor() {
    super();
    this.ready = new Promise((done) => {
      this.arrive = () => done(registration);
    });
  }
  isThere = true;
  registered = 0;
  register = async (): Promise<FakeRegistration> => {
    this.isThere = true;
    this.registered += 1;
    return registration;
  };
  readonly getRegistration = async () => (this.isThere ? registration : undefined);
  /** Another worker takes the page over. */
  takenBy(worker: FakeWorker): void {
    registration.waiting = null;
    registration.active = worker;
    this.controller = worker;
    this.dispatchEvent(new Event("controllerchange"));
  }
}

let registration: FakeRegistration;
let container: FakeContainer;
let page: EventTarget;
let reloads: number;
let told: string[];
let accept: () => void;
let look: () => Promise<void>;
/** Lets everything happen that is under way. */
const settle = (): Promise<void> => new Promise((done) => setTimeout(done, 5));
const begin = async (): Promise<void> => {
  look = startOffline({
    ready: () => told.push("ready"),
    waiting: (take) => {
      if (take) accept = take;
      told.push(take ? "waiting" : "not waiting");
    },
    failed: (why) => told.push(`failed: ${why}`),
  });
  await settle();
};
/** A version is found, and waits in the place of any other. */
const bring = async (worker: FakeWorker): Promise<void> => {
  registration.installing = worker;
  registration.dispatchEvent(new Event("updatefound"));
  registration.installing = null;
  registration.waiting?.become("redundant");
  registration.waiting = worker;
  worker.become("installed");
  await settle();
};

beforeEach(() => {
  registration = new FakeRegistration();
  container = new FakeContainer();
  page = Object.assign(new EventTarget(), {
    visibilityState: "visible",
    baseURI: "https://hall.example/app/",
  });
  reloads = 0;
  told = [];
  vi.stubGlobal("self", globalThis);
  vi.stubGlobal("MessageChannel", FakeChannel);
  vi.stubGlobal("navigator", { serviceWorker: container });
  vi.stubGlobal("document", page);
  vi.stubGlobal("addEventListener", () => {});
  vi.stubGlobal("location", {
    href: "https://hall.example/app/",
    reload: () => {
      reloads += 1;
    },
  });
});
afterEach(() => vi.unstubAllGlobals());

describe("a first visit", () => {
  let first: FakeWorker;
  beforeEach(async () => {
    first = new FakeWorker("A");
    registration.installing = first;
    await begin();
    registration.dispatchEvent(new Event("updatefound"));
  });

  it("promises nothing before the copy stands, and nothing is another version when it takes the page", async () => {
    expect(told).toEqual([]);
    registration.installing = null;
    registration.active = first;
    first.become("activating");
    container.arrive();
    container.takenBy(first);
    await settle();
    expect(told).toEqual([]);
    first.become("activated");
    await settle();
    expect(told).toEqual(["ready"]);
  });

  it("tells of a newer one that another tab accepted, and then only reloads", async () => {
    registration.installing = null;
    container.arrive();
    container.takenBy(first);
    await settle();
    const newer = new FakeWorker("B");
    container.takenBy(newer);
    await settle();
    expect(told).toEqual(["waiting"]);
    accept();
    expect([reloads, newer.asked.includes("SKIP_WAITING")]).toEqual([1, false]);
  });

  it("says why there is no copy when its files did not arrive, and does not try for ever", async () => {
    first.become("redundant");
    container.isThere = false;
    await settle();
    expect(new Set(told)).toEqual(new Set(["failed: some files did not arrive whole"]));
    expect(container.registered).toBe(1);
  });
});

describe("a later visit", () => {
  let own: FakeWorker;
  let newer: FakeWorker;
  beforeEach(async () => {
    [own, newer] = [new FakeWorker("A"), new FakeWorker("B")];
    own.state = "activated";
    registration.active = own;
    container.controller = own;
    container.arrive();
    await begin();
  });

  it("looks the copy up before it promises anything, and again each time that the page is seen", async () => {
    expect(told).toEqual(["ready"]);
    expect(own.asked.filter((word) => word === "REPAIR")).toHaveLength(1);
    own.missing = 3;
    page.dispatchEvent(new Event("visibilitychange"));
    await settle();
    expect(told).toEqual(["ready", "failed: 3 files are missing on this device"]);
    own.missing = 0;
    await look();
    expect(told.at(-1)).toBe("ready");
    expect(
      own.asked.filter((word) => word === "VERSION"),
      "asked once",
    ).toHaveLength(1);
  });

  it("keeps the app anew where all that the browser kept of it was cleared while it was open", async () => {
    const again = new FakeWorker("A");
    container.isThere = false;
    own.become("redundant");
    registration.active = null;
    registration.installing = again;
    told = [];
    await look();
    expect([container.registered, told]).toEqual([2, []]);
    registration.installing = null;
    again.state = "activating";
    container.takenBy(again);
    again.become("activated");
    await look();
    expect(told).toEqual(["ready"]);
  });

  it("offers a newer version, and reloads once it is accepted here and has taken over", async () => {
    await bring(newer);
    expect(told).toEqual(["ready", "waiting"]);
    expect([newer.asked.includes("SKIP_WAITING"), reloads]).toEqual([false, 0]);
    accept();
    expect(newer.asked).toContain("SKIP_WAITING");
    container.takenBy(newer);
    expect(reloads).toBe(1);
  });

  it("asks nothing more of any version once it agreed, which would keep the one in use busy", async () => {
    await bring(newer);
    accept();
    const asked = own.asked.length;
    await look();
    expect(own.asked).toHaveLength(asked);
  });

  it("goes on as it is when another tab accepts, and offers it still", async () => {
    await bring(newer);
    container.takenBy(newer);
    await settle();
    expect([told, reloads]).toEqual([["ready", "waiting"], 0]);
    accept();
    expect([reloads, newer.asked.includes("SKIP_WAITING")]).toEqual([1, false]);
  });

  it("offers nothing where the server went back to the version in use, and takes back what it offered", async () => {
    await bring(newer);
    await bring(new FakeWorker("A"));
    expect(told).toEqual(["ready", "waiting", "not waiting"]);
    await bring(new FakeWorker("C"));
    expect(told.at(-1)).toBe("waiting");
  });

  it("offers a version that does not say which it is, also where this page’s own does not", async () => {
    own = new FakeWorker(null);
    own.state = "activated";
    registration = new FakeRegistration();
    registration.active = own;
    container = new FakeContainer();
    container.controller = own;
    vi.stubGlobal("navigator", { serviceWorker: container });
    vi.useFakeTimers({ toFake: ["setTimeout"] });
    try {
      registration.waiting = new FakeWorker(null);
      registration.waiting.state = "installed";
      const begun = begin();
      await vi.advanceTimersByTimeAsync(5000);
      await begun;
      expect(told).toContain("waiting");
    } finally {
      vi.useRealTimers();
    }
  });

  it("offers one that was on its way before this page looked", async () => {
    const late = new FakeRegistration();
    late.active = own;
    late.installing = newer;
    registration = late;
    container.isThere = false;
    await look();
    late.installing = null;
    late.waiting = newer;
    newer.become("installed");
    await settle();
    expect(told.at(-1)).toBe("waiting");
  });
});

it("says why nothing is kept where the browser keeps no apps, or refuses", async () => {
  container.register = () => Promise.reject(new Error("no room"));
  await begin();
  vi.stubGlobal("navigator", {});
  await begin();
  expect(told).toEqual([
    "failed: no room",
    "failed: this browser keeps no apps, or the page did not come over https",
  ]);
});
