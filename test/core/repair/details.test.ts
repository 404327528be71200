import { describe, expect, it } from "vitest";
import { type Option, optionsOf } from "../../../src/core/repair/options";
import { isOnSum, LEAVE, pairStates } from "../../../src/core/repair/parts";
import { searchBest } from "../../../src/core/repair/search";
import { situationOf } from "../../../src/core/repair/situation";
import { roomForPair, withStep } from "../../../src/core/repair/steps";
import type { Setup, Slot, Sum } from "../../../src/core/setup";
import { drumsOf, withDrums } from "./drums";
import { all, crossed, first, heardBy, ranked, steps, sumOf, withSum } from "./ranked";
import { AUDIENCE, DRUMMER, kit, leg, listener, SUM, source, withSource } from "./setups";

const says = (setup: Setup, id: string): string[] => ranked(setup, id).notes.map((n) => n.says);
const codes = (setup: Setup, id: string): string[] => ranked(setup, id).notes.map((n) => n.code);
const inSlots = (slots: readonly (Slot | null)[], slotCount = slots.length): Setup =>
  kit({ monitor: { slotCount, slots, inputMaxDbu: 20 } });
const withKeys = (setup: Setup): Setup =>
  withSource(setup, source("keys", { name: "Keys", channels: 2, keepSides: true }));

describe("what is not an exact mirror", () => {
  it("of unequal leg trims is said for what is done, and for nothing else", () => {
    const setup = withKeys(withSum(kit(), { legTrim: [1, -1] }));
    expect(says(setup, "swap").slice(1)).toEqual([
      "The legs of Drums are trimmed 2.0 dB apart: the trims change ears with the legs.",
    ]);
    expect(codes(setup, "swap")).toEqual(["sides lost", "leg trims"]);
    expect(says(setup, "sum")).toEqual([
      "The legs of Drums are trimmed 2.0 dB apart and stay so: what is panned over is up to 2.0 dB off an exact mirror.",
    ]);
    expect(codes(setup, "sum")).toEqual(["leg trims"]);
  });

  it("is printed to the hundredth below a tenth of a dB", () => {
    const of = (trim: number) => says(withSum(kit(), { legTrim: [trim, 0] }), "swap")[0];
    expect(of(0.05)).toContain(" trimmed 0.05 dB apart");
    expect(of(0.1)).toContain(" trimmed 0.1 dB apart");
  });

  it("of unequal slot trims is said of a swap, not of a flip", () => {
    const alone = inSlots([leg("m1", "left", 1), leg("m1", "right", -1)]);
    expect(says(alone, "mara:flip")).toEqual([]);
    const two = heardBy(alone, listener("tobi"));
    expect(says(two, "swap")).toEqual([
      "The slots of its legs are trimmed 2.0 dB apart and keep that: up to 2.0 dB off an exact mirror.",
    ]);
    expect(codes(two, "swap")).toEqual(["slot trims"]);
  });

  it("of the console's steps is said of house pans too, and names the worst source", () => {
    const coarse = (setup: Setup): Setup => ({ ...setup, console: { ...setup.console, panSteps: 4 } });
    const house = coarse(crossed());
    expect(says(house, "swap, house")[1]).toBe("The console’s steps cost up to 1.6 dB, most for HAT.");
    expect(codes(house, "swap, house")).toEqual(["house", "rounding"]);
    const fits = {
      ...house,
      sources: house.sources.map((s) => (s.id === "hat" ? { ...s, pan: -0.75 } : s)),
    };
    expect(says(fits, "swap, house")[1]).toBe("The console’s steps cost up to 1.6 dB, most for FLOOR.");
  });

  it("of two channels names a source without a name as such", () => {
    const setup = withSource(
      withKeys(kit()),
      source("over", { name: "", channels: 2, piece: "hat", pan: 0.5 }),
    );
    expect(says(setup, "sum")).toEqual([
      "Unnamed source: panning moves the balance, it does not exchange the two channels.",
    ]);
    expect(codes(setup, "sum")).toEqual(["two channels"]);
  });
});

describe("advice", () => {
  it("is given for the house alone where nobody hears the sum", () => {
    const setup = { ...crossed(), listeners: [AUDIENCE, { ...DRUMMER, sum: null }] };
    expect(first(setup).id).toBe("house");
    expect(all(setup).advice.why).toMatch(/^The audience then has every side correct; 4 were wrong\./);
  });

  it("does not let the others decide because of somebody side-on who does not hear the sum", () => {
    const setup = heardBy(kit(), listener("rafi", { name: "Rafi", facing: 90, sum: null }));
    const { why } = all({ ...setup, wishes: { ...setup.wishes, first: "rafi" } }).advice;
    expect(why).toMatch(/^Rafi hears nothing of it that has a side\./);
  });

  it("does without one who matters most", () => {
    const setup = kit({ wishes: { ...kit().wishes, first: "nobody" } });
    const { headline, why } = all(setup).advice;
    expect(headline).toBe("Patch Drums in reverse");
    expect(why).toContain("before, 4 were wrong there.");
    expect(why).toContain("leaves 4 more sides wrong for the others.");
  });
});

