import { signal } from "@preact/signals-core";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import type { Desk } from "../../src/core/model/setup";
import { BLANK_DESK, blankSetup } from "../../src/document/blank";
import { editDesk, setNote } from "../../src/document/commands/settings";
import { exampleSetup } from "../../src/document/example";
import type { SetupFile } from "../../src/document/schema";
import { current, load, readOnly, run, undo } from "../../src/document/store";
import { createDesks, type Desks } from "../../src/shelf/desks";
import { type DeskInUse, followDesk } from "../../src/shelf/last-desk";
import { full, type ShakyCupboard, shakyCupboard } from "./shaky-cupboard";

const HALL: Desk = { ...BLANK_DESK, name: "Hall desk", channelCount: 32 };
const CLUB: Desk = { ...BLANK_DESK, name: "Club desk", law: "linear" };

let cupboard: ShakyCupboard;
let desks: Desks;
let openId = signal<string | null>(null);
let inUse: DeskInUse;

/** Everything that waits for the cupboard is done. */
const quiet = () => new Promise((done) => setTimeout(done));
const withDesk = (desk: Desk, name = "Night"): SetupFile => ({ ...blankSetup(name), desk });
/** As the shelf opens a setup: its id first, then itself. */
const open = async (id: string, file: SetupFile): Promise<void> => {
  openId.value = id;
  load(file);
  await quiet();
};
/** The page is left and comes anew, with a setup open. */
const reload = async (id: string, file: SetupFile): Promise<void> => {
  openId = signal<string | null>(null);
  inUse = followDesk(openId, desks);
  await open(id, file);
};

beforeEach(() => {
  readOnly.value = false;
  cupboard = shakyCupboard();
  desks = createDesks(cupboard);
  openId = signal<string | null>(null);
  load(blankSetup());
  inUse = followDesk(openId, desks);
});

afterEach(() => {
  openId.value = null;
});

describe("the desk used last", () => {
  it("is that of the open setup, as it is edited", async () => {
    expect(await inUse.last()).toBeNull();
    await open("setup-a", withDesk(HALL));
    expect(await inUse.last()).toEqual(HALL);
    run(editDesk({ busCount: 12 }));
    await quiet();
    expect(await inUse.last()).toEqual({ ...HALL, busCount: 12 });
    expect(inUse.other.value).toBeNull();
  });

  it("is written only when the desk changes", async () => {
    await open("setup-a", withDesk(HALL));
    const before = cupboard.written.length;
    run(setNote("Bring the spare snare"));
    await quiet();
    expect(cupboard.written).toHaveLength(before);
    expect(before).toBe(1);
  });

  it("is never that of an example, nor is an example told apart", async () => {
    await open("setup-e", exampleSetup());
    run(editDesk({ busCount: 3 }));
    await quiet();
    expect(await inUse.last()).toBeNull();
    await open("setup-a", withDesk(HALL));
    await open("setup-e", exampleSetup());
    expect(inUse.other.value).toBeNull();
    expect(await inUse.last()).toEqual(HALL);
  });

  it("is one chosen for a new setup, which is then not told apart", async () => {
    await open("setup-a", withDesk(HALL));
    await inUse.choose(CLUB);
    await open("setup-b", withDesk(CLUB));
    expect(inUse.other.value).toBeNull();
    expect(await inUse.last()).toEqual(CLUB);
  });
});

describe("a setup of another desk", () => {
  it("is told apart when it is opened; nothing is changed until somebody says which desk it shall be", async () => {
    await open("setup-a", withDesk(HALL));
    await open("setup-b", withDesk(CLUB));
    expect(inUse.other.value).toEqual(HALL);
    expect(current.value.desk).toEqual(CLUB);
    expect(await inUse.last()).toEqual(HALL);
    inUse.keep();
    await quiet();
    expect(inUse.other.value).toBeNull();
    expect(current.value.desk).toEqual(CLUB);
    expect(await inUse.last()).toEqual(CLUB);
  });

  it("is told apart no more once it has the desk used last; undone, it has its own", async () => {
    await open("setup-a", withDesk(HALL));
    await open("setup-b", withDesk(CLUB));
    run(editDesk(inUse.other.value ?? {}));
    await quiet();
    expect(inUse.other.value).toBeNull();
    expect(current.value.desk).toEqual(HALL);
    undo();
    await quiet();
    expect(current.value.desk).toEqual(CLUB);
    expect([inUse.other.value, await inUse.last()]).toEqual([null, CLUB]);
  });

  it("is told apart again after a start, as long as nobody has answered", async () => {
    await open("setup-a", withDesk(HALL));
    await open("setup-b", withDesk(CLUB));
    await reload("setup-b", withDesk(CLUB));
    expect(inUse.other.value).toEqual(HALL);
    inUse.keep();
    await quiet();
    await reload("setup-b", withDesk(CLUB));
    expect(inUse.other.value).toBeNull();
  });

  it("stays so while something else of it, or another setting of its desk, is edited", async () => {
    await open("setup-a", withDesk(HALL));
    await open("setup-b", withDesk(CLUB));
    run(editDesk({ busCount: 5 }));
    await quiet();
    expect(inUse.other.value).toEqual(HALL);
    expect(await inUse.last()).toEqual(HALL);
  });

  it("is not the setup whose desk was changed just before the page went", async () => {
    await open("setup-a", withDesk(HALL));
    await reload("setup-a", withDesk({ ...HALL, busCount: 12 }));
    expect(inUse.other.value).toBeNull();
    expect((await inUse.last())?.busCount).toBe(12);
  });

  it("is nobody's business while another tab edits, and is told apart when this one takes over", async () => {
    await open("setup-a", withDesk(HALL));
    readOnly.value = true;
    await open("setup-b", withDesk(CLUB));
    expect(inUse.other.value).toBeNull();
    expect(await inUse.last()).toEqual(HALL);
    readOnly.value = false;
    await quiet();
    expect(inUse.other.value).toEqual(HALL);
  });

  it("is what was opened last, however soon after others", async () => {
    await open("setup-a", withDesk(HALL));
    openId.value = "setup-c";
    openId.value = "setup-a";
    await open("setup-b", withDesk(CLUB));
    expect(inUse.other.value).toEqual(HALL);
    expect(await inUse.last()).toEqual(HALL);
  });

  it("is not noted when another tab takes over in that moment", async () => {
    await open("setup-a", withDesk(HALL));
    openId.value = "setup-b";
    load(withDesk(HALL));
    readOnly.value = true;
    const before = cupboard.written.length;
    await quiet();
    expect(cupboard.written).toHaveLength(before);
  });
});

it("without storage nothing is told apart, and nothing breaks", async () => {
  cupboard.fails = full();
  await open("setup-a", withDesk(HALL));
  await open("setup-b", withDesk(CLUB));
  await inUse.choose(HALL);
  expect([inUse.other.value, await inUse.last()]).toEqual([null, null]);
});
