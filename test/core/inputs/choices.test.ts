import { describe, expect, it } from "vitest";
import { choicesOf } from "../../../src/core/inputs/choices";
import { APART, COSTS } from "../../../src/core/inputs/costs";
import type { Channel, Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, isOff, setup, side } from "./setups";

const KICK = channel("Kick", { kind: "drum" });
const HAT = channel("Hat", { kind: "drum", pan: 1 });
const VOX = channel("Vox", { kind: "vocal" });
const CLICK = channel("Click", { kind: "playback" });
const KEYS = channel("Keys", { kind: "keys", lines: 2 });
const BOTH = [side("Drums", "left"), side("Drums", "right")] as const;
const off = (id: string) => isOff(direct(id));

/** What can be done with a thing: each way and what it costs. */
const ways = (s: Setup, id: string) =>
  choicesOf(s)
    .find((o) => o.thing.id === id)
    ?.choices.map(({ move, cost }) => ["why" in move ? move.why : move.move, move.inputs, cost]);

describe("what can be done with a channel", () => {
  it("is to free what it has twice, or what is off, at so much an input", () => {
    const s = setup([VOX], [], [direct("Vox"), direct("Vox"), direct("Vox"), off("Vox")]);
    expect(ways(s, "Vox")).toEqual([
      ["copy", [1, 2, 3], 3 * COSTS.free.copy],
      ["off", [3], COSTS.free.off],
    ]);
  });

  it("is only to free it where it is muted, or off everywhere", () => {
    const drums = bus("Drums", ["Kick"]);
    expect(ways(setup([KICK, { ...VOX, muted: true }], [drums], [...BOTH, direct("Vox")]), "Vox")).toEqual([
      ["muted", [2], COSTS.free.muted],
    ]);
    const [, option] = choicesOf(setup([KICK, VOX], [drums], [...BOTH, off("Vox"), off("Vox")]));
    expect(option).toMatchObject({ join: null });
    expect(option?.choices.map((c) => c.cost)).toEqual([2 * COSTS.free.off]);
  });

  it("is to free it where a bus brings it as well, and not to send it there once more", () => {
    const s = setup([KICK, VOX], [bus("Drums", ["Kick", "Vox"])], [...BOTH, direct("Vox")]);
    expect(ways(s, "Vox")).toEqual([["twice", [2], COSTS.free.twice]]);
  });

  it("of two channels is to fold it, dearer where it is to keep its sides; the input that is on stays", () => {
    const s = (keys: Channel, on: boolean) =>
      setup([keys], [], [direct("Keys", "left", { on }), direct("Keys", "right")]);
    expect(ways(s(KEYS, true), "Keys")).toEqual([["fold", [0, 1], COSTS.foldChannel]]);
    const [option] = choicesOf(s({ ...KEYS, keepSides: true }, false));
    expect(option?.choices.at(-1)).toMatchObject({
      move: { move: "fold", of: "channel", id: "Keys", keeps: 1 },
      cost: COSTS.foldChannel + COSTS.keepSides,
    });
    expect(option?.join).toEqual({
      family: "Rhythm",
      frees: 2,
      cost: APART.keys.like + COSTS.foldChannel + COSTS.keepSides,
    });
    expect(ways(setup([KEYS], [], [direct("Keys", "left")]), "Keys")).toEqual([]);
  });
});

describe("a new sum of its family", () => {
  it("takes a channel of one channel at the cost of its like, and nothing that has no family", () => {
    const s = setup([CLICK, KICK], [], [direct("Click"), direct("Kick")]);
    expect(choicesOf(s).map((o) => [o.thing.id, o.join])).toEqual([
      ["Click", null],
      ["Kick", { family: "Drums", frees: 1, cost: APART.drum.like }],
    ]);
  });
});

