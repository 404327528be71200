import { expect, it } from "vitest";
import { answer, startCheck, undoAnswer } from "../../src/document/commands/check";
import { exampleSetup } from "../../src/document/example";
import { LIMITS } from "../../src/document/limits";
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
