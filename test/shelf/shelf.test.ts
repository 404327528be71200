import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { dragPan } from "../../src/document/commands/channels";
import { rename } from "../../src/document/commands/settings";
import { exampleSetup } from "../../src/document/example";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import { type SetupFile, VERSION } from "../../src/document/schema";
import { canUndo, current, load, readOnly, redo, run, undo } from "../../src/document/store";
import { templateSetup } from "../../src/document/templates";
import { SAVE_AFTER } from "../../src/shelf/autosave";
import type { Cupboard } from "../../src/shelf/cupboard";
import { createShelf, type Shelf } from "../../src/shelf/shelf";
import type { ReadTally } from "../../src/shelf/tally";
import { full, type ShakyCupboard, shakyCupboard } from "./shaky-cupboard";

const example = exampleSetup();
const KEY = "setup-a";

const record = (file: SetupFile, changed = 1, more = {}) => ({
  name: file.name,
  changed,
  text: printSetup(file),
  writer: "earlier",
  revision: 7,
  ...more,
});

let cupboard: ShakyCupboard;
let shelf: Shelf;

const lay = (key: string, value: unknown) => cupboard.update(key, () => value);
const begin = async (open: () => Promise<Cupboard> = async () => cupboard): Promise<void> => {
  cupboard.written.length = 0;
  shelf = createShelf(open);
  await shelf.start();
};
/** Starts as a new page does: the old one writes no more. */
const beginAgain = async (): Promise<void> => {
  const things = await cupboard.all();
  cupboard = shakyCupboard();
  for (const [key, value] of things) await lay(key, value);
  await begin();
};
const stored = async (key: string): Promise<SetupFile> => {
  const value = (await cupboard.get(key)) as { text: string };
  const result = readSetupText(value.text);
  if (!result.ok) throw new Error(result.why.code);
  return result.file;
};
const setups = async () => [...(await cupboard.all()).keys()].filter((key) => key.startsWith("setup-"));
const names = () => shelf.list.value.map((line) => line.name);
const later = (ms: number) => vi.advanceTimersByTimeAsync(ms);

beforeEach(() => {
  vi.useFakeTimers({ now: 1_000_000 });
  cupboard = shakyCupboard();
  readOnly.value = false;
});

afterEach(async () => {
  // Ends what an earlier shelf still wants to save.
  readOnly.value = true;
  load(example);
  vi.useRealTimers();
});

