import { readName } from "../inputs/names";
import { anyOn } from "../inputs/usage";
import { inputsOfBus } from "../model/inputs";
import type { Bus, Setup } from "../model/setup";
import { sectionOf } from "./items";
import { type AllocationChannel, type BusId, busId, FOLD_BACK } from "./model";
import { type FamilyId, KIND_RULES } from "./rules";

/** What all have in common; null where they differ or there is nothing. */
const common = <T>(list: readonly (T | null)[]): T | null =>
  list.length > 0 && list.every((t) => t === list[0]) ? (list[0] ?? null) : null;

const familyOf = ({ kind }: AllocationChannel): FamilyId => KIND_RULES[kind].family;

/** The family that more than half of the channels are of; null where there is none. */
const mostlyOf = (members: readonly AllocationChannel[]): FamilyId | null =>
  members.map(familyOf).find((f) => 2 * members.filter((m) => familyOf(m) === f).length > members.length) ??
  null;

/** The family that a bus is named after. */
const namedAfter = ({ name }: Bus): FamilyId | null => {
  if (/\bfold[\s-]?back\b/i.test(name)) return FOLD_BACK;
  const { kind } = readName(name);
  return kind === "other" ? null : KIND_RULES[kind].family;
};

const busIdOf = (bus: Bus, channels: readonly AllocationChannel[]): BusId | null => {
  const sent = new Set(bus.sends.flatMap((send) => (send.on ? [send.channel] : [])));
  const members = channels.filter(({ id }) => sent.has(id));
  const family = namedAfter(bus) ?? mostlyOf(members);
  if (!family || !members.every((m) => familyOf(m) === family)) return family && busId(family);
  return busId(family, common(members.map(sectionOf)), common(members.map((m) => m.instrument)));
};

/**
 * The buses of a setup by what they hold together, so that a plan keeps them: who hears one still does. Of two of one
 * sort the one that is patched counts, else the first.
 */
export const busesNow = (setup: Setup, channels: readonly AllocationChannel[]): ReadonlyMap<BusId, Bus> => {
  const isFed = (bus: Bus): boolean => anyOn(setup, inputsOfBus(setup.monitor, bus.id));
  const found = new Map<BusId, Bus>();
  for (const bus of [...setup.buses.filter(isFed), ...setup.buses.filter((b) => !isFed(b))]) {
    const id = busIdOf(bus, channels);
    if (id && !found.has(id)) found.set(id, bus);
  }
  return found;
};
