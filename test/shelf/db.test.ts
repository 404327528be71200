import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import type { Cupboard } from "../../src/shelf/cupboard";
import { indexedCupboard } from "../../src/shelf/db";
import { isStorageSlow } from "../../src/shelf/patience";
import { troubleOf } from "../../src/shelf/trouble";
import { ENGINE_PARTS, type Engine, newEngine } from "./engine";

let engine: Engine;
beforeEach(() => {
  vi.useFakeTimers();
  engine = newEngine();
  vi.stubGlobal("indexedDB", engine.indexedDB);
  for (const [name, part] of Object.entries(ENGINE_PARTS)) vi.stubGlobal(name, part);
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** How it ended, once the engine has had time for it. */
const outcome = async (work: Promise<unknown>, ms = 100): Promise<string> => {
  const end = work.then(
    () => "done",
    (error: unknown) => troubleOf(error),
  );
  let is = "still waiting";
  void end.then((how) => {
    is = how;
  });
  await vi.advanceTimersByTimeAsync(ms);
  return is;
};
const opened = async (): Promise<Cupboard> => {
  const cupboard = indexedCupboard("test");
  expect(await outcome(cupboard)).toBe("done");
  return cupboard;
};
const lay = (cupboard: Cupboard, key: string, value: unknown): Promise<string> =>
  outcome(cupboard.update(key, () => value));
const openOnes = (): number => engine.connections.filter(({ closed }) => !closed).length;
const connection = (at: number) => {
  const found = engine.connections[at];
  if (!found) throw new Error(`there were only ${engine.connections.length} connections`);
  return found;
};
const named = (name: string): Error => new DOMException("of the engine", name);

describe("a cupboard in the browser's storage", () => {
  it("keeps, changes and takes away, without waiting for the disk", async () => {
    const cupboard = await opened();
    expect(await lay(cupboard, "a", 1)).toBe("done");
    expect(await outcome(cupboard.update("a", (was) => Number(was) + 1))).toBe("done");
    await lay(cupboard, "b", { deep: [2] });
    expect([...engine.things]).toEqual([
      ["a", 2],
      ["b", { deep: [2] }],
    ]);
    const all = cupboard.all();
    const one = cupboard.get("b");
    await vi.advanceTimersByTimeAsync(100);
    expect([...(await all)]).toEqual([...engine.things]);
    expect(await one).toEqual({ deep: [2] });
    await lay(cupboard, "a", undefined);
    expect([...engine.things.keys()]).toEqual(["b"]);
    expect(new Set(engine.durability)).toEqual(new Set(["relaxed"]));
    expect(engine.connections).toHaveLength(1);
  });

  it("gives what it can where something in it is damaged, and fails only where everything is", async () => {
    const cupboard = await opened();
    for (const key of ["a", "b", "c"]) await lay(cupboard, key, `lies under ${key}`);
    engine.damaged.add("b");
    const all = cupboard.all();
    expect(await outcome(all)).toBe("done");
    expect([...(await all)]).toEqual([
      ["a", "lies under a"],
      ["b", { name: "Damaged entry", text: "" }],
      ["c", "lies under c"],
    ]);
    expect(await outcome(cupboard.get("b"))).toBe("the browser’s storage is damaged");
    engine.damaged.add("a").add("c");
    expect(await outcome(cupboard.all())).toBe("the browser’s storage is damaged");
  });

  it("is not there where the browser has none, refuses it, or finds it damaged", async () => {
    engine.fails.open = named("UnknownError");
    expect(await outcome(indexedCupboard("test"))).toBe("the browser’s storage is refused or damaged");
    engine.fails.open = named("SecurityError");
    expect(await outcome(indexedCupboard("test"))).toBe("the browser does not let this page keep data");
    engine.fails.open = named("VersionError");
    expect(await outcome(indexedCupboard("test"))).toMatch(/^a newer version of Hatside .* still there/);
    vi.stubGlobal("indexedDB", {
      open: () => {
        throw named("SecurityError");
      },
    });
    expect(await outcome(indexedCupboard("test"))).toBe("the browser does not let this page keep data");
    vi.stubGlobal("indexedDB", undefined);
    expect(await outcome(indexedCupboard("test"))).toBe("this browser keeps no data for pages");
  });
});

describe("an engine that does not answer", () => {
  const NO_ANSWER = "the browser’s storage does not answer";

  it("is given up after 10 s; a connection that comes later stays open for nobody", async () => {
    engine.hangs = true;
    const cupboard = indexedCupboard("test");
    expect(await outcome(cupboard, 9900)).toBe("still waiting");
    expect(await outcome(cupboard, 200)).toBe(NO_ANSWER);
    engine.answer();
    await vi.advanceTimersByTimeAsync(10);
    expect(engine.connections).toHaveLength(1);
    expect(openOnes()).toBe(0);
  });

  it("is said to be slow after 2 s, until it answers or is given up", async () => {
    const cupboard = await opened();
    engine.isBusy = true;
    const change = cupboard.update("a", () => 1);
    expect(await outcome(change, 1900)).toBe("still waiting");
    expect(isStorageSlow.value).toBe(false);
    expect(await outcome(change, 200)).toBe("still waiting");
    expect(isStorageSlow.value).toBe(true);
    engine.answer();
    expect(await outcome(change)).toBe("done");
    expect(isStorageSlow.value).toBe(false);
    engine.isBusy = true;
    expect(await outcome(cupboard.get("a"), 10_100)).toBe(NO_ANSWER);
    expect(isStorageSlow.value).toBe(false);
  });

  it.each<[string, (cupboard: Cupboard) => Promise<unknown>]>([
    ["one thing", (cupboard) => cupboard.get("a")],
    ["everything, and not once more for each thing", (cupboard) => cupboard.all()],
    ["a change", (cupboard) => cupboard.update("a", () => 2)],
    ["a last change", (cupboard) => cupboard.update("a", () => 2, 1)],
  ])("while another page holds it is given up after 10 s: %s", async (_, ask) => {
    const cupboard = await opened();
    await lay(cupboard, "a", 1);
    engine.isBusy = true;
    const asked = ask(cupboard);
    expect(await outcome(asked, 9900)).toBe("still waiting");
    expect(await outcome(asked, 200)).toBe(NO_ANSWER);
    expect(vi.getTimerCount()).toBe(0);
  });

  it("does not make a change later that was given up, and serves the next one", async () => {
    const cupboard = await opened();
    await lay(cupboard, "a", 1);
    engine.isBusy = true;
    expect(
      await outcome(
        cupboard.update("a", () => 2),
        10_100,
      ),
    ).toBe(NO_ANSWER);
    engine.answer();
    await vi.advanceTimersByTimeAsync(100);
    expect(engine.things.get("a")).toBe(1);
    expect(await lay(cupboard, "a", 3)).toBe("done");
    expect([engine.things.get("a"), openOnes()]).toEqual([3, 1]);
  });

  it("is waited for no longer once it has answered", async () => {
    await opened();
    expect(vi.getTimerCount()).toBe(0);
  });
});

describe("a connection that breaks", () => {
  it("gives way to another that changes or deletes the whole, and is opened again when needed", async () => {
    const cupboard = await opened();
    connection(0).face.tell("versionchange");
    await vi.advanceTimersByTimeAsync(10);
    expect(openOnes()).toBe(0);
    expect(await lay(cupboard, "a", 1)).toBe("done");
    expect(engine.things.get("a")).toBe(1);
    connection(1).face.tell("versionchange");
    await vi.advanceTimersByTimeAsync(10);
    expect(openOnes()).toBe(0);
  });

  it("is opened again after the browser closed it", async () => {
    const cupboard = await opened();
    connection(0).face.tell("close");
    expect(await lay(cupboard, "a", 1)).toBe("done");
    expect([engine.things.get("a"), engine.connections.length, openOnes()]).toEqual([1, 2, 1]);
  });

  it("without a word is found out at the next change, which is made all the same", async () => {
    const cupboard = await opened();
    engine.broken = 1;
    expect(await lay(cupboard, "a", 1)).toBe("done");
    expect([engine.things.get("a"), engine.connections.length, openOnes()]).toEqual([1, 2, 1]);
  });

  it("twice fails, and the next change tries anew", async () => {
    const cupboard = await opened();
    engine.broken = 2;
    expect(await lay(cupboard, "a", 1)).toBe("the browser closed its storage");
    expect(engine.things.size).toBe(0);
    expect(await lay(cupboard, "a", 2)).toBe("done");
    expect(openOnes()).toBe(1);
  });

  it("keeps the order of changes, and one connection serves them all", async () => {
    const cupboard = await opened();
    connection(0).face.close();
    const all = ["A", "B", "C"].map((letter) => cupboard.update("a", (was) => `${was ?? ""}${letter}`));
    expect(await outcome(Promise.all(all))).toBe("done");
    expect(engine.things.get("a")).toBe("ABC");
    expect([engine.connections.length, openOnes()]).toEqual([2, 1]);
  });

  it("cannot be opened again: said, and tried again at the next change", async () => {
    const cupboard = await opened();
    connection(0).face.tell("close");
    engine.fails.open = named("UnknownError");
    expect(await lay(cupboard, "a", 1)).toBe("the browser’s storage is refused or damaged");
    engine.fails.open = null;
    expect(await lay(cupboard, "a", 2)).toBe("done");
    expect(engine.things.get("a")).toBe(2);
  });
});

describe("a change that the engine takes back", () => {
  it.each([
    ["request", "QuotaExceededError", "the browser’s storage is full"],
    ["commit", "QuotaExceededError", "the browser’s storage is full"],
    ["commit", "UnknownError", "the browser’s storage is refused or damaged"],
  ] as const)(
    "at its %s with %s fails with that reason; the next works, on a new connection",
    async (when, name, says) => {
      const cupboard = await opened();
      await lay(cupboard, "a", 1);
      engine.fails[when] = named(name);
      expect(await lay(cupboard, "a", 2)).toBe(says);
      expect(engine.things.get("a")).toBe(1);
      engine.fails[when] = null;
      expect(await lay(cupboard, "a", 3)).toBe("done");
      expect([engine.things.get("a"), engine.connections.length, openOnes()]).toEqual([3, 2, 1]);
    },
  );

  it("without a reason is no success", async () => {
    const cupboard = await opened();
    engine.fails.commit = Object.assign(new Error(), { message: "" });
    expect(await lay(cupboard, "a", 2)).toBe("the browser gives no reason");
  });

  it("reads that fail are told too", async () => {
    const cupboard = await opened();
    engine.fails.request = named("DataError");
    expect(await outcome(cupboard.all())).toBe("the browser’s storage is damaged");
    expect(await outcome(cupboard.get("a"))).toBe("the browser’s storage is damaged");
  });

  it("because it cannot be worked out or copied leaves what was there, with that reason", async () => {
    const cupboard = await opened();
    await lay(cupboard, "a", 1);
    const odd = cupboard.update("a", () => {
      throw new Error("no such thing");
    });
    expect(await outcome(odd)).toBe("no such thing");
    expect(await lay(cupboard, "a", () => {})).toMatch(/could not be cloned/);
    expect(engine.things.get("a")).toBe(1);
  });
});

describe("a page that is closed at once", () => {
  const next = (was: unknown): unknown => (was === 1 ? 2 : was);

  it.each([
    ["with a guess has handed the change over", 1, 2],
    ["without one has not: the browser takes it back", undefined, 1],
  ])("%s", async (_, guess, is) => {
    const cupboard = await opened();
    await lay(cupboard, "a", 1);
    void cupboard.update("a", next, guess);
    await Promise.resolve();
    engine.gone = true;
    await vi.advanceTimersByTimeAsync(100);
    expect(engine.things.get("a")).toBe(is);
  });

  it("has handed it over also while another change waits for its answer", async () => {
    const cupboard = await opened();
    await lay(cupboard, "a", 1);
    cupboard.update("a", () => 5).catch(() => {});
    void cupboard.update("a", next, 1);
    await Promise.resolve();
    engine.gone = true;
    await vi.advanceTimersByTimeAsync(100);
    expect(engine.things.get("a")).toBe(2);
  });

  it.each([0, 1, 2, 3, 4, 5])(
    "has handed it over whatever became of another change until then, %i turns on",
    async (turns) => {
      const cupboard = await opened();
      await lay(cupboard, "a", 1);
      cupboard.update("a", () => 1).catch(() => {});
      await Promise.resolve();
      for (let turn = 0; turn < turns; turn += 1) await vi.advanceTimersToNextTimerAsync();
      expect(await outcome(cupboard.update("a", next, 1))).toBe("done");
      expect(engine.things.get("a")).toBe(2);
    },
  );

  it("and goes on after all hears how it ended", async () => {
    const cupboard = await opened();
    await lay(cupboard, "a", 1);
    expect(await outcome(cupboard.update("a", next, 1))).toBe("done");
    expect(engine.things.get("a")).toBe(2);
    engine.fails.commit = named("QuotaExceededError");
    expect(await outcome(cupboard.update("a", () => 3, 2))).toBe("the browser’s storage is full");
    expect(engine.things.get("a")).toBe(2);
    const odd = cupboard.update("a", () => () => {}, 2);
    expect(await outcome(odd)).toMatch(/could not be cloned/);
  });
});