describe("starting", () => {
  it("opens the example where nothing lies yet, and keeps it", async () => {
    await begin();
    expect(current.value).toEqual(example);
    expect(names()).toEqual([example.name]);
    expect(await stored(shelf.openId.value ?? "")).toEqual(example);
    expect(shelf.saving.value).toEqual({ state: "saved" });
  });

  it("opens what was open last, else the newest, and writes nothing", async () => {
    await lay("setup-old", record({ ...example, name: "Old" }, 1));
    await lay("setup-new", record({ ...example, name: "New" }, 2));
    await begin();
    expect([current.value.name, names()]).toEqual(["New", ["New", "Old"]]);
    await lay("open", "setup-old");
    await beginAgain();
    await later(10_000);
    expect(current.value.name).toBe("Old");
    expect(cupboard.written).toEqual([]);
  });

  it("leaves what it cannot read exactly as it is, offers it, and opens the next", async () => {
    const newer = record({ ...example, name: "Newer" }, 9, {
      text: printSetup(example).replace(`"version": ${VERSION}`, `"version": ${VERSION + 1}`),
    });
    const cut = record({ ...example, name: "Cut" }, 8, { text: '{"format": "hatside-se' });
    await lay("setup-newer", newer);
    await lay("setup-cut", cut);
    await lay("setup-odd", 42);
    await lay("setup-good", record({ ...example, name: "Good" }, 1));
    await begin();
    run(rename("Changed"));
    await later(1000);
    expect(await cupboard.get("setup-newer")).toEqual(newer);
    expect(await cupboard.get("setup-cut")).toEqual(cut);
    expect(await cupboard.get("setup-odd")).toBe(42);
    expect((await stored("setup-good")).name).toBe("Changed");
    expect(shelf.news.value.map((n) => n.says)).toEqual([
      "“Newer” was not opened and stays as it is.",
      "“Cut” was not opened and stays as it is.",
    ]);
    expect(shelf.news.value[0]?.why).toMatchObject({ code: "newer", what: "setup" });
    expect(shelf.news.value[1]?.raw).toEqual({ name: "Cut", text: cut.text });
    expect(await shelf.textOf("setup-odd")).toBe("42");
  });

  it("opens the next beside one that is deeper than the engine goes", async () => {
    const deep = printSetup(example)
      .replace(`"version": ${VERSION}`, '"version": 1')
      .replace("{", `{"unknown": ${"[".repeat(9000)}${"]".repeat(9000)},`);
    await lay("setup-deep", record({ ...example, name: "Deep" }, 9, { text: deep }));
    await lay("setup-good", record({ ...example, name: "Good" }, 1));
    await begin();
    expect(current.value.name).toBe("Good");
    expect(shelf.saving.value.state).not.toBe("unavailable");
    expect(shelf.news.value.map((n) => n.says)).toEqual(["“Deep” was not opened and stays as it is."]);
    expect(shelf.news.value[0]?.raw?.text).toBe(deep);
  });

  it("opens the example beside unreadable setups, under a name of its own", async () => {
    await lay("setup-cut", record(example, 8, { text: "?" }));
    await begin();
    expect(current.value.name).toBe(`${example.name} 2`);
    expect(await setups()).toHaveLength(2);
  });

  it("works in memory where there is no storage, and says so, for good", async () => {
    await begin(() => Promise.reject(new DOMException("no", "SecurityError")));
    const why = "the browser does not let this page keep data";
    expect(shelf.saving.value).toEqual({ state: "unavailable", why });
    expect(shelf.isUnsaved()).toBe(false);
    run(rename("Mine"));
    await later(1000);
    expect(shelf.saving.value).toEqual({ state: "unavailable", why });
    expect([current.value.name, names(), shelf.isUnsaved()]).toEqual(["Mine", ["Mine"], true]);
    await shelf.add(templateSetup(4, "right"));
    expect(shelf.isUnsaved()).toBe(true);
    await shelf.open(shelf.list.value.find((l) => l.name === "Mine")?.id ?? "");
    expect(current.value.name).toBe("Mine");
  });

  it("works in memory where the storage is damaged, and overwrites nothing there", async () => {
    await lay(KEY, record(example));
    const all = () => Promise.reject(new DOMException("", "UnknownError"));
    await begin(async () => ({ ...cupboard, all }));
    run(rename("Mine"));
    await later(1000);
    expect(shelf.saving.value).toEqual({
      state: "unavailable",
      why: "the browser’s storage is refused or damaged",
    });
    expect(cupboard.written).toEqual([]);
  });
});

describe("setups that the browser dropped", () => {
  const tallyOf = (count: number) => {
    const tally = {
      count,
      read: () => tally.count,
      note: (now: number) => {
        tally.count = now;
      },
    };
    return tally;
  };
  const beginWith = async (tally: ReadTally): Promise<void> => {
    shelf = createShelf(async () => cupboard, tally);
    await shelf.start();
  };

  it.each([
    [1, "1 setup saved here is lost: "],
    [3, "3 setups saved here are lost: "],
  ])("are said to be lost where there were %i and nothing is there", async (count, says) => {
    const tally = tallyOf(count);
    await beginWith(tally);
    expect(shelf.news.value.map((n) => n.says)).toEqual([expect.stringContaining(says)]);
    expect([current.value, tally.count]).toEqual([example, 1]);
  });

  it("are not, at a first start and where something is there; the number is kept up", async () => {
    const tally = tallyOf(0);
    await beginWith(tally);
    await shelf.duplicate(shelf.openId.value ?? "");
    expect([shelf.news.value, tally.count]).toEqual([[], 2]);
    await beginWith(tally);
    expect([shelf.news.value, tally.count]).toEqual([[], 2]);
  });

  it("are not where storage cannot be reached: the number stays", async () => {
    const tally = tallyOf(5);
    shelf = createShelf(() => Promise.reject(new DOMException("", "VersionError")), tally);
    await shelf.start();
    expect([shelf.news.value, tally.count]).toEqual([[], 5]);
    expect(shelf.saving.value.why).toContain("still there");
  });
});

