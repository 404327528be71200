import { expect, it } from "vitest";
import type { Listener, Setup } from "../../../src/core/model/setup";
import { firstChange, whatWouldChange } from "../../../src/core/repair/changes";
import { repairsFor } from "../../../src/core/repair/repairs";
import { situationOf } from "../../../src/core/repair/situation";
import { busOf } from "./ranked";
import { AUDIENCE, channel, DRUMMER, kit, listener, randomSetup, side, withChannel } from "./setups";

const bestOf = (setup: Setup): string => repairsFor(situationOf(setup, busOf(setup))).ranked[0]?.id ?? "";
const half = (angle: number): number => (angle > 0 ? angle - 180 : angle + 180);
const name = ({ name: full }: Listener): string =>
  full === "Audience" ? "the audience" : (full.split(",")[0] as string);

/** Every fact that may be otherwise, with the setup as it is then: written down a second time and plainly. */
const facts = (setup: Setup): [fact: string, setup: Setup][] => {
  const bus = busOf(setup);
  const { preferences: wishes, monitor, listeners, kit } = setup;
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
  const all: [string, Setup][] = [];
  for (const who of on)
    all.push([
      `If ${name(who)} faced the other way`,
      who.kind === "drummer"
        ? { ...setup, kit: { ...kit, yaw: half(kit.yaw) } }
        : {
            ...setup,
            listeners: listeners.map((l) => (l === who ? { ...l, facing: half(l.facing) } : l)),
          },
    ]);
  for (const who of listeners)
    if (who.id !== wishes.first && (who.kind === "audience" || on.includes(who)))
      all.push([`If ${name(who)} mattered most`, wish({ first: who.id })]);
  const keepers = setup.channels.filter(
    (s) => s.keepSides && bus.sends.some((send) => send.channel === s.id),
  );
  const leaving = keepers.length < 4 ? keepers.map((s) => [s]) : [keepers];
  for (const gone of leaving)
    all.push([
      `If ${gone.length > 1 ? `the ${gone.length} channels that must keep their sides` : gone[0]?.name} were not in Drums`,
      {
        ...setup,
        buses: setup.buses.map((s) =>
          s === bus ? { ...s, sends: s.sends.filter((send) => !gone.some((g) => g.id === send.channel)) } : s,
        ),
      },
    ]);
  all.push([
    wishes.fohFixed ? "If FOH might change" : "If FOH had to stay as it is",
    wish({ fohFixed: !wishes.fohFixed }),
  ]);
  const room = monitor.inputCount - used > 0;
  if (wishes.inputsFixed) {
    if (room) all.push(["If free inputs might be taken", wish({ inputsFixed: false })]);
    return all;
  }
  all.push(["If there were one more input", inputs(1)], ["If there were two more inputs", inputs(2)]);
  if (room)
    all.push(
      ["If there were one input fewer", inputs(-1)],
      ["If no free input might be taken", wish({ inputsFixed: true })],
    );
  return all;
};

/** Those of them that make another recommendation the best. */
const changing = (setup: Setup): { fact: string; id: string }[] => {
  const now = bestOf(setup);
  return facts(setup).flatMap(([fact, otherwise]) => {
    const id = bestOf(otherwise);
    return id === now ? [] : [{ fact, id }];
  });
};

it("what would change the answer is what a search of its own finds, fact by fact, in random setups", () => {
  const kinds = new Set<string>();
  for (let seed = 0; seed < 300; seed += 1) {
    const setup = randomSetup(seed);
    const found = whatWouldChange(situationOf(setup, busOf(setup)));
    expect(
      found.map(({ fact, id }) => ({ fact, id })),
      `seed ${seed}`,
    ).toEqual(changing(setup));
    expect(firstChange(situationOf(setup, busOf(setup))), `seed ${seed}`).toEqual(found[0]);
    for (const { fact, instead } of found) {
      expect(instead).toMatch(/^[A-Z].*[^.]$/);
      kinds.add(fact.replace(/^If (?:the audience|\w+) (faced|mattered|were not)/, "If $1"));
    }
  }
  expect([...kinds].sort()).toEqual([
    "If faced the other way",
    "If free inputs might be taken",
    "If mattered most",
    "If no free input might be taken",
    "If FOH had to stay as it is",
    "If FOH might change",
    "If there were one more input",
    "If there were one input fewer",
    "If there were two more inputs",
    "If were not in Drums",
  ]);
}, 120_000);

/** Mara hears everything the wrong way round, others do or do not, and channels of two channels must keep their sides. */
const keeping = (ids: readonly string[], ...others: Listener[]): Setup =>
  ids.reduce(
    (setup, id) => withChannel(setup, channel(id, { lines: 2, keepSides: true })),
    kit({ listeners: [AUDIENCE, DRUMMER, ...others] }),
  );
const INES = listener("ines", { name: "Ines", facing: 180 });

it("where no input is free, more inputs would change the answer, but neither fewer nor the leave to take them", () => {
  const full: Setup = {
    ...keeping(["keys"], INES),
    monitor: { inputCount: 2, inputs: [side("m1", "left"), side("m1", "right")], maxInputDbu: 20 },
  };
  for (const inputsFixed of [false, true]) {
    const setup = { ...full, wishes: { ...full.preferences, inputsFixed } };
    const found = whatWouldChange(situationOf(setup, busOf(setup))).map(({ fact, id }) => ({ fact, id }));
    expect(found).toEqual(changing(setup));
    expect(found.map((c) => c.fact).filter((fact) => fact.includes("slot"))).toEqual(
      inputsFixed ? [] : ["If there were two more inputs"],
    );
  }
});

it("more than three channels that must keep their sides leave the bus as one fact", () => {
  const setup = keeping(["keys", "pads", "loop", "organ"], listener("theo"));
  expect(whatWouldChange(situationOf(setup, busOf(setup)))).toContainEqual({
    fact: "If the 4 channels that must keep their sides were not in Drums",
    instead: "Patch Drums in reverse",
    id: "swap",
  });
});

it("what would change the answer does not depend on where the bus stands among the buses", () => {
  const setup = keeping(["keys"], INES);
  const bus = busOf(setup);
  const second = { ...setup, buses: [{ ...bus, id: "m2", name: "Other", sends: [] }, bus] };
  const found = whatWouldChange(situationOf(setup, bus));
  expect(found.length).toBeGreaterThan(0);
  expect(whatWouldChange(situationOf(second, bus))).toEqual(found);
});
