import { describe, expect, it } from "vitest";
import type { HeardDrum, HeardSuspect } from "../../../src/core/hear/heard";
import { hearingOf } from "../../../src/core/hear/hearing";
import { stateOf } from "../../../src/core/hear/state-of";
import type { Id, Listener } from "../../../src/core/model/setup";
import { exampleSetup } from "../../../src/document/example";
import { seeded } from "../check/simulate";
import { heardCell, heardHit, heardSession } from "./sessions";
import { eveningOf, type Wrong } from "./stage";

const EIGHT = heardCell(8, "right", "sine");
const idOf = (name: string): Id => EIGHT.setup.channels.find((channel) => channel.name === name)?.id as Id;
const PLANNED: Wrong = { fault: "planned", channel: null };

/** Every drum hit once, as it is heard. */
const allHeard = (wrong: Wrong, seed: number): HeardDrum[] => {
  const evening = eveningOf(EIGHT.setup, wrong, 48_000, seeded(seed));
  return EIGHT.hearing.drums.map((piece) => {
    for (;;) {
      const hit = heardHit(evening, piece);
      if (hit !== "refused") return { piece, hit };
    }
  });
};
const found = (wrong: Wrong, seed: number): readonly HeardSuspect[] => {
  const { state } = heardSession(EIGHT, wrong, 48_000, seeded(seed));
  return state.verdict.kind === "found" ? state.verdict.suspects : [];
};

describe("a hearing", () => {
  it.each([
    ["swapped", null],
    ["inverted", null],
    ["folded", null],
    ["left-only", null],
    ["right-in-both", null],
    ["wrong-side", "Hat"],
    ["missing", "Tom 2"],
  ] as const)("names a fault that was rendered: %s %s", (fault, name) => {
    const channel = name && idOf(name);
    const names = found({ fault, channel }, 2_001).map((one) => one.id);
    expect(names).toContain(channel ? `${fault} ${channel}` : fault);
  });

  it("names faults together that no hit tells apart", () => {
    const names = found({ fault: "swapped", channel: null }, 2_002).map(({ fault }) => fault);
    expect([...names].sort()).toEqual(["ears-swapped", "flipped", "swapped"]);
  });

  it.each([5, -4, 8])("says how far a side trim is off: %d dB", (size) => {
    const [first] = found({ fault: "side-trim", channel: null, size }, 2_003);
    expect(first?.fault).toBe("side-trim");
    expect(Math.abs((first?.trim ?? 0) - size)).toBeLessThan(1.5);
    expect(first?.pan).toBe(null);
  });

  it.each([-0.8, 0.5, 1])("says the pan a channel seems to have: %d", (size) => {
    const [first] = found({ fault: "wrong-pan", channel: idOf("Snare"), size }, 2_004);
    expect(first?.id).toBe(`wrong-pan ${idOf("Snare")}`);
    expect(Math.abs((first?.pan ?? 0) - size)).toBeLessThan(0.15);
    expect(first?.trim).toBe(null);
  });

  it("names no fault where nothing is wrong, once every drum with a microphone was asked for", () => {
    for (const seed of [2_010, 2_011, 2_012]) {
      const { state } = heardSession(EIGHT, PLANNED, 44_100, seeded(seed));
      expect(state.verdict.kind).toBe("planned");
      // Only a drum without a microphone of its own need not be: what it would tell the others do too.
      const own = new Set(EIGHT.setup.channels.map(({ piece }) => piece));
      for (const { piece, hits } of state.drums) if (own.has(piece)) expect(hits).toBeGreaterThan(0);
      expect(state.drums.some(({ asPlanned }) => asPlanned === false)).toBe(false);
    }
  });

  it.each([
    ["Hat", "Floor tom"],
    ["Floor tom", "Hat"],
    ["Tom 2", "Snare"],
  ])("accuses nothing for one hit of the wrong drum: asked for %s, hit %s", (asked, instead) => {
    const pieceOf = (name: string): Id =>
      EIGHT.setup.channels.find((channel) => channel.name === name)?.piece as Id;
    const evening = eveningOf(EIGHT.setup, PLANNED, 48_000, seeded(2_015));
    const heard: HeardDrum[] = [];
    let isWrong = true;
    for (;;) {
      const { verdict } = stateOf(EIGHT.hearing, heard);
      if (verdict.kind !== "asking") {
        expect(isWrong).toBe(false);
        expect(verdict.kind === "found" && verdict.sure, JSON.stringify(verdict)).toBe(false);
        return;
      }
      const isAstray = isWrong && verdict.next === pieceOf(asked);
      const hit = heardHit(evening, isAstray ? pieceOf(instead) : verdict.next);
      if (hit === "refused") continue;
      if (isAstray) isWrong = false;
      heard.push({ piece: verdict.next, hit });
    }
  });

  it("asks for a drum before anything was heard, and for one that was not hit yet", () => {
    const heard = allHeard(PLANNED, 2_020);
    const { verdict, drums, attributed, unknown } = stateOf(EIGHT.hearing, []);
    expect(verdict.kind).toBe("asking");
    expect(drums.map(({ piece }) => piece)).toEqual(EIGHT.hearing.drums);
    expect(drums.every(({ measured, asPlanned }) => measured === null && asPlanned === null)).toBe(true);
    expect([attributed, unknown]).toEqual([[], 0]);
    const later = stateOf(EIGHT.hearing, heard.slice(0, 3));
    if (later.verdict.kind === "asking")
      expect(heard.slice(0, 3).map(({ piece }) => piece)).not.toContain(later.verdict.next);
  });

  it("says of each drum what was expected and what was measured", () => {
    const wrong = { fault: "wrong-side", channel: idOf("Floor tom") };
    const { drums } = stateOf(EIGHT.hearing, allHeard(wrong, 2_021));
    const floor = drums.find(({ piece }) =>
      EIGHT.setup.channels.some((c) => c.name === "Floor tom" && c.piece === piece),
    );
    expect(floor?.expected.difference).toBeLessThan(-3);
    expect(floor?.measured?.difference).toBeGreaterThan(0);
    expect(floor?.asPlanned).toBe(false);
    expect(drums.filter(({ asPlanned }) => asPlanned === false)).toHaveLength(1);
  });

  it("takes it that nothing arrives where drums were hit and nothing was heard", () => {
    const heard = EIGHT.hearing.drums.slice(0, 4).map((piece) => ({ piece, hit: null }));
    const { verdict } = stateOf(EIGHT.hearing, heard);
    expect(verdict.kind).toBe("found");
    if (verdict.kind === "found") expect(verdict.suspects[0]?.fault).toBe("silent");
  });

  it("gives hits of nobody's asking to drums where the plan allows it, and counts the others", () => {
    const heard = allHeard(PLANNED, 2_030).map(({ hit }) => ({ piece: null, hit }));
    const { attributed, unknown, verdict } = stateOf(EIGHT.hearing, heard);
    const given = attributed.flatMap((piece, at) =>
      piece === null ? [] : [piece === EIGHT.hearing.drums[at]],
    );
    expect(given.length).toBeGreaterThanOrEqual(3);
    expect(given.every(Boolean)).toBe(true);
    expect(unknown).toBe(heard.length - given.length);
    expect(verdict.kind).not.toBe("found");
  });

  it("finds a fault of the whole path from hits of nobody's asking", () => {
    const heard = allHeard({ fault: "left-only", channel: null }, 2_031).map(({ hit }) => ({
      piece: null,
      hit,
    }));
    const { suspects } = stateOf(EIGHT.hearing, heard);
    expect(suspects.slice(0, 2).map(({ fault }) => fault)).toContain("left-only");
  });

  it("says the same of the same, with chances that sum to no more than 1", () => {
    const heard = allHeard({ fault: "missing", channel: idOf("Hat") }, 2_040);
    const once = stateOf(EIGHT.hearing, heard);
    const again = stateOf(heardCell(8, "right", "sine").hearing, heard);
    expect(again).toEqual(once);
    const sum = once.suspects.reduce((all, { confidence }) => all + confidence, 0);
    expect(sum).toBeLessThanOrEqual(1 + 1e-9);
    expect(sum).toBeGreaterThan(0.9);
  });
});

