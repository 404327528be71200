import { expect, it } from "vitest";
import { duplicateSource } from "../../src/document/commands/sources";
import { addSum, duplicateSum, removeSum, setSend, swapPair } from "../../src/document/commands/sums";
import { exampleSetup } from "../../src/document/example";
import { applied } from "./commands";

const example = exampleSetup();
const two = applied(example, addSum(true, "Horns"), setSend("m2", "s12", { level: -3, pan: 0.5 }));
const [drums, horns] = two.sums;

it("one of two sums is taken away, the other is the very same", () => {
  expect(applied(two, removeSum("m2")).sums).toEqual([drums]);
  expect(applied(two, removeSum("m1")).sums).toEqual([horns]);
});

it("the copy is of the sum that is meant, under an id and a name of its own", () => {
  expect(applied(two, duplicateSum("m2")).sums).toEqual([
    drums,
    horns,
    { ...horns, id: "m3", name: "Horns 2" },
  ]);
});

it("a send is changed in one sum only", () => {
  const { sums } = applied(two, setSend("m2", "s1", {}));
  expect(sums[0]).toBe(drums);
  expect(sums[1]?.sends.map((send) => send.source)).toEqual(["s12", "s1"]);
});

it("the pair that is meant is swapped", () => {
  const { sums } = applied(two, swapPair("m2"));
  expect(sums[0]).toBe(drums);
  expect(sums[1]).toEqual({ ...horns, reversed: true });
});

it("a copy of a source is sent as the source is, and into no sum that the source is not in", () => {
  const more = applied(two, setSend("m2", "s13", {}));
  const { sums } = applied(more, duplicateSource("s12"));
  expect(sums[0]).toBe(drums);
  expect(sums[1]?.sends).toEqual([
    { source: "s12", level: -3, pan: 0.5 },
    { source: "s13", level: 0, pan: null },
    { source: "s19", level: -3, pan: 0.5 },
  ]);
  const last = applied(more, duplicateSource("s13")).sums[1]?.sends.at(-1);
  expect(last).toEqual({ source: "s19", level: 0, pan: null });
});
