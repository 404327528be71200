import { describe, expect, it } from "vitest";
import type { Setup } from "../../../src/core/model/setup";
import { LAWS } from "../../../src/core/pan/laws";
import { whatWouldChange } from "../../../src/core/repair/changes";
import { optionsOf } from "../../../src/core/repair/options";
import { applyRepair, type Repair } from "../../../src/core/repair/repairs";
import { sayRepair } from "../../../src/core/repair/say";
import { compare } from "../../../src/core/repair/search";
import { situationOf } from "../../../src/core/repair/situation";
import { withStep } from "../../../src/core/repair/steps";
import { imagesOf } from "../../../src/core/stereo/image";
import { exampleSetup } from "../../../src/document/example";
import { all, busOf, first, heardBy, steps, withBus } from "./ranked";
import { AUDIENCE, channel, DRUMMER, kit, listener, side, withChannel } from "./setups";

const byId = (setup: Setup, id: string): Repair | undefined => all(setup).ranked.find((r) => r.id === id);
const notes = (repair: Repair | undefined): string[] => repair?.notes.map((n) => n.says) ?? [];
const rest = (setup: Setup, over: Partial<Setup["preferences"]>): Setup => ({
  ...setup,
  preferences: { ...setup.preferences, ...over },
});
const sidesOf = (setup: Setup, id: string) =>
  imagesOf(setup)
    .find((i) => i.listener === id)
    ?.rows.map((r) => [r.channel, ...r.sides]);

/** The gains the drummer gets of a swap, and of every channel panned over. */
const swapAndRepan = (setup: Setup) => {
  const swap = withStep(setup, { step: "swap", bus: "m1", inputs: [3, 2] });
  const bus = busOf(setup);
  const repan = withBus(setup, {
    sends: bus.sends.map((s) => ({ ...s, pan: -(setup.channels.find((x) => x.id === s.channel)?.pan ?? 0) })),
  });
  return [sidesOf(swap, "mara"), sidesOf(repan, "mara")] as const;
};

describe("swap and full re-pan", () => {
  it("give the same gains to 1e-12 for every law with equal trims", () => {
    for (const law of Object.keys(LAWS) as (keyof typeof LAWS)[])
      for (const reference of ["sides", "centre"] as const) {
        const setup = withBus(kit(), { trim: -2, sideTrim: [1.5, 1.5] });
        const [swap, repan] = swapAndRepan({ ...setup, desk: { ...setup.desk, law, reference } });
        swap?.forEach(([id, l, r], at) => {
          expect(repan?.[at]?.[0]).toBe(id);
          expect(Math.abs((repan?.[at]?.[1] as number) - (l as number))).toBeLessThan(1e-12);
          expect(Math.abs((repan?.[at]?.[2] as number) - (r as number))).toBeLessThan(1e-12);
        });
      }
  });

  it("differ by exactly the difference of the side trims, which is reported", () => {
    const keys = channel("keys", { lines: 2, keepSides: true });
    const setup = withBus(withChannel(kit(), keys), { sideTrim: [0, -2.25] });
    const [swap, repan] = swapAndRepan(setup);
    swap?.forEach(([id, l, r], at) => {
      if (id === "keys") return;
      const off = [l, r].map((g, ear) => 20 * Math.log10((repan?.[at]?.[ear + 1] as number) / (g as number)));
      expect(off[0]).toBeCloseTo(2.25, 9);
      expect(off[1]).toBeCloseTo(-2.25, 9);
    });
    const found = byId(setup, "sum");
    expect(found?.criteria.residual).toBe(2.25);
    expect(notes(found)).toContain(
      "The sides of Drums are trimmed 2.3 dB apart and stay so: what is panned over is up to 2.3 dB off an exact mirror.",
    );
    const swapped = byId(setup, "swap");
    expect(swapped?.criteria.residual).toBe(0);
    expect(notes(swapped)).toContain(
      "The sides of Drums are trimmed 2.3 dB apart: the trims change ears with the sides.",
    );
  });

  it("with unequal input trims a swap is off by their difference", () => {
    const alone = kit({
      monitor: { inputCount: 2, inputs: [side("m1", "left", 1), side("m1", "right")], maxInputDbu: 20 },
    });
    // As cheap and exact: a flip at the one mixer. For two it takes one move more.
    expect(first(alone).id).toBe("mara:flip");
    const setup = heardBy(alone, listener("tobi"));
    expect(byId(setup, "swap")?.criteria.residual).toBe(1);
    expect(notes(byId(setup, "swap"))).toEqual([
      "The inputs of its sides are trimmed 1.0 dB apart and keep that: up to 1.0 dB off an exact mirror.",
    ]);
  });

  it("say what a side of other polarity or with processing means", () => {
    const codes = (id: string) => {
      const keys = channel("keys", { lines: 2, keepSides: true });
      const setup = withBus(withChannel(kit(), keys), { sideInverted: [false, true], unevenSides: true });
      return byId(setup, id)?.notes.map((n) => n.code);
    };
    expect(codes("swap")).toEqual(["sides lost", "polarity", "uneven sides"]);
    expect(codes("sum")).toEqual(["polarity", "uneven sides"]);
  });
});

