import { describe, expect, it } from "vitest";
import { overheadFlags } from "../../src/core/overheads";
import type { Setup, Source, Sum } from "../../src/core/setup";
import { exampleSetup } from "../../src/document/example";
import { kit, piece, source, withSource } from "./repair/setups";

/** The kit with two overheads: over the drummer's right, which is house left, and over the left. */
const withOverheads = (right: number, left: number, ownRight: number | null = null): Setup => {
  let setup = kit();
  const limbs = ["whole"] as const;
  setup = {
    ...setup,
    kit: {
      ...setup.kit,
      pieces: [
        ...setup.kit.pieces,
        piece("over right", 0.5, 0.5, { kind: "overhead", limbs }),
        piece("over left", -0.5, 0.5, { kind: "overhead", limbs }),
      ],
    },
  };
  setup = withSource(setup, source("or", { name: "Overhead L", piece: "over right", pan: right }), {
    pan: ownRight,
  });
  return withSource(setup, source("ol", { name: "Overhead R", piece: "over left", pan: left }), {
    pan: ownRight === null ? null : -ownRight,
  });
};

describe("overheads against the close microphones", () => {
  it("says nothing where they agree, and of the worked example", () => {
    expect(overheadFlags(withOverheads(-1, 1))).toEqual([]);
    expect(overheadFlags(exampleSetup())).toEqual([]);
  });

  it("names a crossed pair, once, where the sum follows the house", () => {
    expect(overheadFlags(withOverheads(1, -1))).toEqual([
      {
        code: "crossed",
        where: "house",
        sources: ["or", "ol"],
        says: "Overhead L and Overhead R are crossed in the house: the close microphones have each side of the kit on the other side.",
        remedy:
          "Exchange their pans, or their lines on stage if the pans are as meant; hit one cymbal to tell.",
      },
    ]);
  });

  it("names the one that is on the wrong side", () => {
    const flags = overheadFlags(withOverheads(-1, -0.8));
    expect(flags.map((f) => [f.code, f.where, f.sources])).toEqual([["mis-sided", "house", ["ol"]]]);
    expect(flags[0]?.says).toBe(
      "Overhead R is on the wrong side in the house: the close microphones have that side of the kit on the other.",
    );
    expect(flags[0]?.remedy).toBe(
      "Pan Overhead R to the other side, or look whether the line is in the right input.",
    );
  });

  it("takes neither muted ones, nor two channels, nor what stands at no side, for close microphones or overheads", () => {
    const crossed = withOverheads(1, -1);
    const change = (of: string, over: Partial<Source>): Setup => ({
      ...crossed,
      sources: crossed.sources.map((s) => (s.id === of ? { ...s, ...over } : s)),
    });
    expect(overheadFlags(change("ol", { muted: true })).map((f) => [f.code, f.sources])).toEqual([
      ["mis-sided", ["or"]],
    ]);
    expect(overheadFlags(change("ol", { channels: 2 })).map((f) => f.sources)).toEqual([["or"]]);
    expect(overheadFlags(change("ol", { piece: null })).map((f) => f.sources)).toEqual([["or"]]);
    expect(overheadFlags(change("ol", { pan: 0 })).map((f) => f.sources)).toEqual([["or"]]);
  });

  it("takes one from a hand's width off the middle line on, as the rest of the picture does", () => {
    const at = (x: number): Setup => {
      const setup = withOverheads(-1, -1);
      const pieces = setup.kit.pieces.map((p) => (p.id === "over left" ? { ...p, x } : p));
      return { ...setup, kit: { ...setup.kit, pieces } };
    };
    expect(overheadFlags(at(-0.12)).map((f) => f.sources)).toEqual([["ol"]]);
    expect(overheadFlags(at(-0.11))).toEqual([]);
  });

  it("takes an overhead that is heard in the middle for neither side", () => {
    expect(overheadFlags(withOverheads(-1, -0.05))).toEqual([]);
  });

  it("lets a close microphone count by how far it is panned, and an overhead not at all", () => {
    const panned = (pans: { readonly [id: string]: number }): Setup => {
      const setup = withOverheads(1, -1);
      const sources = setup.sources.filter((s) => s.id in pans || s.id === "or" || s.id === "ol");
      return { ...setup, sources: sources.map((s) => ({ ...s, pan: pans[s.id] ?? s.pan })) };
    };
    // The hi-hat far at its side, the floor tom a little at the wrong one.
    expect(overheadFlags(panned({ hat: 1, floor: 0.1 })).map((f) => f.sources)).toEqual([["or", "ol"]]);
    // One close microphone, hardly panned, against two overheads at the ends.
    expect(overheadFlags(panned({ hat: 0.1 })).map((f) => f.sources)).toEqual([["or", "ol"]]);
  });

  it("names a sum beside the house where other overheads are wrong in it, or all that it has", () => {
    const of = (setup: Setup) => overheadFlags(setup).map((f) => [f.code, f.where, f.sources]);
    const own = withOverheads(-1, -0.8);
    const pans = new Map([
      ["or", 0.8],
      ["ol", 1],
    ]);
    const turned = own.sums.map((s) => ({
      ...s,
      sends: s.sends.map((send) => ({ ...send, pan: pans.get(send.source) ?? null })),
    }));
    expect(of({ ...own, sums: turned })).toEqual([
      ["mis-sided", "house", ["ol"]],
      ["mis-sided", "m1", ["or"]],
    ]);
    const third = source("o3", { name: "Overhead far", piece: "over right", pan: -0.9 });
    expect(of(withSource(withOverheads(1, -1), third, { level: null }))).toEqual([
      ["mis-sided", "house", ["or", "ol"]],
      ["crossed", "m1", ["or", "ol"]],
    ]);
  });

  it("says nothing where no close microphone tells the sides", () => {
    const crossed = withOverheads(1, -1);
    const close = crossed.sources.filter((s) => s.id !== "or" && s.id !== "ol");
    const silent = new Set(close.map((s) => s.id));
    const setup = {
      ...crossed,
      sources: crossed.sources.map((s) => (silent.has(s.id) ? { ...s, muted: true } : s)),
    };
    expect(overheadFlags(setup)).toEqual([]);
  });

  it("says nothing of a sum that has no sides", () => {
    const setup = withOverheads(-1, 1, 1);
    expect(overheadFlags(setup).map((f) => [f.where, f.says])).toEqual([
      ["m1", expect.stringMatching(/^Overhead L and Overhead R are crossed in Drums: /)],
    ]);
    const legTrim = [0, -6] as const;
    for (const over of [
      { stereo: false },
      { folded: true },
      { stereo: false, legTrim },
      { folded: true, legTrim },
    ])
      expect(overheadFlags({ ...setup, sums: setup.sums.map((s) => ({ ...s, ...over })) })).toEqual([]);
  });

  it("calls nothing crossed while one of the overheads is right", () => {
    const third = source("o3", { name: "Overhead far", piece: "over right", pan: -0.9 });
    const flags = overheadFlags(withSource(withOverheads(1, -1), third));
    expect(flags.map((f) => [f.code, f.sources])).toEqual([["mis-sided", ["or", "ol"]]]);
    expect(flags[0]?.says).toMatch(/^Overhead L and Overhead R are on the wrong side in the house/);
  });

  it("names a sum with pans of its own, and not the house", () => {
    const flags = overheadFlags(withOverheads(-1, 1, 1));
    expect(flags.map((f) => [f.code, f.where, f.sources])).toEqual([["crossed", "m1", ["or", "ol"]]]);
  });

  it("a reversed patch, a turned throne or a left-handed kit changes nothing of it", () => {
    for (const [right, left] of [
      [-1, 1],
      [1, -1],
    ] as const) {
      const setup = withOverheads(right, left);
      const codes = (s: Setup) => overheadFlags(s).map((f) => f.code);
      const expected = codes(setup);
      expect(codes({ ...setup, kit: { ...setup.kit, yaw: 180 } })).toEqual(expected);
      const reversed = setup.sums.map((s): Sum => ({ ...s, reversed: true }));
      expect(codes({ ...setup, sums: reversed })).toEqual(expected);
      const mirrored = setup.kit.pieces.map((p) => ({ ...p, x: -p.x }));
      expect(codes({ ...setup, kit: { ...setup.kit, pieces: mirrored } })).toEqual(expected);
    }
  });

  it("says nothing where the close microphones do not tell, or there are none, or in a mono sum", () => {
    const centre = withOverheads(1, -1);
    const close = (s: { id: string }) => s.id !== "or" && s.id !== "ol";
    expect(
      overheadFlags({ ...centre, sources: centre.sources.map((s) => (close(s) ? { ...s, pan: 0 } : s)) }),
    ).toEqual([]);
    expect(overheadFlags({ ...centre, sources: centre.sources.filter((s) => !close(s)) })).toEqual([]);
    // An overhead that is heard in the middle is not called wrong either.
    expect(overheadFlags({ ...centre, sources: centre.sources.map((s) => ({ ...s, pan: 0 })) })).toEqual([]);
    const own = withOverheads(-1, 1, 1);
    const folded = own.sums.map((s): Sum => ({ ...s, folded: true }));
    expect(overheadFlags({ ...own, sums: folded })).toEqual([]);
  });
});
