import { describe, expect, it } from "vitest";
import type { Bus, Listener, Setup } from "../../../src/core/model/setup";
import type { Premise } from "../../../src/core/recommend/model";
import { whatIfs } from "../../../src/core/recommend/what-if";
import { MONITOR_REST } from "../desk";
import { busOf, first, withBus } from "./ranked";
import { AUDIENCE, channel, DRUMMER, kit, listener, randomSetup, side, withChannel } from "./setups";

/** Under mutation testing fewer: each of thousands of mutants runs them again. */
const SETUPS = process.env.MUTATE_TESTS ? 60 : 150;

const half = (angle: number): number => (angle > 0 ? angle - 180 : angle + 180);

/** Every fact that may be otherwise, with the setup as it is then: written down a second time, as an edited setup. */
const edited = (setup: Setup): [premise: Premise, setup: Setup][] => {
  const bus = busOf(setup);
  const { preferences: wishes, monitor, listeners, kit: drums } = setup;
  const on = listeners.filter((l) => l.kind !== "audience" && l.bus === bus.id);
  const used = monitor.inputs.filter(Boolean).length;
  const wish = (patch: Partial<Setup["preferences"]>): Setup => ({
    ...setup,
    preferences: { ...wishes, ...patch },
  });
  const inputs = (more: number): Setup => ({
    ...setup,
    monitor: { ...monitor, inputCount: monitor.inputCount + more },
  });
  const turned = (who: Listener): Setup =>
    who.kind === "drummer"
      ? { ...setup, kit: { ...drums, yaw: half(drums.yaw) } }
      : { ...setup, listeners: listeners.map((l) => (l === who ? { ...l, facing: half(l.facing) } : l)) };
  const keepers = setup.channels
    .filter((s) => s.keepSides && bus.sends.some((send) => send.channel === s.id))
    .map((s) => s.id);
  const leaving = keepers.length < 4 ? keepers.map((s) => [s]) : [keepers];
  const room = monitor.inputCount > used;
  const all: [Premise, Setup][] = [
    ...on.map((who): [Premise, Setup] => [{ if: "turned", listener: who.id }, turned(who)]),
    ...listeners
      .filter((l) => l.id !== wishes.first && (l.kind === "audience" || on.includes(l)))
      .map(({ id }): [Premise, Setup] => [{ if: "first", listener: id }, wish({ first: id })]),
    ...leaving.map((channels): [Premise, Setup] => [
      { if: "without", channels },
      withBus(setup, { sends: bus.sends.filter((send) => !channels.includes(send.channel)) }),
    ]),
    [
      { if: wishes.fohFixed ? "FOH may change" : "FOH must not change" },
      wish({ fohFixed: !wishes.fohFixed }),
    ],
  ];
  if (wishes.inputsFixed) {
    if (room) all.push([{ if: "free inputs may be used" }, wish({ inputsFixed: false })]);
    return all;
  }
  all.push([{ if: "inputs", more: 1 }, inputs(1)], [{ if: "inputs", more: 2 }, inputs(2)]);
  if (room)
    all.push(
      [{ if: "inputs", more: -1 }, inputs(-1)],
      [{ if: "free inputs must not be used" }, wish({ inputsFixed: true })],
    );
  return all;
};

/** Those of them that make another recommendation the best. */
const changing = (setup: Setup) => {
  const now = first(setup).id;
  return edited(setup).flatMap(([premise, otherwise]) => {
    const { id } = first(otherwise);
    return id === now ? [] : [{ premise, id }];
  });
};

const found = (setup: Setup, bus: Bus = busOf(setup)) =>
  [...whatIfs(setup, bus)].flatMap(({ found: its }) => (its ? [{ premise: its.premise, id: its.id }] : []));

describe("what would change the recommendation", () => {
  it("is what the edited setup says, fact by fact, on random setups", () => {
    const seen = new Set<string>();
    for (let seed = 0; seed < SETUPS; seed += 1) {
      const setup = randomSetup(seed);
      const its = found(setup);
      expect(its, `seed ${seed}`).toEqual(changing(setup));
      for (const { premise } of its)
        seen.add(premise.if === "inputs" ? `inputs ${premise.more}` : premise.if);
    }
    expect([...seen].sort()).toEqual([
      "FOH may change",
      "FOH must not change",
      "first",
      "free inputs may be used",
      "free inputs must not be used",
      "inputs -1",
      "inputs 1",
      "inputs 2",
      "turned",
      "without",
    ]);
  }, 120_000);

  it("tells how far it is with every fact, whether it changes anything or not", () => {
    const setup = randomSetup(3);
    const told = [...whatIfs(setup, busOf(setup))].map(({ done, of }) => [done, of]);
    const all = edited(setup).length;
    expect(told).toEqual(Array.from({ length: all }, (_, at) => [at + 1, all]));
  });

  it("holds for the setup it is asked of: another level of a send drops nothing", () => {
    const setup = withChannel(kit(), channel("keys", { lines: 2, keepSides: true }));
    const before = found(setup);
    const sends = busOf(setup).sends.map((s) => (s.channel === "hat" ? { ...s, level: -3 } : s));
    expect(before.length).toBeGreaterThan(0);
    expect(found(withBus(setup, { sends }))).toEqual(before);
  });

  /** Mara hears everything the wrong way round, others do or do not, and stereo channels must keep L/R. */
  const keeping = (ids: readonly string[], ...others: Listener[]): Setup =>
    ids.reduce(
      (setup, id) => withChannel(setup, channel(id, { lines: 2, keepSides: true })),
      kit({ listeners: [AUDIENCE, DRUMMER, ...others] }),
    );
  const INES = listener("ines", { facing: 180 });

  it("is more inputs where none is free, but neither fewer nor the leave to take them", () => {
    const full: Setup = {
      ...keeping(["keys"], INES),
      monitor: {
        inputCount: 2,
        inputs: [side("m1", "left"), side("m1", "right")],
        maxInputDbu: 20,
        ...MONITOR_REST,
      },
    };
    for (const inputsFixed of [false, true]) {
      const setup = { ...full, preferences: { ...full.preferences, inputsFixed } };
      const inputs = found(setup).filter(({ premise }) => premise.if.includes("inputs"));
      expect(inputs.map((c) => c.premise)).toEqual(inputsFixed ? [] : [{ if: "inputs", more: 2 }]);
    }
  });

  it("takes more than three channels that must keep L/R out of the bus as one fact", () => {
    expect(found(keeping(["keys", "pads", "loop", "organ"], listener("theo")))).toContainEqual({
      premise: { if: "without", channels: ["keys", "pads", "loop", "organ"] },
      id: "swap",
    });
  });

  it("does not depend on where the bus stands among the others", () => {
    const setup = keeping(["keys"], INES);
    const bus = busOf(setup);
    const second = { ...setup, buses: [{ ...bus, id: "m2", name: "Other", sends: [] }, bus] };
    expect(found(second, bus)).toEqual(found(setup, bus));
  });
});