describe("the recommendation", () => {
  it("for a drummer alone on the pair: patch it in reverse", () => {
    const setup = kit();
    expect(first(setup).id).toBe("swap");
    expect(steps(setup, first(setup))).toEqual([
      "Patch the left side of Drums into input 4 and the right side into input 3.",
    ]);
    expect(all(setup).advice.headline).toBe("Patch Drums in reverse");
    expect(all(setup).advice.why).toBe(
      "Mara then has every side correct; 4 were wrong. It takes 1 move and no input; FOH notices nothing. " +
        "Second best, “Leave Drums as it is”, leaves 4 more sides wrong for Mara.",
    );
  });

  it("for a left-handed drummer with the pans of a right-handed kit: leave it", () => {
    const setup = kit();
    const pieces = setup.kit.pieces.map((p) => ({ ...p, x: -p.x }));
    const left = { ...setup, kit: { ...setup.kit, pieces } };
    expect(first(left).id).toBe("leave");
    expect(all(left).advice.headline).toBe("Leave Drums as it is");
    expect(all(left).advice.why).toMatch(/^Mara has every side correct already\./);
  });

  it("with somebody on the pair who faces the band, it changes", () => {
    const setup = heardBy(kit(), listener("ines", { name: "Ines", facing: 180 }));
    expect(first(setup).id).toBe("mara:flip");
    const two = heardBy(
      kit(),
      listener("ines", { name: "Ines", facing: 180 }),
      listener("tobi", { facing: 0 }),
    );
    expect(first(two).id).toBe("swap, ines:flip");
    expect(sayRepair(two, busOf(two), first(two))).toBe(
      "Patch Drums in reverse and flip it at the mixer of Ines",
    );
    expect(steps(two, first(two))[1]).toBe("Flip left and right at the mixer of Ines.");
  });

  it("already flipped at the mixer: the flip is taken out, or left in", () => {
    const flipped = { ...DRUMMER, flipped: true };
    const setup = { ...kit(), listeners: [AUDIENCE, flipped] };
    expect(first(setup).id).toBe("leave");
    const swapped = withStep(setup, { step: "swap", bus: "m1", inputs: null });
    const ines = listener("ines", { facing: 0 });
    const wrong = { ...swapped, listeners: [AUDIENCE, flipped, ines] };
    expect(first(wrong).id).toBe("mara:flip");
    expect(steps(wrong, first(wrong))).toEqual(["Take the flip out at the mixer of Mara."]);
  });

  it("with stereo keys or playback in the pair a swap is worse, and says so", () => {
    const keys = channel("keys", { name: "Keys", kind: "keys", lines: 2, keepSides: true });
    const setup = withChannel(kit(), keys);
    expect(first(setup).id).toBe("sum");
    expect(steps(setup, first(setup))).toEqual([
      "Set HAT in Drums to L70 (was R70, following FOH).",
      "Set TOM in Drums to L30 (was R30, following FOH).",
      "Set FLOOR in Drums to R70 (was L70, following FOH).",
      "Set RIDE in Drums to R50 (was L50, following FOH).",
    ]);
    const swap = byId(setup, "swap") as Repair;
    expect(notes(swap)).toEqual(["Keys must keep its sides and loses them for Mara."]);
    expect(swap.outcomes.find((o) => o.listener === "mara")?.tally.sidesLost).toBe(1);
    expect(swap.criteria.first).toBeGreaterThan(first(setup).criteria.first);
    expect(all(setup).advice.why).toContain("“Patch Drums in reverse”, leaves 1 more side wrong for Mara.");
  });

  it("does not blame a recommendation for sides that were lost before", () => {
    const keys = channel("keys", { name: "Keys", lines: 2, keepSides: true });
    const setup = heardBy(withChannel(kit(), keys), listener("ines", { name: "Ines", facing: 180 }));
    const swapped = withStep(setup, { step: "swap", bus: "m1", inputs: null });
    const leave = byId(swapped, "leave") as Repair;
    expect(leave.outcomes.map((o) => o.tally.sidesLost)).toEqual([0, 1, 1]);
    expect(notes(leave)).toEqual([]);
    expect(all(swapped).ranked.length).toBeGreaterThan(1);
    for (const repair of all(swapped).ranked)
      expect(
        repair.notes.some((n) => n.code === "sides lost"),
        repair.id,
      ).toBe(false);
  });

  it("weighs who matters most before the others, inputs before moves, moves before exactness", () => {
    const none = { first: 0, others: 0, inputs: 0, moves: 0, residual: 0 };
    const inOrder = ["residual", "moves", "slots", "others", "first"] as const;
    inOrder.forEach((criterion, at) => {
      const heavier = { ...none, [criterion]: 1 };
      const lighter = { ...none, ...Object.fromEntries(inOrder.slice(0, at).map((c) => [c, 9])) };
      expect(compare(lighter, heavier), criterion).toBeLessThan(0);
      expect(compare(heavier, lighter), criterion).toBeGreaterThan(0);
    });
    expect(compare(none, { ...none })).toBe(0);
  });

  it("one channel that must keep its side is panned back in a swapped pair, two channels can't be", () => {
    const both = withChannel(
      withChannel(kit(), channel("guitar", { pan: 0.4, keepSides: true })),
      channel("keys", { lines: 2, keepSides: true, pan: 0.5 }),
    );
    const state = optionsOf(situationOf(both, busOf(both))).find((o) => o.pair.swap && o.pair.pan === "bus");
    expect(state?.over).toEqual([false, false, false, false, false, true, false]);
  });

  it("panning over a channel of two channels moves its balance only, and says so", () => {
    const overheads = channel("over", { name: "Overheads", lines: 2, piece: "hat", pan: 0.5 });
    const keys = channel("keys", { lines: 2, keepSides: true });
    const setup = withChannel(withChannel(kit(), overheads), keys);
    const found = byId(setup, "sum");
    expect(notes(found)).toEqual([
      "Overheads: panning moves the balance, it does not exchange the two channels.",
    ]);
    const after = applyRepair(setup, found as Repair);
    const row = imagesOf(after)
      .find((i) => i.listener === "mara")
      ?.rows.find((r) => r.channel === "over");
    expect(row?.placement).toBe("right");
  });

  it("gives a pair of one's own only where there are inputs for it", () => {
    const keys = channel("keys", { lines: 2, keepSides: true });
    const both = heardBy(withChannel(kit(), keys), listener("ines", { name: "Ines", facing: 180 }));
    const best = first(both);
    expect(best.id).toBe("mara:own panned");
    expect(steps(both, best)).toEqual([
      "Copy Drums to a new pair, “Drums for Mara”, and patch its left side into input 1 and its right side into input 2 for " +
        "Mara alone. In it set HAT to L70 (was R70, following FOH), TOM to L30 (was R30, following FOH), " +
        "FLOOR to R70 (was L70, following FOH) and RIDE to R50 (was L50, following FOH).",
    ]);
    const full = { ...both, monitor: { ...both.monitor, inputCount: 3 } };
    expect(all(full).ranked.every((r) => r.criteria.inputs === 0)).toBe(true);
    expect(first(full).id).toBe("sum, ines:flip");
  });

  it("moves the channel pan only where that is allowed, and says what FOH notices", () => {
    const crossed = { ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: -s.pan })) };
    const fixed = rest(crossed, { first: "audience" });
    expect(first(fixed).id).toBe("leave");
    expect(all(fixed).ranked.every((r) => r.foh.length === 0)).toBe(true);
    const free = rest(crossed, { first: "audience", fohFixed: false });
    expect(first(free).parts.pair).toEqual({ swap: true, pan: "house", fold: false });
    expect(first(free).foh).toEqual(["hat", "tom", "floor", "ride"]);
    expect(notes(first(free))[0]).toBe("FOH hears HAT, TOM, FLOOR and RIDE on the other side.");
    expect(steps(free, first(free))).toContain("Set the channel pan of HAT to R70 (was L70).");
    const after = applyRepair(free, first(free));
    expect(imagesOf(after).map((i) => i.count.wrong)).toEqual([0, 0]);
  });

  it("rounds pans to the console's steps and says what that costs", () => {
    const keys = channel("keys", { lines: 2, keepSides: true });
    const setup = withChannel(kit(), keys);
    const coarse = { ...setup, console: { ...setup.desk, panSteps: 4 } };
    const found = byId(coarse, "sum") as Repair;
    expect(steps(coarse, found)[0]).toBe("Set HAT in Drums to L3 (was R3, following FOH).");
    const hat = found.steps[0];
    const x = (p: number) => (Math.PI / 4) * (1 + p);
    const exact = Math.abs(20 * Math.log10(Math.cos(x(0.75)) / Math.cos(x(0.7))));
    expect(hat?.step === "pan" && hat.error).toBeCloseTo(exact, 9);
    expect(found.criteria.residual).toBeCloseTo(exact, 8);
    expect(notes(found)).toContain("The console’s steps cost up to 1.6 dB, most for HAT.");
  });

  it("has something true to say where there is nothing to recommendation", () => {
    const headline = (setup: Setup): string => all(setup).advice.headline;
    expect(headline(withBus(kit(), { sends: [] }))).toBe("Nothing sounds in Drums");
    expect(headline({ ...kit(), listeners: [AUDIENCE, { ...DRUMMER, bus: null }] })).toBe(
      "Nobody hears Drums",
    );
    expect(headline(withBus(kit(), { stereo: false }))).toBe("Drums is mono");
    expect(headline(withBus(kit(), { folded: true }))).toBe("Drums is folded to mono");
    const centre = { ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: 0 })) };
    expect(headline(centre)).toBe("Leave Drums as it is");
    expect(all(centre).advice.why).toMatch(
      /^Mara has no side wrong, but 4 sources flat: only their pans can change that\./,
    );
    const rafi = heardBy(kit(), listener("rafi", { name: "Rafi", facing: 90 }));
    const side = rest(rafi, { first: "rafi" });
    expect(first(side).id).toBe("swap");
    expect(all(side).advice.why).toMatch(/^Rafi stands side-on to the kit, so only the others decide\./);
  });

  it("prints what people call things, and pans as the console does", () => {
    const setup = withChannel(kit(), channel("keys", { lines: 2, keepSides: true }));
    const midi = { ...setup, console: { ...setup.desk, panStyle: "midi" as const } };
    expect(steps(midi, first(midi))[0]).toBe("Set HAT in Drums to 20 (was 108, following FOH).");
    const nameless = { ...setup, listeners: [AUDIENCE, { ...DRUMMER, name: "Drummer" }] };
    expect(all(nameless).advice.why).toMatch(/^The drummer then has every side correct/);
    const unpatched = kit({ monitor: { inputCount: 8, inputs: [], maxInputDbu: 20 } });
    expect(steps(unpatched, first(unpatched))).toEqual([
      "Plan the sides of Drums the other way round: not both have an input yet.",
    ]);
  });
});

