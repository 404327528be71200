import { type InputName, readName } from "../inputs/names";
import { inputsOfAll } from "../model/inputs";
import type { Bus, Channel, ChannelRule, Id, Setup } from "../model/setup";
import { instrumentsOf } from "./instruments";
import { sectionOf } from "./items";
import {
  type AllocationChannel,
  type AllocationProblem,
  type AllocationRule,
  type BusId,
  type BusPin,
  busOfId,
  type Current,
  type Pin,
  type Width,
} from "./model";
import { busesNow } from "./now";
import { musiciansOf, playersOf, reachByKind } from "./people";
import { type AllocationKind, type FamilyId, KIND_RULES } from "./rules";

/** What is decided by hand. */
export interface HandPins {
  readonly channels: ReadonlyMap<Id, Pin>;
  readonly buses: readonly BusPin[];
}

/** Kick and snare are told from the rest of the kit by the piece they stand at, else by their names. */
const kindOf = ({ kit }: Setup, { kind, piece }: Channel, name: InputName): AllocationKind => {
  if (kind !== "drum") return kind;
  const at = kit.pieces.find((p) => p.id === piece)?.kind ?? name.piece;
  return at === "kick" || at === "snare" ? at : kind;
};

/** What the user changed, as the search reads it: who must hear it stands apart. */
const changedRule = ({ reach, tap: _, ...rule }: ChannelRule): Partial<AllocationRule> => ({
  ...rule,
  ...(reach === undefined ? {} : { reach: reach === "all" ? "all" : "asked" }),
});

/** Who must hear it where that is not everybody: those the user named, else those its kind is for. */
const wantedBy = (setup: Setup, { rule }: Channel, kind: AllocationKind): readonly Id[] => {
  const reach = rule?.reach ?? reachByKind(setup, kind);
  const musicians = musiciansOf(setup);
  return reach === "all" ? [] : reach.filter((id) => musicians.some((m) => m.id === id));
};

/** The inputs that carry each channel now, from 1: its own and those of the buses it is sent to. */
const inputsNow = ({ monitor, channels, buses }: Setup): ReadonlyMap<Id, ReadonlySet<number>> => {
  const inputs = inputsOfAll(monitor);
  const found = new Map<Id, Set<number>>(channels.map(({ id }) => [id, new Set()]));
  const add = (id: Id, indexes: readonly number[]): void => {
    for (const index of indexes) if (index < monitor.inputCount) found.get(id)?.add(index + 1);
  };
  for (const { id } of channels) add(id, inputs.channel.get(id) ?? []);
  for (const bus of buses) {
    const its = inputs.bus.get(bus.id) ?? [];
    for (const send of bus.sends) if (send.on) add(send.channel, its);
  }
  return found;
};

/**
 * The section of each channel whose family has several: what the user grouped (two kits, the trumpets) comes together. A
 * group that is of the whole family says nothing.
 */
const sectionsBy = (
  channels: readonly (Pick<AllocationChannel, "id" | "kind"> & { readonly group: string })[],
): ReadonlyMap<Id, string> => {
  const groups = new Map<FamilyId, Set<string>>();
  for (const { kind, group } of channels) {
    const { family } = KIND_RULES[kind];
    groups.set(family, (groups.get(family) ?? new Set()).add(group));
  }
  return new Map(
    channels.flatMap(({ id, kind, group }) =>
      group && (groups.get(KIND_RULES[kind].family)?.size ?? 0) > 1 ? [[id, group] as const] : [],
    ),
  );
};

/** Whether a plan could have a channel in that bus. */
const canHold = (id: BusId, channel: AllocationChannel): boolean => {
  const { level, family, section, instrument } = busOfId(id);
  if (level === "fold-back") return true;
  return (
    KIND_RULES[channel.kind].family === family &&
    (section === null || sectionOf(channel) === section) &&
    (instrument === null || channel.instrument === instrument)
  );
};

/** How each channel comes into the inputs now; one that is heard twice, by the inputs of its own. */
const currentsIn = (
  { monitor }: Setup,
  buses: ReadonlyMap<BusId, Bus>,
): ((channel: AllocationChannel) => Current | null) => {
  const inCount = (i: number): boolean => i < monitor.inputCount;
  const inputs = inputsOfAll(monitor);
  const patched = [...buses].flatMap(([id, { id: bus, stereo, folded, sends }]) => {
    const its = (inputs.bus.get(bus) ?? []).filter(inCount);
    if (its.length === 0) return [];
    const sides = new Set(its.map((i) => monitor.inputs[i]?.feed.side));
    const width: Width = stereo && !folded && sides.size === 2 ? 2 : 1;
    return [{ id, width, sent: new Set(sends.filter((s) => s.on).map((s) => s.channel)) }];
  });
  return (channel) => {
    const own = (inputs.channel.get(channel.id) ?? []).filter(inCount);
    const sides = new Set(own.map((i) => monitor.inputs[i]?.feed.side));
    if (own.length > 0) return { as: "own", width: sides.has("left") && sides.has("right") ? 2 : 1 };
    const bus = patched.find(({ id, sent }) => sent.has(channel.id) && canHold(id, channel));
    return bus ? { as: "bus", bus: bus.id, width: bus.width } : null;
  };
};

/** The question that a setup asks: what goes into the monitor inputs? */
export const problemOf = (setup: Setup, pins: HandPins): AllocationProblem => {
  const named = setup.channels.map((channel) => ({ channel, name: readName(channel.name) }));
  const currentInputs = inputsNow(setup);
  const players = playersOf(setup, named);
  const instruments = instrumentsOf(named);
  const kinds = new Map(named.map(({ channel, name }) => [channel.id, kindOf(setup, channel, name)]));
  const kindOfId = (id: Id): AllocationKind => kinds.get(id) ?? "other";
  const sections = sectionsBy(
    setup.channels.map(({ id, group }) => ({ id, kind: kindOfId(id), group: group.trim() })),
  );
  const asked = setup.channels.map((channel): AllocationChannel => {
    const kind = kindOfId(channel.id);
    return {
      id: channel.id,
      name: channel.name,
      kind,
      width: channel.lines,
      keepsSides: channel.keepSides,
      number: channel.numbers[0] ?? null,
      section: sections.get(channel.id) ?? null,
      instrument: instruments.get(channel.id) ?? null,
      player: players.get(channel.id) ?? null,
      wantedBy: wantedBy(setup, channel, kind),
      currentInputs: [...(currentInputs.get(channel.id) ?? [])],
      current: null,
      rule: changedRule(channel.rule ?? {}),
      pin: pins.channels.get(channel.id) ?? null,
    };
  });
  const buses = busesNow(setup, asked);
  const currentOf = currentsIn(setup, buses);
  return {
    inputs: setup.monitor.inputCount,
    reserved: [],
    channels: asked.map((channel) => ({ ...channel, current: currentOf(channel) })),
    musicians: musiciansOf(setup).map(({ id, name, mono }) => ({ id, name, mono })),
    busPins: pins.buses,
    swapped: [...buses].flatMap(([id, bus]) => (bus.stereo && bus.swapped ? [id] : [])),
  };
};
