import { beforeEach, describe, expect, it } from "vitest";
import type { Desk } from "../../src/core/model/setup";
import { BLANK_DESK } from "../../src/document/blank";
import { deskFile, deskOf, isDesk, printDesk } from "../../src/document/desk-file";
import { exampleSetup } from "../../src/document/example";
import { printSetup } from "../../src/document/read-setup";
import { VERSION } from "../../src/document/schema";
import { printBackup } from "../../src/shelf/backup";
import { createDesks, type Desks } from "../../src/shelf/desks";
import { exportText, readFile } from "../../src/shelf/file";
import { fromLink, toFragment } from "../../src/shelf/link";
import { createShelf } from "../../src/shelf/shelf";
import { full, type ShakyCupboard, shakyCupboard } from "./shaky-cupboard";

const HALL: Desk = { ...BLANK_DESK, name: "Hall desk", channelCount: 32 };
const CLUB: Desk = { ...BLANK_DESK, name: "Club desk", law: "linear" };

let cupboard: ShakyCupboard;
let desks: Desks;

const lay = (key: string, value: unknown) => cupboard.update(key, () => value);
const names = () => desks.list.value.map((line) => line.name);
const saved = (name: string): Desk => {
  const read = desks.list.value.find((line) => line.name === name)?.read;
  if (!read?.ok) throw new Error(read?.why.code ?? `no ${name}`);
  return deskOf(read.file);
};
const idOf = (name: string): string => desks.list.value.find((line) => line.name === name)?.id ?? "";
/** What another page finds. */
const again = async (): Promise<void> => {
  desks = createDesks(cupboard);
  await desks.readAll();
};

beforeEach(() => {
  cupboard = shakyCupboard();
  desks = createDesks(cupboard);
});

describe("saved desks", () => {
  it("come back as they were", async () => {
    expect(await desks.put(HALL)).toBe("Hall desk");
    await desks.put(CLUB);
    await again();
    expect([saved("Hall desk"), saved("Club desk")]).toEqual([HALL, CLUB]);
  });

  it("of one name get a number each, and none is overwritten", async () => {
    await desks.put(HALL);
    expect(await desks.put({ ...CLUB, name: HALL.name })).toBe("Hall desk 2");
    await desks.put(CLUB);
    expect(await desks.rename(idOf("Club desk"), HALL.name)).toBe("Hall desk 3");
    // Its own name is free for itself.
    expect(await desks.rename(idOf("Hall desk 3"), "Hall desk 3")).toBe("Hall desk 3");
    await again();
    expect(names().sort()).toEqual(["Hall desk", "Hall desk 2", "Hall desk 3"]);
    expect(saved("Hall desk")).toEqual(HALL);
    expect(saved("Hall desk 2")).toEqual({ ...CLUB, name: "Hall desk 2" });
    expect(saved("Hall desk 3")).toEqual({ ...CLUB, name: "Hall desk 3" });
  });

  it("of one name get a number also where the list was not read before", async () => {
    await desks.put(HALL);
    expect(await createDesks(cupboard).put(HALL)).toBe("Hall desk 2");
  });

  it("are copied, replaced and removed, and each is put back as it was", async () => {
    await desks.put(HALL);
    expect(await desks.duplicate(idOf("Hall desk"))).toBe("Hall desk 2");
    expect(saved("Hall desk 2")).toEqual({ ...HALL, name: "Hall desk 2" });
    const undoReplace = await desks.replace(idOf("Hall desk"), { ...CLUB, name: "Hall desk" });
    expect(saved("Hall desk").law).toBe("linear");
    await undoReplace();
    expect(saved("Hall desk")).toEqual(HALL);
    const undoRemove = await desks.remove(idOf("Hall desk"));
    await again();
    expect(names()).toEqual(["Hall desk 2"]);
    await undoRemove();
    await again();
    expect(saved("Hall desk")).toEqual(HALL);
  });

  it("that cannot be read stay exactly as they are, and are told with the reason", async () => {
    const newer = printDesk(HALL).replace(`"version": ${VERSION}`, `"version": ${VERSION + 1}`);
    const record = { name: "Newer", changed: 5, text: newer, writer: "", revision: 1 };
    await lay("desk-newer", record);
    await lay("desk-odd", 42);
    await again();
    expect(desks.list.value.map((line) => [line.name, line.read.ok || line.read.why])).toEqual([
      ["Newer", expect.objectContaining({ code: "newer", what: "desk" })],
      ["Unreadable entry", expect.objectContaining({ code: "not ours", what: "desk" })],
    ]);
    await desks.rename("desk-newer", "Later");
    expect(JSON.parse(await desks.textOf("desk-newer"))).toEqual({ ...JSON.parse(newer), name: "Later" });
    expect(await desks.textOf("desk-odd")).toBe("42");
    expect(await cupboard.get("desk-odd")).toBe(42);
  });

  it("change nothing where the storage is full, and say so by rejecting", async () => {
    await desks.put(HALL);
    cupboard.fails = full();
    const id = idOf("Hall desk");
    const tries = [
      desks.put(CLUB),
      desks.replace(id, CLUB),
      desks.rename(id, "Other"),
      desks.duplicate(id),
      desks.remove(id),
    ];
    for (const each of tries) await expect(each).rejects.toThrow("no room");
    cupboard.fails = null;
    expect(names()).toEqual(["Hall desk"]);
    await again();
    expect(saved("Hall desk")).toEqual(HALL);
  });

  it("and the one used last are no setups, nor setups desks", async () => {
    await desks.put(HALL);
    await desks.remember({ setup: "setup-a", desk: HALL });
    const shelf = createShelf(async () => cupboard);
    await shelf.start();
    expect(shelf.list.value.map((line) => line.name)).toEqual([exampleSetup().name]);
    expect(shelf.news.value).toEqual([]);
    expect(shelf.cupboard()).toBe(cupboard);
    await again();
    expect(names()).toEqual(["Hall desk"]);
    expect(await desks.recall()).toEqual({ setup: "setup-a", desk: HALL });
  });

  it("the one used last is nothing where nothing sound lies", async () => {
    expect(await desks.recall()).toBeNull();
    for (const odd of [42, "x", { setup: 1, desk: null }, { desk: { ...deskFile(HALL), version: 99 } }]) {
      await lay("last-desk", odd);
      expect(await desks.recall()).toBeNull();
    }
  });
});

