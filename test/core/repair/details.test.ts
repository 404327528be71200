import { describe, expect, it } from "vitest";
import type { Bus, MonitorInput, Setup } from "../../../src/core/model/setup";
import { type Option, optionsOf } from "../../../src/core/repair/options";
import { isOnBus, LEAVE, pairStates } from "../../../src/core/repair/parts";
import { searchBest } from "../../../src/core/repair/search";
import { situationOf } from "../../../src/core/repair/situation";
import { roomForPair, withStep } from "../../../src/core/repair/steps";
import { drumsOf, withDrums } from "./drums";
import { all, busOf, crossed, first, heardBy, ranked, steps, withBus } from "./ranked";
import { AUDIENCE, BUS, channel, DRUMMER, kit, listener, side, withChannel } from "./setups";

const says = (setup: Setup, id: string): string[] => ranked(setup, id).notes.map((n) => n.says);
const codes = (setup: Setup, id: string): string[] => ranked(setup, id).notes.map((n) => n.code);
const inInputs = (inputs: readonly (MonitorInput | null)[], inputCount = inputs.length): Setup =>
  kit({ monitor: { inputCount, inputs, maxInputDbu: 20 } });
const withKeys = (setup: Setup): Setup =>
  withChannel(setup, channel("keys", { name: "Keys", lines: 2, keepSides: true }));

describe("what is not an exact mirror", () => {
  it("of unequal side trims is said for what is done, and for nothing else", () => {
    const setup = withKeys(withBus(kit(), { sideTrim: [1, -1] }));
    expect(says(setup, "swap").slice(1)).toEqual([
      "The sides of Drums are trimmed 2.0 dB apart: the trims change ears with the sides.",
    ]);
    expect(codes(setup, "swap")).toEqual(["sides lost", "side trims"]);
    expect(says(setup, "sum")).toEqual([
      "The sides of Drums are trimmed 2.0 dB apart and stay so: what is panned over is up to 2.0 dB off an exact mirror.",
    ]);
    expect(codes(setup, "sum")).toEqual(["side trims"]);
  });

  it("is printed to the hundredth below a tenth of a dB", () => {
    const of = (trim: number) => says(withBus(kit(), { sideTrim: [trim, 0] }), "swap")[0];
    expect(of(0.05)).toContain(" trimmed 0.05 dB apart");
    expect(of(0.1)).toContain(" trimmed 0.1 dB apart");
  });

  it("of unequal input trims is said of a swap, not of a flip", () => {
    const alone = inInputs([side("m1", "left", 1), side("m1", "right", -1)]);
    expect(says(alone, "mara:flip")).toEqual([]);
    const two = heardBy(alone, listener("tobi"));
    expect(says(two, "swap")).toEqual([
      "The inputs of its sides are trimmed 2.0 dB apart and keep that: up to 2.0 dB off an exact mirror.",
    ]);
    expect(codes(two, "swap")).toEqual(["input trims"]);
  });

  it("of the console's steps is said of channel pans too, and names the worst channel", () => {
    const coarse = (setup: Setup): Setup => ({ ...setup, desk: { ...setup.desk, panSteps: 4 } });
    const foh = coarse(crossed());
    expect(says(foh, "swap, house")[1]).toBe("The console’s steps cost up to 1.6 dB, most for HAT.");
    expect(codes(foh, "swap, house")).toEqual(["house", "rounding"]);
    const fits = {
      ...foh,
      channels: foh.channels.map((s) => (s.id === "hat" ? { ...s, pan: -0.75 } : s)),
    };
    expect(says(fits, "swap, house")[1]).toBe("The console’s steps cost up to 1.6 dB, most for FLOOR.");
  });

  it("of two channels names a channel without a name as such", () => {
    const setup = withChannel(
      withKeys(kit()),
      channel("over", { name: "", lines: 2, piece: "hat", pan: 0.5 }),
    );
    expect(says(setup, "sum")).toEqual([
      "Unnamed source: panning moves the balance, it does not exchange the two channels.",
    ]);
    expect(codes(setup, "sum")).toEqual(["two channels"]);
  });
});

describe("advice", () => {
  it("is given for FOH alone where nobody hears the bus", () => {
    const setup = { ...crossed(), listeners: [AUDIENCE, { ...DRUMMER, bus: null }] };
    expect(first(setup).id).toBe("house");
    expect(all(setup).advice.why).toMatch(/^The audience then has every side correct; 4 were wrong\./);
  });

  it("does not let the others decide because of somebody side-on who does not hear the bus", () => {
    const setup = heardBy(kit(), listener("rafi", { name: "Rafi", facing: 90, bus: null }));
    const { why } = all({ ...setup, preferences: { ...setup.preferences, first: "rafi" } }).advice;
    expect(why).toMatch(/^Rafi hears nothing of it that has a side\./);
  });

  it("does without one who matters most", () => {
    const setup = kit({ preferences: { ...kit().preferences, first: "nobody" } });
    const { headline, why } = all(setup).advice;
    expect(headline).toBe("Patch Drums in reverse");
    expect(why).toContain("before, 4 were wrong there.");
    expect(why).toContain("leaves 4 more sides wrong for the others.");
  });
});