describe("what it costs a channel to go into a bus", () => {
  const into = (
    who: Channel,
    inside: readonly Channel[],
    more = {},
    inputs: Setup["monitor"]["inputs"] = BOTH,
  ) =>
    ways(
      setup(
        [...inside, who],
        [
          bus(
            "Drums",
            inside.map((o) => o.id),
            more,
          ),
        ],
        [...inputs, direct(who.id)],
      ),
      who.id,
    )?.find(([way]) => way === "into")?.[2];

  it("is less where one of its like is in it, more among others or none", () => {
    expect(into(HAT, [KICK])).toBe(APART.drum.like);
    expect(into(HAT, [VOX, KICK])).toBe(APART.drum.like);
    expect(into(HAT, [VOX])).toBe(APART.drum.strange);
    expect(into(HAT, [])).toBe(APART.drum.strange);
    // What has no family is strange to its own kind.
    expect(into(CLICK, [channel("Cue", { kind: "playback" })])).toBe(APART.playback.strange);
  });

  it("is more where it has sides to keep and the bus is mono, or a pair that is reversed", () => {
    const wide = { ...KEYS, keepSides: true };
    const mono = [side("Drums", "left")];
    // One channel has no sides to lose.
    expect(into(HAT, [KICK], { stereo: false }, mono)).toBe(APART.drum.like);
    expect(into(wide, [KICK])).toBe(APART.keys.strange);
    expect(into(wide, [KICK], { stereo: false }, mono)).toBe(
      APART.keys.strange + COSTS.foldChannel + COSTS.keepSides,
    );
    expect(into(KEYS, [KICK], { stereo: false }, mono)).toBe(APART.keys.strange + COSTS.foldChannel);
    const reversed = [side("Drums", "right"), side("Drums", "left")];
    expect(into(wide, [KICK], { swapped: true }, reversed)).toBe(APART.keys.strange + COSTS.keepSides);
    expect(into(KEYS, [KICK], { swapped: true }, reversed)).toBe(APART.keys.strange);
    expect(into(wide, [KICK], { stereo: false, swapped: true }, mono)).toBe(
      APART.keys.strange + COSTS.foldChannel + COSTS.keepSides,
    );
  });
});

describe("what can be done with a pair", () => {
  it("is to fold it, dearer for each image that collapses", () => {
    const cost = (...inside: Channel[]) =>
      ways(
        setup(
          inside,
          [
            bus(
              "Drums",
              inside.map((s) => s.id),
            ),
          ],
          BOTH,
        ),
        "Drums",
      )?.[0];
    expect(cost(KICK)).toEqual(["fold", [0, 1], COSTS.foldPair]);
    expect(cost(KICK, HAT)).toEqual(["fold", [0, 1], COSTS.foldPair + COSTS.foldImage]);
    expect(cost(HAT, { ...HAT, id: "Tom", pan: -1 })?.[2]).toBe(COSTS.foldPair + 2 * COSTS.foldImage);
  });

  it("is not to fold what is folded or off, nor one side; the side that is off may be freed", () => {
    const of = (more: object, inputs: Setup["monitor"]["inputs"]) =>
      ways(setup([KICK], [bus("Other", []), bus("Drums", ["Kick"], more)], inputs), "Drums");
    expect(of({ folded: true }, BOTH)).toEqual([["copy", [1], COSTS.free.copy]]);
    expect(of({}, BOTH.map(isOff))).toEqual([["off", [0, 1], 2 * COSTS.free.off]]);
    expect(of({}, [isOff(BOTH[0]), BOTH[1]])).toEqual([
      ["off", [0], COSTS.free.off],
      ["fold", [0, 1], COSTS.foldPair],
    ]);
    expect(of({}, [BOTH[0]])).toEqual([]);
  });
});

describe("the things in the inputs", () => {
  it("stand family by family, so that one search finds whole groups; what is gone is left out", () => {
    const bass = channel("Bass", { kind: "bass" });
    const guitar = channel("Guitar", { kind: "guitar" });
    const all = [VOX, bass, CLICK, KICK, guitar, HAT];
    const s = setup(all, [], [...all.map((o) => direct(o.id)), direct("Gone")]);
    expect(choicesOf(s).map((o) => o.thing.id)).toEqual(["Click", "Kick", "Hat", "Bass", "Guitar", "Vox"]);
  });

  it("are told apart by kind where a bus and a channel have one id", () => {
    const s = setup([channel("Drums", { kind: "talkback" })], [bus("Drums", [])], [direct("Drums"), ...BOTH]);
    expect(choicesOf(s).map((o) => [o.thing.kind, o.choices.map((c) => c.move.move)])).toEqual([
      ["bus", ["fold"]],
      ["channel", ["into"]],
    ]);
  });
});
