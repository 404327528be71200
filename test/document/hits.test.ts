import { expect, it } from "vitest";
import { answer, declineAction, startCheck, undoAnswer } from "../../src/document/commands/check";
import { exampleSetup } from "../../src/document/example";
import { LIMITS } from "../../src/document/limits";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import { applied } from "./commands";

const example = exampleSetup();
const hit = (piece: string) => ({ piece, answer: "left" }) as const;

it("only the last answer is taken back", () => {
  const pieces = ["p1", "p2", "p3", "p4"];
  const asked = applied(example, startCheck("l2"), ...pieces.map((piece) => answer(piece, "left")));
  expect(applied(asked, undoAnswer()).check?.hits).toEqual(["p1", "p2", "p3"].map(hit));
});

it("a check takes as many answers as it may hold, and no more", () => {
  const hits = Array.from({ length: LIMITS.hits - 1 }, () => hit("p1"));
  const full = applied({ ...example, check: { listener: "l2", hits } }, answer("p2", "left"));
  expect(full.check?.hits).toEqual([...hits, hit("p2")]);
  expect(applied(full, answer("p3", "left"))).toBe(full);
});

it("what was done for a hit, and what nobody can do, is kept and read back; a new check begins without", () => {
  const asked = applied(
    example,
    startCheck("l2"),
    answer("p1", "nothing", "mute-overheads"),
    declineAction("mono"),
    declineAction("mono"),
    answer("p2", "left"),
  );
  expect(asked.check).toEqual({
    listener: "l2",
    hits: [{ piece: "p1", answer: "nothing", action: "mute-overheads" }, hit("p2")],
    declined: ["mono"],
  });
  expect(Object.keys(asked.check?.hits[1] ?? {})).toEqual(["piece", "answer"]);
  expect(readSetupText(printSetup(asked))).toEqual({ ok: true, file: asked, notes: [] });
  expect(applied(asked, startCheck("l2")).check).toEqual({ listener: "l2", hits: [] });
  expect(applied(example, declineAction("mono"))).toBe(example);
});

it("a check of an old file has neither, and nothing is said of it; what is not known is left out with a word", () => {
  const read = (check: object) => readSetupText(JSON.stringify({ ...example, check }));
  const old = read({ listener: "l2", hits: [hit("p1")] });
  expect(old).toMatchObject({ ok: true, notes: [] });
  expect(old.ok && Object.keys(old.file.check ?? {})).toEqual(["listener", "hits"]);
  expect(old.ok && Object.keys(old.file.check?.hits[0] ?? {})).toEqual(["piece", "answer"]);
  const odd = read({ listener: "l2", hits: [{ ...hit("p1"), action: "shout" }] });
  expect(odd).toMatchObject({ ok: true, file: { check: { hits: [hit("p1")] } } });
  expect(odd.ok && odd.notes).toHaveLength(1);
});