describe("saving", () => {
  beforeEach(async () => {
    await lay(KEY, record(example));
    await begin();
  });

  it("is safe within 300 ms of a change, also in the midst of a drag", async () => {
    expect(SAVE_AFTER).toBeLessThanOrEqual(250);
    for (let at = 1; at <= 60; at += 1) {
      run(dragPan("s1", at / 100));
      await later(16);
      const safe = (await stored(KEY)).channels[0]?.pan ?? 0;
      expect(at / 100 - safe).toBeLessThanOrEqual(Math.ceil(SAVE_AFTER / 16) / 100);
    }
    expect(cupboard.written.length).toBeLessThanOrEqual(10);
  });

  it("writes once for many changes and not at all for none", async () => {
    for (const name of ["A", "B", "C"]) run(rename(name));
    await later(SAVE_AFTER);
    expect(cupboard.written).toEqual([KEY]);
    expect(names()).toEqual(["C"]);
    await later(10_000);
    expect(cupboard.written).toEqual([KEY]);
  });

  it("says saving until it is safe, and hands over what came meanwhile", async () => {
    const release = cupboard.stall();
    run(rename("A"));
    await later(SAVE_AFTER);
    expect([shelf.saving.value.state, shelf.isUnsaved()]).toEqual(["saving", true]);
    run(rename("B"));
    const flushed = shelf.flush();
    expect(cupboard.written).toEqual([KEY, KEY]);
    release();
    await flushed;
    expect([shelf.saving.value.state, shelf.isUnsaved()]).toEqual(["saved", false]);
    expect((await stored(KEY)).name).toBe("B");
  });

  it("says that storage is full, goes on, tries again, and loses nothing", async () => {
    cupboard.fails = full();
    run(rename("A"));
    await later(SAVE_AFTER);
    expect(shelf.saving.value).toEqual({ state: "failed", why: "the browser’s storage is full" });
    expect(shelf.isUnsaved()).toBe(true);
    run(rename("B"));
    await later(SAVE_AFTER);
    expect(shelf.saving.value.state).toBe("failed");
    cupboard.fails = null;
    await later(6000);
    expect(shelf.saving.value).toEqual({ state: "saved" });
    expect((await stored(KEY)).name).toBe("B");
  });

  it("takes nothing back while it tries again: what is not safe is said until it is", async () => {
    cupboard.fails = full();
    run(rename("A"));
    await later(SAVE_AFTER);
    cupboard.fails = null;
    const release = cupboard.stall();
    run(rename("B"));
    await later(SAVE_AFTER);
    expect(cupboard.written).toEqual([KEY]);
    expect([shelf.saving.value.state, shelf.isUnsaved()]).toEqual(["failed", true]);
    release();
    await later(0);
    expect([shelf.saving.value.state, shelf.isUnsaved()]).toEqual(["saved", false]);
  });

  it("does not wait for the next try when something else is changed", async () => {
    cupboard.fails = full();
    run(rename("A"));
    await later(SAVE_AFTER);
    cupboard.fails = null;
    run(rename("B"));
    await later(SAVE_AFTER);
    expect([shelf.saving.value.state, (await stored(KEY)).name]).toEqual(["saved", "B"]);
  });

  it("makes nothing of a failure that a later write has made good", async () => {
    cupboard.hold = new Promise((_, reject) => setTimeout(() => reject(full()), 500));
    run(rename("A"));
    await later(SAVE_AFTER);
    cupboard.hold = new Promise((resolve) => setTimeout(resolve, 600));
    run(rename("B"));
    await later(10_000);
    expect([shelf.saving.value.state, shelf.isUnsaved()]).toEqual(["saved", false]);
    expect(cupboard.written).toEqual([KEY, KEY]);
  });

  it("does not leave a setup that could not be saved", async () => {
    await lay("setup-b", record({ ...example, name: "Other" }));
    cupboard.fails = full();
    run(rename("A"));
    await shelf.open("setup-b");
    await shelf.add(templateSetup(3, "right"));
    expect(current.value.name).toBe("A");
    expect(shelf.news.value).toHaveLength(2);
  });

  it("keeps a file that was not read whole beside the mended one, once that is changed", async () => {
    const text = printSetup(example).replace('"yaw": 0', '"yaw": 999');
    await lay("setup-b", record({ ...example, name: "Bent" }, 5, { text }));
    await shelf.open("setup-b");
    expect(shelf.news.value[0]?.notes).toMatchObject([
      { code: "replaced", at: "kit.yaw", given: 999, used: 0 },
    ]);
    await later(1000);
    expect(await setups()).toHaveLength(2);
    run(rename("Mended"));
    await later(1000);
    run(rename("Mended again"));
    await later(1000);
    expect(names()).toEqual(["Mended again", "Bent as it was", example.name]);
    expect(await shelf.textOf(shelf.list.value[1]?.id ?? "")).toBe(text);
    expect((await stored("setup-b")).kit.yaw).toBe(0);
  });

  it("keeps it once, though two changes are saved at the same time, and again after a failure", async () => {
    const text = printSetup(example).replace('"yaw": 0', '"yaw": 999');
    await lay("setup-b", record({ ...example, name: "Bent" }, 5, { text }));
    await shelf.open("setup-b");
    cupboard.fails = full();
    run(rename("Never kept"));
    await later(SAVE_AFTER);
    cupboard.fails = null;
    cupboard.hold = new Promise((resolve) => setTimeout(resolve, 500));
    run(rename("Once"));
    await later(SAVE_AFTER);
    run(rename("Twice"));
    await later(2000);
    expect(names()).toEqual(["Twice", "Bent as it was", example.name]);
    expect(await shelf.textOf(shelf.list.value[1]?.id ?? "")).toBe(text);
    expect(shelf.saving.value).toEqual({ state: "saved" });
  });

  describe("when the page goes", () => {
    /** What each write took for granted, as far as it did, and what lay there. */
    let guesses: readonly { readonly guess: unknown; readonly was: unknown }[];
    beforeEach(() => {
      // Its own: shelves of earlier tests still watch the document.
      const own: (typeof guesses)[number][] = [];
      guesses = own;
      const { update } = cupboard;
      Object.assign(cupboard, {
        update: (key: string, change: (was: unknown) => unknown, guess?: unknown) =>
          update(key, (was) => {
            own.push({ guess, was });
            return change(guess ?? was);
          }),
      });
    });

    it("hands over what is not safe and what is under way, and takes the right thing for granted", async () => {
      run(rename("A"));
      shelf.handOver();
      run(rename("B"));
      void shelf.flush();
      shelf.handOver();
      await later(1000);
      expect(guesses).toHaveLength(3);
      for (const { guess, was } of [guesses[1], guesses[2]].flatMap((g) => g ?? []))
        if (guess) expect(was).toMatchObject(guess as object);
      expect(guesses.map(({ guess }) => (guess as { revision: number } | undefined)?.revision)).toEqual([
        7,
        undefined,
        9,
      ]);
      expect([(await stored(KEY)).name, shelf.saving.value.state]).toEqual(["B", "saved"]);
    });

    it("writes nothing where all is safe, nor while another tab edits", async () => {
      shelf.handOver();
      run(rename("A"));
      readOnly.value = true;
      shelf.handOver();
      await later(1000);
      expect(guesses).toEqual([]);
    });

    it("takes nothing for granted after a failure", async () => {
      cupboard.fails = full();
      run(rename("A"));
      await later(SAVE_AFTER);
      cupboard.fails = null;
      shelf.handOver();
      await later(1000);
      expect(guesses.map(({ guess }) => guess)).toEqual([undefined]);
      expect((await stored(KEY)).name).toBe("A");
    });

    it("and comes back, what it gave up for that is no failure", async () => {
      cupboard.hold = new Promise((_, reject) => setTimeout(() => reject(new Error("given up")), 50));
      run(rename("A"));
      void shelf.flush();
      cupboard.hold = Promise.resolve();
      shelf.handOver();
      await later(SAVE_AFTER);
      expect([shelf.saving.value, shelf.isUnsaved()]).toEqual([{ state: "saved" }, false]);
    });
  });

  it("writes nothing while another tab edits", async () => {
    readOnly.value = true;
    load({ ...example, name: "Theirs" });
    await later(1000);
    await shelf.flush();
    expect(cupboard.written).toEqual([]);
  });
});

