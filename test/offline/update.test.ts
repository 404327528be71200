import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { startOffline } from "../../src/offline/update";

class FakeWorker extends EventTarget {
  state = "installing";
  readonly messages: unknown[] = [];
  readonly postMessage = (message: unknown): void => {
    this.messages.push(message);
  };
  become(state: string): void {
    this.state = state;
    this.dispatchEvent(new Event("statechange"));
  }
}
class FakeRegistration extends EventTarget {
  installing: FakeWorker | null = null;
  waiting: FakeWorker | null = null;
  active: FakeWorker | null = null;
}
class FakeContainer extends EventTarget {
  controller: FakeWorker | null = null;
  ready: Promise<void> = new Promise(() => {});
  register = async (): Promise<FakeRegistration> => registration;
  /** Another worker takes the page over. */
  takenBy(worker: FakeWorker): void {
    this.controller = worker;
    this.dispatchEvent(new Event("controllerchange"));
  }
}

let registration: FakeRegistration;
let container: FakeContainer;
let reloads: number;
let told: string[];
let accept: () => void;
const begin = async (): Promise<void> => {
  startOffline({
    ready: () => told.push("ready"),
    waiting: (take) => {
      accept = take;
      told.push("waiting");
    },
    failed: (why) => told.push(`failed: ${why}`),
  });
  await Promise.resolve();
  await Promise.resolve();
};

beforeEach(() => {
  registration = new FakeRegistration();
  container = new FakeContainer();
  reloads = 0;
  told = [];
  vi.stubGlobal("navigator", { serviceWorker: container });
  vi.stubGlobal("document", { baseURI: "https://hall.example/" });
  vi.stubGlobal("location", {
    reload: () => {
      reloads += 1;
    },
  });
});
afterEach(() => vi.unstubAllGlobals());

describe("a first visit", () => {
  beforeEach(async () => {
    registration.installing = new FakeWorker();
    await begin();
  });

  it("says nothing when its own version takes the page, but tells of a newer one that another tab accepted", () => {
    const own = registration.installing as FakeWorker;
    registration.installing = null;
    registration.active = own;
    container.takenBy(own);
    expect(told).toEqual([]);
    container.takenBy(new FakeWorker());
    expect(told).toEqual(["waiting"]);
    accept();
    expect(reloads).toBe(1);
  });

  it("says why there is no copy when its files did not arrive", () => {
    registration.installing?.become("redundant");
    expect(told).toEqual(["failed: some files did not arrive whole"]);
  });
});

describe("a later visit", () => {
  let newer: FakeWorker;
  beforeEach(async () => {
    newer = new FakeWorker();
    registration.active = new FakeWorker();
    container.controller = registration.active;
    await begin();
    registration.installing = newer;
    registration.dispatchEvent(new Event("updatefound"));
    registration.waiting = newer;
    newer.become("installed");
  });

  it("offers a newer version, and reloads once it is accepted here and has taken over", () => {
    expect(told).toEqual(["waiting"]);
    expect([newer.messages, reloads]).toEqual([[], 0]);
    accept();
    expect(newer.messages).toEqual(["accept"]);
    container.takenBy(newer);
    expect(reloads).toBe(1);
  });

  it("goes on as it is when another tab accepts, and offers it still", () => {
    container.takenBy(newer);
    expect([told, reloads]).toEqual([["waiting", "waiting"], 0]);
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