describe("what would change the answer", () => {
  it("is each single fact that makes another recommendation the best", () => {
    const ines = listener("ines", { name: "Ines", facing: 180 });
    const setup = heardBy(kit(), ines, listener("tobi", { name: "Tobi" }));
    const changes = whatWouldChange(situationOf(setup, busOf(setup)));
    expect(changes).toContainEqual({
      fact: "If Ines faced the other way",
      instead: "Patch Drums in reverse",
      id: "swap",
    });
    expect(changes).toContainEqual({
      fact: "If Tobi faced the other way",
      instead: "Flip Drums at the mixer of Mara",
      id: "mara:flip",
    });
    const keys = channel("keys", { name: "Keys", lines: 2, keepSides: true });
    const withKeys = withChannel(kit(), keys);
    expect(whatWouldChange(situationOf(withKeys, busOf(withKeys)))).toContainEqual({
      fact: "If Keys were not in Drums",
      instead: "Patch Drums in reverse",
      id: "swap",
    });
  });

  it("is FOH, who matters most and the inputs too", () => {
    const crossed = { ...kit(), channels: kit().channels.map((s) => ({ ...s, pan: -s.pan })) };
    const setup = rest(crossed, { first: "audience" });
    expect(whatWouldChange(situationOf(setup, busOf(setup))).map((c) => c.fact)).toContain(
      "If FOH might change",
    );
    const keys = channel("keys", { lines: 2, keepSides: true });
    const tight = heardBy(withChannel(kit(), keys), listener("ines", { facing: 180 }));
    const full = {
      ...tight,
      monitor: { ...tight.monitor, inputs: tight.monitor.inputs.slice(2), inputCount: 3 },
    };
    const facts = whatWouldChange(situationOf(full, busOf(full))).map((c) => c.fact);
    expect(facts).toContain("If there were one more input");
    expect(facts).not.toContain("If there were one input fewer");
    expect(facts).toContain("If ines mattered most");
  });

  it("each change is so: with the fact otherwise that recommendation is the best", () => {
    const setup = exampleSetup();
    for (const { fact, id } of whatWouldChange(situationOf(setup, busOf(setup)))) {
      const who = setup.listeners.find((l) => fact === `If ${l.name.split(",")[0]} faced the other way`);
      if (!who) throw new Error(`not checked here: ${fact}`);
      const turned =
        who.kind === "drummer"
          ? { ...setup, kit: { ...setup.kit, yaw: 180 } }
          : {
              ...setup,
              listeners: setup.listeners.map((l) => (l === who ? { ...l, facing: l.facing + 180 } : l)),
            };
      expect(first(turned).id, fact).toBe(id);
    }
  });
});

describe("the worked example", () => {
  it("is put right for everybody by two moves", () => {
    const setup = exampleSetup();
    const best = first(setup);
    expect(sayRepair(setup, busOf(setup), best)).toBe(
      "Patch Drums in reverse and flip it at the mixer of Ines",
    );
    expect(imagesOf(applyRepair(setup, best)).map((i) => i.count.wrong)).toEqual([0, 0, 0, 0, 0, 0]);
  });
});