describe("several setups", () => {
  beforeEach(async () => {
    await lay(KEY, record({ ...example, name: "A" }, 1));
    await begin();
  });
  const idOf = (name: string) => shelf.list.value.find((line) => line.name === name)?.id ?? "";

  it("are added under free names and opened with a history of their own", async () => {
    run(rename("Hall"));
    await shelf.add({ ...templateSetup(4, "left"), name: "Hall" });
    expect([current.value.name, canUndo.value]).toEqual(["Hall 2", null]);
    expect(names().sort()).toEqual(["Hall", "Hall 2"]);
    await beginAgain();
    expect(current.value.name).toBe("Hall 2");
    await shelf.open(idOf("Hall"));
    expect(current.value.name).toBe("Hall");
  });

  it("are saved before another opens", async () => {
    await shelf.add({ ...example, name: "B" });
    run(dragPan("s1", 0.42));
    await shelf.open(KEY);
    expect((await stored(idOf("B"))).channels[0]?.pan).toBe(0.42);
    expect(current.value.channels[0]?.pan).toBe(0);
  });

  it("are duplicated with what was changed last, without opening the copy", async () => {
    run(dragPan("s1", 0.5));
    await shelf.duplicate(KEY);
    expect(shelf.openId.value).toBe(KEY);
    const copy = await stored(idOf("A 2"));
    expect([copy.name, copy.channels[0]?.pan]).toEqual(["A 2", 0.5]);
  });

  it("are renamed, open or not, readable or not", async () => {
    await lay("setup-b", record({ ...example, name: "B" }));
    await lay("setup-c", record({ ...example, name: "C" }, 3, { text: "broken" }));
    await beginAgain();
    await shelf.rename("setup-b", "B new");
    await shelf.rename(shelf.openId.value ?? "", "A new");
    await shelf.rename("setup-c", "C new");
    expect(names().sort()).toEqual(["A new", "B new", "C new"]);
    expect((await stored("setup-b")).name).toBe("B new");
    expect(await shelf.textOf("setup-c")).toBe("broken");
  });

  it("are signed by who renames them, so that a tab that has them open does not name them back", async () => {
    await lay("setup-b", record({ ...example, name: "B" }));
    await beginAgain();
    run(dragPan("s1", 0.3));
    await shelf.rename("setup-b", "B new");
    await shelf.flush();
    const signed = async (key: string) => (await cupboard.get(key)) as { writer: string; revision: number };
    expect(await signed("setup-b")).toMatchObject({ writer: (await signed(KEY)).writer, revision: 8 });
    expect((await signed(KEY)).writer).not.toBe("earlier");
  });

  it("are removed and put back exactly", async () => {
    await lay("setup-b", record({ ...example, name: "B" }, 5));
    await beginAgain();
    run(dragPan("s2", 0.9));
    const putBack = await shelf.remove("setup-b");
    expect([current.value.name, names()]).toEqual(["A", ["A"]]);
    await putBack();
    expect(current.value.name).toBe("B");
    expect(current.value.channels[1]?.pan).toBe(0.9);
    await later(10_000);
    expect(names().sort()).toEqual(["A", "B"]);
  });

  it("leave the example when the last is removed", async () => {
    await shelf.remove(KEY);
    expect([current.value.name, names()]).toEqual([example.name, [example.name]]);
  });

  it("say when one is gone", async () => {
    await shelf.open("setup-gone");
    expect(shelf.news.value[0]?.says).toBe("The setup was not opened: it is no longer saved here.");
    expect(current.value.name).toBe("A");
  });
});