describe("what may be done", () => {
  it("with a sum that brings both ears the same is nothing but to move the house", () => {
    const free = kit({ wishes: { ...kit().wishes, houseFixed: false } });
    for (const same of [{ stereo: false }, { folded: true }])
      expect(pairStates(free, { ...SUM, ...same })).toEqual([LEAVE, { ...LEAVE, pan: "house" }]);
  });

  it("gives no side to what is silent", () => {
    const off = (side: "left" | "right"): Slot => ({ ...leg("m1", side), on: false });
    const setup = inSlots([off("left"), off("right"), null, null]);
    const options = optionsOf(situationOf(setup, sumOf(setup))).flatMap((o) => o.members.flat());
    expect(new Set(options.map((o) => o.choice)).size).toBe(4);
    for (const { choice, tally } of options)
      expect([choice, tally.unplaceable, tally.flat]).toEqual([choice, 5, 0]);
  });

  it("keeps what saves slots, though it is worse for the others and takes as many moves", () => {
    const faces = { facing: 180 };
    const setup = heardBy(withKeys(kit()), listener("ines", faces), listener("tobi", faces));
    const [own, shared] = [ranked(setup, "mara:own panned"), ranked(setup, "sum, ines:flip, tobi:flip")];
    expect([own.criteria.slots, own.criteria.moves]).toEqual([2, 6]);
    expect([shared.criteria.slots, shared.criteria.moves]).toEqual([0, 6]);
    expect(shared.criteria.first).toBe(own.criteria.first);
    expect(shared.criteria.others).toBeGreaterThan(own.criteria.others);
  });

  it("takes the earliest of what is equal in everything", () => {
    const situation = situationOf(kit(), sumOf(kit()));
    const equals = optionsOf(situation).map((state) => ({
      ...state,
      members: state.members.map(([none]) => [
        none as Option,
        { ...(none as Option), choice: "flip" as const },
      ]),
    }));
    expect(searchBest(situation, 0, equals)?.picks.map((p) => p.choice)).toEqual(["none"]);
  });

  it("never counts an audience among those who hear a sum", () => {
    expect(isOnSum({ ...AUDIENCE, sum: "m1" }, SUM)).toBe(false);
    expect(isOnSum(DRUMMER, SUM)).toBe(true);
  });
});

describe("the steps", () => {
  it("say whether a pan followed the house", () => {
    const setup = withKeys(kit());
    const sends = sumOf(setup).sends.map((s) => (s.source === "hat" ? { ...s, pan: 0.4 } : s));
    const own = withSum(setup, { sends });
    expect(steps(own, ranked(own, "sum")).slice(0, 2)).toEqual([
      "Set HAT in Drums to L40 (was R40).",
      "Set TOM in Drums to L30 (was R30, following the house).",
    ]);
  });

  it("move house pans in the house alone", () => {
    const { steps: its } = ranked(crossed(), "swap, house");
    expect(its.map((s) => s.step)).toEqual(["swap", "house pan", "house pan", "house pan", "house pan"]);
  });

  it("copy a sum under an id of its own, with only what needs it panned over", () => {
    const setup = heardBy(withKeys(kit()), listener("ines", { facing: 180 }));
    const [step] = ranked(setup, "mara:own panned").steps;
    if (step?.step !== "own pair") throw new Error("no pair of one's own");
    expect(step.copy.id).toBe("m2");
    expect(step.copy.sends.map((s) => s.pan)).toEqual([-0.7, -0.3, null, 0.7, 0.5, null]);
  });

  it("name a copy of what has no name by what it is", () => {
    const setup = heardBy(withKeys(kit()), listener("ines", { facing: 180 }));
    const [step] = ranked(withSum(setup, { name: "" }), "mara:own panned").steps;
    expect(step?.step === "own pair" && step.copy.name).toBe("Sum for Mara");
  });

  it("put a copy right behind what it is a copy of, and leave all other slots as they are", () => {
    const [a, b, c] = [leg("m1", "left"), leg("m1", "right"), leg("m3", "left")];
    const before = inSlots([null, null, a, b, c], 5);
    const sums = ["m0", "m1", "m3"].map((id): Sum => ({ ...sumOf(before), id }));
    const after = withStep(
      { ...before, sums },
      {
        step: "own pair",
        listener: "mara",
        of: "m1",
        copy: { ...SUM, id: "m4" },
        slots: [0, 1],
        trims: [0, 0],
        off: [false, false],
        pans: [],
      },
    );
    expect(after.sums.map((s) => s.id)).toEqual(["m0", "m1", "m4", "m3"]);
    expect(after.monitor.slots).toEqual([leg("m4", "left"), leg("m4", "right"), a, b, c]);
  });

  it("swap the sum they name", () => {
    const setup = withDrums();
    const after = withStep(setup, { step: "swap", sum: drumsOf(setup).id, slots: [1, 0] });
    expect(after.sums.map((s) => s.reversed)).toEqual([false, true]);
    expect(after.monitor.slots.slice(0, 2)).toEqual([leg("Drums", "right"), leg("Drums", "left")]);
  });

  it("find room for a pair in two free slots, neighbours first, and none in one", () => {
    const [a, b] = [leg("m1", "left"), leg("m1", "right")];
    expect(roomForPair(inSlots([null, a, null, null, b]))).toEqual([2, 3]);
    expect(roomForPair(inSlots([null, a, null, b]))).toEqual([0, 2]);
    expect(roomForPair(inSlots([null, a, b]))).toBeNull();
    expect(roomForPair(inSlots([a, b]))).toBeNull();
  });
});
