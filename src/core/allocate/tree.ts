import type { AllocationItem } from "./items";
import { type BusOf, busId, FOLD_BACK } from "./model";
import type { FamilyId } from "./rules";

/** A bus that may be made: what lies in it directly, and narrower buses within. */
export interface BusNode extends BusOf {
  readonly items: readonly AllocationItem[];
  readonly within: readonly BusNode[];
}

const split = <K>(
  items: readonly AllocationItem[],
  keyOf: (item: AllocationItem) => K,
): Map<K, AllocationItem[]> => {
  const parts = new Map<K, AllocationItem[]>();
  for (const item of items) parts.set(keyOf(item), [...(parts.get(keyOf(item)) ?? []), item]);
  return parts;
};

const BUS = { family: FOLD_BACK, section: null, instrument: null } as const;

/** Instruments of more than one channel become buses of their own; what is left lies here directly. */
const withInstruments = (
  bus: Omit<BusOf, "id">,
  items: readonly AllocationItem[],
  within: readonly BusNode[],
): BusNode => {
  const loose: AllocationItem[] = [];
  const instruments: BusNode[] = [];
  for (const [instrument, members] of split(items, (item) => item.channel.instrument || null)) {
    if (instrument === null || members.length < 2) loose.push(...members);
    else {
      const id = busId(bus.family, bus.section, instrument);
      instruments.push({ ...bus, level: "instrument", instrument, id, items: members, within: [] });
    }
  }
  const id = busId(bus.family, bus.section);
  return { ...bus, id, items: loose, within: [...within, ...instruments] };
};

const familyNode = (family: FamilyId, items: readonly AllocationItem[]): BusNode => {
  const sections: BusNode[] = [];
  let loose: AllocationItem[] = [];
  for (const [section, members] of split(items, (item) => item.section)) {
    if (section === null) loose = members;
    else sections.push(withInstruments({ ...BUS, level: "section", family, section }, members, []));
  }
  const level = family === FOLD_BACK ? "fold-back" : "family";
  return withInstruments({ ...BUS, level, family }, loose, sections);
};

/** Every bus that may be made, each within the one that would take it up: instrument, section, family, fold-back. */
export const busTree = (items: readonly AllocationItem[]): BusNode => {
  const families = split(items, (item) => item.family);
  const root = familyNode(FOLD_BACK, families.get(FOLD_BACK) ?? []);
  const within = [...families].filter(([family]) => family !== FOLD_BACK).map((f) => familyNode(...f));
  return { ...root, within: [...within, ...root.within] };
};

/** A bus and every narrower one. */
export const withinOf = (node: BusNode): BusNode[] => [node, ...node.within.flatMap(withinOf)];
