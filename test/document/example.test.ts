import { beforeEach, describe, expect, it } from "vitest";
import { evaluate } from "../../src/core/evaluate";
import { patchFigures } from "../../src/core/inputs/figures";
import { imagesOf } from "../../src/core/stereo/image";
import { exampleSetup } from "../../src/document/example";
import { mend } from "../../src/document/mend";
import type { SetupFile } from "../../src/document/schema";
import { templateSetup } from "../../src/document/templates";

describe("the worked example", () => {
  let example: SetupFile;
  beforeEach(() => {
    example = exampleSetup();
  });
  const imageOf = (name: string) =>
    imagesOf(example).find((i) => i.listener === example.listeners.find((l) => l.name.startsWith(name))?.id);

  it("is marked as one and whole in itself", () => {
    expect(example.example).toBe(true);
    expect(mend(example)).toBe(example);
    expect([example.name, example.note]).toEqual([
      "Tallow Street Soul at Linden Hall",
      "Invented band, hall, people and levels: a worked example to try things on.",
    ]);
    expect(example.listeners.map((l) => l.name)).toEqual([
      "Audience",
      "Mara, drums",
      "Tobi, lead vox",
      "Lene, keys",
      "Ravi, bass",
      "Ines, music director",
    ]);
  });

  it("has its snare a little to the drummer's left, and panned so, unlike the template", () => {
    const moved = example.kit.pieces.filter((p, at) => p.x !== templateSetup(8, "right").kit.pieces[at]?.x);
    expect(moved.map((p) => [p.kind, p.x])).toEqual([["snare", -0.15]]);
    const panned = example.channels
      .slice(0, 8)
      .filter((s, at) => s.pan !== templateSetup(8, "right").channels[at]?.pan);
    expect(panned.map((s) => [s.name, s.pan])).toEqual([["Snare", 0.1]]);
  });

  it("is right for the audience", () => {
    expect(imageOf("Audience")?.count).toMatchObject({ right: 8, wrong: 0 });
  });

  it("has seven of eight on the wrong side for the drummer", () => {
    expect(imageOf("Mara")?.count).toEqual({ right: 1, wrong: 7, centred: 0, unplaced: 0 });
  });

  it("is right for the one who faces the band, and has no sides for the one side-on", () => {
    expect(imageOf("Ines")?.count.wrong).toBe(0);
    expect(imageOf("Lene")?.sideOn).toBe(true);
  });

  it("fills all but one of sixteen inputs, one of them off", () => {
    const { inputs, inputCount } = example.monitor;
    expect([inputCount, inputs.length]).toEqual([16, 16]);
    expect(inputs.filter((input) => input === null)).toHaveLength(1);
    expect(inputs.filter((input) => input && !input.on)).toHaveLength(1);
  });

  it("has its margin everywhere but at the receiving input", () => {
    const drums = evaluate(example).buses.get("m1");
    expect(drums?.ceilings.map((c) => [c.place, c.state])).toEqual([
      ["output", "fine"],
      ["input", "under target"],
    ]);
  });

  it("has nothing amiss in the patch but the feed that was forgotten", () => {
    expect(patchFigures(example).issues.map((flag) => [flag.code, flag.inputs])).toEqual([["off", [10]]]);
  });
});
