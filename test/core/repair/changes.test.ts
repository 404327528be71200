import { expect, it } from "vitest";
import { firstChange, whatWouldChange } from "../../../src/core/repair/changes";
import { repairsFor } from "../../../src/core/repair/repairs";
import { situationOf } from "../../../src/core/repair/situation";
import type { Listener, Setup } from "../../../src/core/setup";
import { sumOf } from "./ranked";
import { AUDIENCE, DRUMMER, kit, leg, listener, randomSetup, source, withSource } from "./setups";

const bestOf = (setup: Setup): string => repairsFor(situationOf(setup, sumOf(setup))).ranked[0]?.id ?? "";
const half = (angle: number): number => (angle > 0 ? angle - 180 : angle + 180);
const name = ({ name: full }: Listener): string =>
  full === "Audience" ? "the audience" : (full.split(",")[0] as string);

/** Every fact that may be otherwise, with the setup as it is then: written down a second time and plainly. */
const facts = (setup: Setup): [fact: string, setup: Setup][] => {
  const sum = sumOf(setup);
  const { wishes, monitor, listeners, kit } = setup;
  const on = listeners.filter((l) => l.kind !== "audience" && l.sum === sum.id);
  const used = monitor.slots.filter(Boolean).length;
  const wish = (patch: Partial<Setup["wishes"]>): Setup => ({ ...setup, wishes: { ...wishes, ...patch } });
  const slots = (more: number): Setup => ({
    ...setup,
    monitor: { ...monitor, slotCount: monitor.slotCount + more },
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
  const keepers = setup.sources.filter((s) => s.keepSides && sum.sends.some((send) => send.source === s.id));
  const leaving = keepers.length < 4 ? keepers.map((s) => [s]) : [keepers];
  for (const gone of leaving)
    all.push([
      `If ${gone.length > 1 ? `the ${gone.length} sources that must keep their sides` : gone[0]?.name} were not in Drums`,
      {
        ...setup,
        sums: setup.sums.map((s) =>
          s === sum ? { ...s, sends: s.sends.filter((send) => !gone.some((g) => g.id === send.source)) } : s,
        ),
      },
    ]);
  all.push([
    wishes.houseFixed ? "If the house might change" : "If the house had to stay as it is",
    wish({ houseFixed: !wishes.houseFixed }),
  ]);
  const room = monitor.slotCount - used > 0;
  if (wishes.slotsFixed) {
    if (room) all.push(["If free slots might be taken", wish({ slotsFixed: false })]);
    return all;
  }
  all.push(["If there were one more slot", slots(1)], ["If there were two more slots", slots(2)]);
  if (room)
    all.push(
      ["If there were one slot fewer", slots(-1)],
      ["If no free slot might be taken", wish({ slotsFixed: true })],
    );
  return all;
};

/** Those of them that make another repair the best. */
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
    const found = whatWouldChange(situationOf(setup, sumOf(setup)));
    expect(
      found.map(({ fact, id }) => ({ fact, id })),
      `seed ${seed}`,
    ).toEqual(changing(setup));
    expect(firstChange(situationOf(setup, sumOf(setup))), `seed ${seed}`).toEqual(found[0]);
    for (const { fact, instead } of found) {
      expect(instead).toMatch(/^[A-Z].*[^.]$/);
      kinds.add(fact.replace(/^If (?:the audience|\w+) (faced|mattered|were not)/, "If $1"));
    }
  }
  expect([...kinds].sort()).toEqual([
    "If faced the other way",
    "If free slots might be taken",
    "If mattered most",
    "If no free slot might be taken",
    "If the house had to stay as it is",
    "If the house might change",
    "If there were one more slot",
    "If there were one slot fewer",
    "If there were two more slots",
    "If were not in Drums",
  ]);
}, 120_000);

/** Mara hears everything the wrong way round, others do or do not, and sources of two channels must keep their sides. */
const keeping = (ids: readonly string[], ...others: Listener[]): Setup =>
  ids.reduce(
    (setup, id) => withSource(setup, source(id, { channels: 2, keepSides: true })),
    kit({ listeners: [AUDIENCE, DRUMMER, ...others] }),
  );
const INES = listener("ines", { name: "Ines", facing: 180 });

it("where no slot is free, more slots would change the answer, but neither fewer nor the leave to take them", () => {
  const full: Setup = {
    ...keeping(["keys"], INES),
    monitor: { slotCount: 2, slots: [leg("m1", "left"), leg("m1", "right")], inputMaxDbu: 20 },
  };
  for (const slotsFixed of [false, true]) {
    const setup = { ...full, wishes: { ...full.wishes, slotsFixed } };
    const found = whatWouldChange(situationOf(setup, sumOf(setup))).map(({ fact, id }) => ({ fact, id }));
    expect(found).toEqual(changing(setup));
    expect(found.map((c) => c.fact).filter((fact) => fact.includes("slot"))).toEqual(
      slotsFixed ? [] : ["If there were two more slots"],
    );
  }
});

it("more than three sources that must keep their sides leave the sum as one fact", () => {
  const setup = keeping(["keys", "pads", "loop", "organ"], listener("theo"));
  expect(whatWouldChange(situationOf(setup, sumOf(setup)))).toContainEqual({
    fact: "If the 4 sources that must keep their sides were not in Drums",
    instead: "Patch Drums in reverse",
    id: "swap",
  });
});

it("what would change the answer does not depend on where the sum stands among the sums", () => {
  const setup = keeping(["keys"], INES);
  const sum = sumOf(setup);
  const second = { ...setup, sums: [{ ...sum, id: "m2", name: "Other", sends: [] }, sum] };
  const found = whatWouldChange(situationOf(setup, sum));
  expect(found.length).toBeGreaterThan(0);
  expect(whatWouldChange(situationOf(second, sum))).toEqual(found);
});
