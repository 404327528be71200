import { called, sourceCalled, sumCalled } from "../called";
import { quoted } from "../direction";
import { channelsOf } from "../legs";
import { partsOf } from "../mix";
import type { Id, Setup, Source } from "../setup";
import { listed, sentence } from "../words";
import { type Edit, flag, type PatchFlag } from "./flag";
import { TAP_ADVICE } from "./taps";
import { anyOn, firstFree, slotsOfSource, slotsOfSum, sourcesInSums, sumsFed } from "./usage";

/** Puts a source into the first free slots: two neighbours for one of two channels. Nothing where there is no room. */
const place = (setup: Setup, source: Source): Edit[] => {
  const run = firstFree(setup.monitor, source.channels);
  const sides = channelsOf(source);
  const { better } = TAP_ADVICE[source.kind];
  return (run ?? []).map((index, i) => ({
    edit: "slot",
    index,
    to: {
      feed: { kind: "source", source: source.id, channel: sides[i] ?? "both", tap: better },
      on: true,
      trim: 0,
    },
  }));
};

const unfedSources = (setup: Setup): PatchFlag[] => {
  const within = sourcesInSums(setup);
  return setup.sources
    .filter((s) => !s.muted && !within.has(s.id) && slotsOfSource(setup.monitor, s.id).length === 0)
    .map((source) =>
      flag(
        "unfed source",
        "warn",
        { sources: [source.id] },
        `${sourceCalled(setup, source.id)} is in no slot and in no patched sum: no player hears it.`,
        "Give it a slot, or send it into a sum that is patched.",
        place(setup, source),
      ),
    );
};

const unfedListeners = (setup: Setup): PatchFlag[] => {
  const fed = new Set(sumsFed(setup).map((s) => s.id));
  return setup.listeners
    .filter((l) => l.kind !== "audience" && (l.sum === null || !fed.has(l.sum)))
    .map(({ id, name, sum: heard }) => {
      const sum = setup.sums.find((s) => s.id === heard);
      const who = sentence(called({ name }));
      if (!sum) {
        const says = `${who} hears no sum, only what has a slot of its own.`;
        return flag("unfed listener", "note", { listeners: [id] }, says, "Choose a sum if one is meant.");
      }
      const slots = slotsOfSum(setup.monitor, sum.id);
      const what = sumCalled(sum);
      const says = `${who} hears ${what}, which ${slots.length === 0 ? "has no slot" : "is off"}.`;
      const remedy = slots.length === 0 ? `Give ${what} its slots.` : `Switch ${what} on.`;
      return flag("unfed listener", "fault", { listeners: [id], sums: [sum.id], slots }, says, remedy);
    });
};

const emptySums = (setup: Setup): PatchFlag[] =>
  sumsFed(setup)
    .filter((sum) => partsOf(setup, sum).length === 0)
    .map((sum) =>
      flag(
        "empty sum",
        "warn",
        { sums: [sum.id], slots: slotsOfSum(setup.monitor, sum.id) },
        `${sumCalled(sum)} is patched, but nothing sounds in it.`,
        "Send something into it, or free what it takes.",
      ),
    );

/** Names that more than one has, whatever the case; each group of one list once. */
const sameNames = (list: readonly { readonly id: Id; readonly name: string }[]): [string, Id[]][] => {
  const groups = new Map<string, { name: string; ids: Id[] }>();
  for (const { id, name } of list) {
    const key = name.trim().toLowerCase();
    const group = groups.get(key) ?? { name: name.trim(), ids: [] };
    group.ids.push(id);
    groups.set(key, group);
  }
  return [...groups.values()].filter((g) => g.ids.length > 1).map((g) => [g.name, g.ids]);
};

const RENAME = "Give each a name of its own: on the patch sheet nobody can tell them apart.";

const share = (name: string): string => (name === "" ? "have no name" : `are called ${quoted(name)}`);

const nameFlags = (setup: Setup): PatchFlag[] => [
  ...sameNames(setup.sources).map(([name, sources]) =>
    flag("same name", "note", { sources }, `${sources.length} sources ${share(name)}.`, RENAME),
  ),
  ...sameNames(setup.sums).map(([name, sums]) =>
    flag("same name", "note", { sums }, `${sums.length} sums ${share(name)}.`, RENAME),
  ),
];

const isSilent = (setup: Setup): boolean =>
  !setup.sources.some((s) => !s.muted && anyOn(setup.monitor, slotsOfSource(setup.monitor, s.id))) &&
  sourcesInSums(setup).size === 0;

/** Who and what is not reached: listeners, sources, sums without anything in them; names that say nothing. */
export const reachFlags = (setup: Setup): PatchFlag[] => {
  if (!isSilent(setup)) {
    return [...unfedListeners(setup), ...unfedSources(setup), ...emptySums(setup), ...nameFlags(setup)];
  }
  const sources = setup.sources.filter((s) => !s.muted).map((s) => s.id);
  const waiting = setup.sums.map(sumCalled);
  const nothing = flag(
    "nothing fed",
    "fault",
    { sources, listeners: setup.listeners.filter((l) => l.kind !== "audience").map((l) => l.id) },
    "Nothing is fed: no slot brings a sound.",
    waiting.length > 0 ? `Begin with ${listed(waiting)}.` : "Put the first source into a slot.",
  );
  return [nothing, ...nameFlags(setup)];
};