describe("a saved desk goes out and comes in again", () => {
  it("by its file, whose name says what it is", async () => {
    const { name, blob } = exportText(HALL.name, printDesk(HALL), "desk");
    expect(name).toBe("hall-desk.hatside-desk.json");
    expect(exportText("", "", "desk").name).toBe("desk.hatside-desk.json");
    expect(await readFile(new File([blob], name))).toEqual([{ ok: true, file: deskFile(HALL), notes: [] }]);
    const newer = printDesk(HALL).replace(`"version": ${VERSION}`, '"version": 77');
    expect(await readFile(new File([newer], "a.json"))).toEqual([
      { ok: false, why: expect.stringMatching(/^“a\.json”: This desk is from a newer Hatside/) },
    ]);
  });

  it("by a link", async () => {
    expect(await fromLink(await toFragment(deskFile(HALL)))).toEqual({ ok: true, setup: deskFile(HALL) });
  });

  it("in a backup beside the setups, also what cannot be read", async () => {
    const texts = async () => [printSetup(exampleSetup())];
    const parts = await printBackup({ texts }, [printDesk(HALL), "cut off {", printDesk(CLUB)]);
    const read = await readFile(new File(parts, "b.json"));
    expect(read.map((thing) => (thing.ok ? [isDesk(thing.file), thing.file.name] : thing.why))).toEqual([
      [false, exampleSetup().name],
      [true, "Hall desk"],
      [true, "Club desk"],
      expect.stringContaining("not JSON"),
    ]);
    expect(JSON.parse(parts.join(""))).toEqual({
      format: "hatside-backup",
      version: 1,
      setups: [exampleSetup()],
      desks: [deskFile(HALL), deskFile(CLUB)],
      unread: ["cut off {"],
    });
    // Whoever wrote it anew wrote it in one piece.
    const whole = JSON.stringify(JSON.parse(parts.join("")), null, 1);
    expect(await readFile(new File([whole], "b.json"))).toEqual(read);
    const odd = whole.replace(/"desks": \[[\s\S]*\],\n "unread"/, '"desks": 7,\n "unread"');
    expect(await readFile(new File([odd], "b.json"))).toEqual([
      { ok: false, why: "“b.json”: desks: 7 is not a list." },
    ]);
  });

  it("in a backup that was cut off, with those that arrived whole", async () => {
    const parts = await printBackup({ texts: async () => [] }, [printDesk(HALL), printDesk(CLUB)]);
    const read = await readFile(new File([parts.join("").slice(0, -60)], "b.json"));
    expect(read.map((thing) => (thing.ok ? thing.file.name : thing.why))).toEqual([
      "Hall desk",
      expect.stringContaining("not JSON"),
      expect.stringContaining("was cut off"),
    ]);
  });
});