describe("at the outputs of the bus", () => {
  it("there are only the faults before them", () => {
    const { setup, listener } = EIGHT;
    const { faults, obstacle } = hearingOf(setup, listener, "bus");
    expect(obstacle).toBe(null);
    const names = new Set(faults.map(({ fault }) => fault));
    for (const fault of ["flipped", "folded", "ears-swapped", "left-ear-dead", "inputs-up"] as const)
      expect(names.has(fault)).toBe(false);
    for (const fault of ["planned", "swapped", "missing", "side-trim", "wrong-pan"] as const)
      expect(names.has(fault)).toBe(true);
  });

  it("a patch in reverse is no fault of theirs", () => {
    const { setup, listener } = EIGHT;
    const [bus, ...others] = setup.buses;
    if (!bus) throw new Error("no bus");
    const reversed = {
      ...setup,
      monitor: { ...setup.monitor, inputs: [] },
      buses: [{ ...bus, swapped: true }, ...others],
    };
    const heard = allHeard(PLANNED, 2_050);
    // The phone hears the pair as it stands in the plan, not as it is patched.
    expect(stateOf(hearingOf(reversed, listener, "bus"), heard).suspects[0]?.fault).toBe("planned");
    expect(stateOf(hearingOf(reversed, listener, "mixer"), heard).suspects[0]?.fault).not.toBe("planned");
  });
});

describe("nothing to hear", () => {
  const setup = exampleSetup();
  const drummer = setup.listeners.find(({ kind }) => kind === "drummer") as Listener;
  it.each([
    ["audience", setup.listeners.find(({ kind }) => kind === "audience") as Listener, setup],
    ["no-bus", { ...drummer, bus: null }, setup],
    ["no-drum", drummer, { ...setup, kit: { ...setup.kit, pieces: [] } }],
  ] as const)("is said why: %s", (obstacle, listener, of) => {
    expect(hearingOf(of, listener, "mixer")).toEqual({ drums: [], faults: [], obstacle, grounds: null });
  });
});

describe("a drum without a microphone of its own", () => {
  it("is heard by the bleed into those of the others, wherever they are panned", () => {
    const three = heardCell(3, "right", "sine");
    const kick = three.setup.channels.find(({ name }) => name === "Kick")?.id as Id;
    for (const seed of [501, 502, 503]) {
      const { right } = heardSession(
        three,
        { fault: "wrong-pan", channel: kick, size: 0.75 },
        48_000,
        seeded(seed),
      );
      expect(right, `seed ${seed}`).toBe(true);
    }
  });
});