describe("two tabs at one cupboard", () => {
  /** What the other tab does: it reads the record and writes another. */
  const elsewhere = async (name: string) => {
    await cupboard.update(KEY, (was) => {
      const { revision } = was as { revision: number };
      return record({ ...example, name }, 99, { writer: "other tab", revision: revision + 1 });
    });
  };

  beforeEach(async () => {
    await lay(KEY, record(example));
    await begin();
  });

  it("lose the edits of neither when both wrote", async () => {
    run(rename("Mine"));
    await later(1000);
    await elsewhere("Theirs");
    run(dragPan("s1", 0.7));
    await later(1000);
    expect((await stored(KEY)).name).toBe("Theirs");
    const mine = shelf.openId.value ?? "";
    expect(mine).not.toBe(KEY);
    expect((await stored(mine)).channels[0]?.pan).toBe(0.7);
    expect(shelf.news.value.at(-1)?.says).toContain("Another tab changed “Mine”");
    run(dragPan("s1", 0.8));
    await later(1000);
    expect((await stored(mine)).channels[0]?.pan).toBe(0.8);
    expect(await setups()).toHaveLength(2);
  });

  it("are told of in words that a name does not turn", async () => {
    run(rename("\u202Enever closed"));
    await later(1000);
    await elsewhere("\u202Enever closed");
    run(dragPan("s1", 0.7));
    await later(1000);
    expect(shelf.news.value.at(-1)?.says).toBe(
      "Another tab changed “\u202Enever closed\u202C”. Your changes here are saved as “\u202Enever closed 2\u202C”.",
    );
  });

  it("keep the other's also when the page goes while what was done here is put beside it", async () => {
    await elsewhere("Theirs");
    run(dragPan("s1", 0.6));
    const first = shelf.flush();
    cupboard.hold = new Promise((resolve) => setTimeout(resolve, 500));
    await later(0);
    run(dragPan("s1", 0.7));
    shelf.handOver();
    await later(2000);
    await first;
    expect((await stored(KEY)).name).toBe("Theirs");
    expect((await stored(shelf.openId.value ?? "")).channels[0]?.pan).toBe(0.7);
  });

  it("keep one copy, however the writes to it overlap", async () => {
    await elsewhere("Theirs");
    run(dragPan("s1", 0.6));
    const first = shelf.flush();
    cupboard.hold = new Promise((resolve) => setTimeout(resolve, 500));
    run(dragPan("s1", 0.7));
    const second = shelf.flush();
    cupboard.hold = Promise.resolve();
    await later(1000);
    await Promise.all([first, second]);
    expect(await setups()).toHaveLength(2);
    expect((await stored(shelf.openId.value ?? "")).channels[0]?.pan).toBe(0.7);
    expect(shelf.news.value).toHaveLength(1);
  });

  it("call the copy here as it is kept, also while the other edits, and after an undo", async () => {
    await elsewhere(example.name);
    run(dragPan("s1", 0.6));
    const write = shelf.flush();
    readOnly.value = true;
    await write;
    await later(1000);
    const copy = `${example.name} 2`;
    expect(names().sort()).toEqual([example.name, copy].sort());
    expect(current.value.name).toBe(copy);
    readOnly.value = false;
    undo();
    expect([current.value.name, canUndo.value]).toEqual([copy, null]);
    redo();
    expect(current.value.name).toBe(copy);
  });

  it("keep what was changed here when the other removed the setup", async () => {
    await cupboard.update(KEY, () => undefined);
    run(rename("Mine"));
    await later(1000);
    expect((await stored(shelf.openId.value ?? "")).name).toBe("Mine");
    expect(await cupboard.get(KEY)).toBeUndefined();
  });

  it("show here what the other one saved", async () => {
    readOnly.value = true;
    await elsewhere("Theirs");
    await shelf.reload();
    expect([current.value.name, names()]).toEqual(["Theirs", ["Theirs"]]);
    readOnly.value = false;
    run(rename("Mine now"));
    await later(1000);
    expect((await stored(KEY)).name).toBe("Mine now");
    expect(shelf.news.value).toEqual([]);
  });

  it("keep in sight what could not be saved, and save it beside the other's once that works", async () => {
    run(rename("Mine"));
    cupboard.fails = full();
    await later(SAVE_AFTER);
    cupboard.fails = null;
    await elsewhere("Theirs");
    cupboard.fails = full();
    readOnly.value = true;
    await shelf.reload();
    expect([current.value.name, shelf.isUnsaved(), shelf.saving.value.state]).toEqual([
      "Mine",
      true,
      "failed",
    ]);
    cupboard.fails = null;
    readOnly.value = false;
    await later(10_000);
    expect(names().sort()).toEqual(["Mine", "Theirs"]);
    expect(current.value.name).toBe("Mine");
  });

  it("keep an example that was changed but could not be saved", async () => {
    cupboard = shakyCupboard();
    cupboard.fails = full();
    await begin();
    run(rename("Mine"));
    await later(SAVE_AFTER);
    cupboard.fails = null;
    await lay(KEY, record({ ...example, name: "Theirs" }));
    readOnly.value = true;
    await shelf.reload();
    expect(current.value.name).toBe("Mine");
  });

  it("make one setup of what was done here, though two writes find its place taken", async () => {
    run(rename("Mine"));
    await later(1000);
    await elsewhere("Theirs");
    cupboard.hold = new Promise((resolve) => setTimeout(resolve, 500));
    run(dragPan("s1", 0.7));
    await later(SAVE_AFTER);
    run(dragPan("s1", 0.8));
    await later(5000);
    expect(await setups()).toHaveLength(2);
    const mine = await stored(shelf.openId.value ?? "");
    expect([mine.name, mine.channels[0]?.pan]).toEqual(["Mine", 0.8]);
    expect(shelf.news.value).toHaveLength(1);
  });

  it("keep the history where the other changed nothing", async () => {
    run(rename("Mine"));
    await later(1000);
    await shelf.reload();
    expect(canUndo.value).toBe("rename");
  });

  it("open the other's setup in a tab that had only an unsaved example", async () => {
    cupboard = shakyCupboard();
    readOnly.value = true;
    await begin();
    expect(await setups()).toEqual([]);
    await lay(KEY, record({ ...example, name: "Theirs" }));
    await shelf.reload();
    readOnly.value = false;
    await later(1000);
    expect([current.value.name, await setups()]).toEqual(["Theirs", [KEY]]);
  });
});