describe("what may be done", () => {
  it("with a bus that brings both ears the same is nothing but to move FOH", () => {
    const free = kit({ preferences: { ...kit().preferences, fohFixed: false } });
    for (const same of [{ stereo: false }, { folded: true }])
      expect(pairStates(free, { ...BUS, ...same })).toEqual([LEAVE, { ...LEAVE, pan: "foh" }]);
  });

  it("gives no side to what is silent", () => {
    const off = (only: "left" | "right"): MonitorInput => ({ ...side("m1", only), on: false });
    const setup = inInputs([off("left"), off("right"), null, null]);
    const options = optionsOf(situationOf(setup, busOf(setup))).flatMap((o) => o.members.flat());
    expect(new Set(options.map((o) => o.choice)).size).toBe(4);
    for (const { choice, tally } of options)
      expect([choice, tally.unplaced, tally.centred]).toEqual([choice, 5, 0]);
  });

  it("keeps what saves inputs, though it is worse for the others and takes as many moves", () => {
    const faces = { facing: 180 };
    const setup = heardBy(withKeys(kit()), listener("ines", faces), listener("tobi", faces));
    const [own, shared] = [ranked(setup, "mara:own panned"), ranked(setup, "sum, ines:flip, tobi:flip")];
    expect([own.criteria.inputs, own.criteria.moves]).toEqual([2, 6]);
    expect([shared.criteria.inputs, shared.criteria.moves]).toEqual([0, 6]);
    expect(shared.criteria.first).toBe(own.criteria.first);
    expect(shared.criteria.others).toBeGreaterThan(own.criteria.others);
  });

  it("takes the earliest of what is equal in everything", () => {
    const situation = situationOf(kit(), busOf(kit()));
    const equals = optionsOf(situation).map((state) => ({
      ...state,
      members: state.members.map(([none]) => [
        none as Option,
        { ...(none as Option), choice: "flip" as const },
      ]),
    }));
    expect(searchBest(situation, 0, equals)?.picks.map((p) => p.choice)).toEqual(["none"]);
  });

  it("never counts an audience among those who hear a bus", () => {
    expect(isOnBus({ ...AUDIENCE, bus: "m1" }, BUS)).toBe(false);
    expect(isOnBus(DRUMMER, BUS)).toBe(true);
  });
});

describe("the steps", () => {
  it("say whether a pan followed FOH", () => {
    const setup = withKeys(kit());
    const sends = busOf(setup).sends.map((s) => (s.channel === "hat" ? { ...s, pan: 0.4 } : s));
    const own = withBus(setup, { sends });
    expect(steps(own, ranked(own, "sum")).slice(0, 2)).toEqual([
      "Set HAT in Drums to L40 (was R40).",
      "Set TOM in Drums to L30 (was R30, following FOH).",
    ]);
  });

  it("move channel pans at FOH alone", () => {
    const { steps: its } = ranked(crossed(), "swap, house");
    expect(its.map((s) => s.step)).toEqual([
      "swap",
      "channel pan",
      "channel pan",
      "channel pan",
      "channel pan",
    ]);
  });

  it("copy a bus under an id of its own, with only what needs it panned over", () => {
    const setup = heardBy(withKeys(kit()), listener("ines", { facing: 180 }));
    const [step] = ranked(setup, "mara:own panned").steps;
    if (step?.step !== "own pair") throw new Error("no pair of one's own");
    expect(step.copy.id).toBe("m2");
    expect(step.copy.sends.map((s) => s.pan)).toEqual([-0.7, -0.3, null, 0.7, 0.5, null]);
  });

  it("name a copy of what has no name by what it is", () => {
    const setup = heardBy(withKeys(kit()), listener("ines", { facing: 180 }));
    const [step] = ranked(withBus(setup, { name: "" }), "mara:own panned").steps;
    expect(step?.step === "own pair" && step.copy.name).toBe("Sum for Mara");
  });

  it("put a copy right behind what it is a copy of, and leave all other inputs as they are", () => {
    const [a, b, c] = [side("m1", "left"), side("m1", "right"), side("m3", "left")];
    const before = inInputs([null, null, a, b, c], 5);
    const buses = ["m0", "m1", "m3"].map((id): Bus => ({ ...busOf(before), id }));
    const after = withStep(
      { ...before, buses },
      {
        step: "own pair",
        listener: "mara",
        of: "m1",
        copy: { ...BUS, id: "m4" },
        inputs: [0, 1],
        trims: [0, 0],
        off: [false, false],
        pans: [],
      },
    );
    expect(after.buses.map((s) => s.id)).toEqual(["m0", "m1", "m4", "m3"]);
    expect(after.monitor.inputs).toEqual([side("m4", "left"), side("m4", "right"), a, b, c]);
  });

  it("swap the bus they name", () => {
    const setup = withDrums();
    const after = withStep(setup, { step: "swap", bus: drumsOf(setup).id, inputs: [1, 0] });
    expect(after.buses.map((s) => s.swapped)).toEqual([false, true]);
    expect(after.monitor.inputs.slice(0, 2)).toEqual([side("Drums", "right"), side("Drums", "left")]);
  });

  it("find room for a pair in two free inputs, neighbours first, and none in one", () => {
    const [a, b] = [side("m1", "left"), side("m1", "right")];
    expect(roomForPair(inInputs([null, a, null, null, b]))).toEqual([2, 3]);
    expect(roomForPair(inInputs([null, a, null, b]))).toEqual([0, 2]);
    expect(roomForPair(inInputs([null, a, b]))).toBeNull();
    expect(roomForPair(inInputs([a, b]))).toBeNull();
  });
});
