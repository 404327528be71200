import { type Signal, signal } from "@preact/signals-core";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { type Turns, takeTurns } from "../../src/shelf/tabs";
import { fakeChannels, fakeLocks } from "./locks";

interface Tab {
  readonly turns: Turns;
  readonly watching: Signal<boolean>;
  /** What was asked of it, in order. */
  readonly log: string[];
}

let locks: ReturnType<typeof fakeLocks>;
let channels: ReturnType<typeof fakeChannels>;

const openTab = async (
  more: { saves?: Promise<void>; reads?: Promise<void>; frozen?: boolean } = {},
): Promise<Tab> => {
  const watching = signal(false);
  const log: string[] = [];
  const note = async (what: string) => {
    log.push(`${what}${watching.peek() ? " watching" : ""}`);
  };
  const channel = channels();
  const browser = { locks, channel: more.frozen ? { ...channel, postMessage: () => {} } : channel };
  const turns = await takeTurns(browser, watching, {
    gain: async () => {
      await note("gain");
      await more.reads;
    },
    lose: async () => {
      await note("lose");
      await more.saves;
    },
    changed: () => note("changed"),
  });
  return { turns, watching, log };
};
const later = (ms = 0) => vi.advanceTimersByTimeAsync(ms);
const roles = (...tabs: Tab[]) => tabs.map((tab) => (tab.watching.value ? "watches" : "edits"));

beforeEach(() => {
  vi.useFakeTimers();
  locks = fakeLocks();
  channels = fakeChannels();
});
afterEach(() => {
  vi.useRealTimers();
});

describe("two tabs", () => {
  it("the first edits, the second watches", async () => {
    const [a, b] = [await openTab(), await openTab()];
    expect(roles(a, b)).toEqual(["edits", "watches"]);
    expect([a.log, b.log]).toEqual([[], []]);
  });

  it("the second takes over: the first saves before it stops, the second reads before it edits", async () => {
    let safe: () => void = () => {};
    const saves = new Promise<void>((resolve) => {
      safe = resolve;
    });
    const [a, b] = [await openTab({ saves }), await openTab()];
    b.turns.takeOver();
    await later(10);
    expect(roles(a, b)).toEqual(["watches", "watches"]);
    expect([a.log, b.log]).toEqual([["lose"], []]);
    safe();
    await later();
    expect(roles(a, b)).toEqual(["watches", "edits"]);
    expect([a.log, b.log]).toEqual([["lose"], ["gain watching"]]);
  });

  it("it goes back and forth", async () => {
    const [a, b] = [await openTab(), await openTab()];
    for (const tab of [b, a, b, a, b, a]) {
      tab.turns.takeOver();
      await later(10);
      expect(roles(a, b)).toEqual(tab === a ? ["edits", "watches"] : ["watches", "edits"]);
      expect(locks.waiting()).toBeLessThanOrEqual(2);
    }
  });

  it("one that does not answer loses its turn after a while, and saves when it wakes", async () => {
    const a = await openTab({ frozen: true, saves: new Promise(() => {}) });
    const b = await openTab();
    b.turns.takeOver();
    await later(1400);
    expect(b.watching.value).toBe(true);
    await later(200);
    expect(roles(a, b)).toEqual(["watches", "edits"]);
    expect(a.log).toEqual(["lose"]);
  });

  it("the watching one hears of what was saved, the editing one does not hear itself", async () => {
    const [a, b] = [await openTab(), await openTab()];
    a.turns.saved();
    await later();
    expect([a.log, b.log]).toEqual([[], ["changed watching"]]);
  });

  it("one that loses its turn while it still reads does not edit", async () => {
    let ready: () => void = () => {};
    const reads = new Promise<void>((resolve) => {
      ready = resolve;
    });
    const [a, b] = [await openTab(), await openTab({ reads })];
    b.turns.takeOver();
    await later(10);
    a.turns.takeOver();
    await later(2000);
    ready();
    await later();
    expect(roles(a, b)).toEqual(["edits", "watches"]);
  });

  it("nobody takes over from themselves", async () => {
    const a = await openTab();
    a.turns.takeOver();
    await later(2000);
    expect([roles(a), a.log]).toEqual([["edits"], []]);
  });
});

describe("three tabs", () => {
  it("have one that edits, whoever takes over", async () => {
    const tabs = [await openTab(), await openTab(), await openTab()] as const;
    for (const at of [2, 1, 0, 2] as const) {
      tabs[at].turns.takeOver();
      await later(10);
      expect(roles(...tabs).map((role, tab) => (role === "edits" ? tab : null))).toEqual(
        [0, 1, 2].map((tab) => (tab === at ? tab : null)),
      );
    }
  });
});

describe("a tab that closes", () => {
  it("leaves its turn to the one that waits", async () => {
    let close: () => void = () => {};
    // Another page has the lock and lets it go.
    locks.request("hatside-edit", {}, () => new Promise<void>((resolve) => (close = resolve)));
    const b = await openTab();
    expect(roles(b)).toEqual(["watches"]);
    close();
    await later();
    expect([roles(b), b.log]).toEqual([["edits"], ["gain watching"]]);
  });
});

describe("a tab whose turn was taken", () => {
  it("has it again once the other closes", async () => {
    const a = await openTab();
    let close: () => void = () => {};
    const elsewhere = () => new Promise<void>((resolve) => (close = resolve));
    locks.request("hatside-edit", { steal: true }, elsewhere);
    await later();
    expect([roles(a), a.log]).toEqual([["watches"], ["lose"]]);
    close();
    await later();
    expect([roles(a), a.log]).toEqual([["edits"], ["lose", "gain watching"]]);
  });
});

describe("a browser without locks", () => {
  it("lets every tab edit", async () => {
    const watching = signal(false);
    const hooks = { gain: async () => {}, lose: async () => {}, changed: async () => {} };
    const turns = await takeTurns({ locks: undefined, channel: channels() }, watching, hooks);
    await turns.takeOver();
    expect(watching.value).toBe(false);
  });

  it("as one that refuses them, where a page may keep nothing", async () => {
    const refused = { request: () => Promise.reject(new DOMException("no", "SecurityError")) };
    locks = refused as unknown as typeof locks;
    const a = await openTab();
    await later(2000);
    expect([roles(a), a.log]).toEqual([["edits"], []]);
  });
});

it("where locks never answer, the tab edits after 10 s, and watches should it turn out that another has the turn", async () => {
  let answer: (lock: null) => unknown = () => {};
  const request = ((_: string, __: LockOptions, granted: typeof answer) => {
    answer = granted;
    return new Promise(() => {});
  }) as unknown as LockManager["request"];
  const watching = signal(false);
  let isKnown = false;
  const hooks = { gain: async () => {}, lose: async () => {}, changed: async () => {} };
  void takeTurns({ locks: { request }, channel: channels() }, watching, hooks).then(() => {
    isKnown = true;
  });
  await later(9900);
  expect(isKnown).toBe(false);
  await later(200);
  expect([isKnown, watching.value]).toEqual([true, false]);
  answer(null);
  expect(watching.value).toBe(true);
});
