import { type InputName, readName } from "../inputs/names";
import { inputsOfBus, inputsOfChannel } from "../model/inputs";
import type { Channel, ChannelRule, Id, Setup } from "../model/setup";
import { instrumentsOf } from "./instruments";
import type { AllocationChannel, AllocationProblem, AllocationRule, BusPin, Pin } from "./model";
import { busesNow } from "./now";
import { musiciansOf, playersOf, reachByKind } from "./people";
import type { AllocationKind } from "./rules";

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
  const found = new Map<Id, Set<number>>(channels.map(({ id }) => [id, new Set()]));
  const add = (id: Id, indexes: readonly number[]): void => {
    for (const index of indexes) if (index < monitor.inputCount) found.get(id)?.add(index + 1);
  };
  for (const { id } of channels) add(id, inputsOfChannel(monitor, id));
  for (const bus of buses) {
    const its = inputsOfBus(monitor, bus.id);
    for (const send of bus.sends) if (send.on) add(send.channel, its);
  }
  return found;
};

/** The question that a setup asks: what goes into the monitor inputs? */
export const problemOf = (setup: Setup, pins: HandPins): AllocationProblem => {
  const named = setup.channels.map((channel) => ({ channel, name: readName(channel.name) }));
  const currentInputs = inputsNow(setup);
  const players = playersOf(setup, named);
  const instruments = instrumentsOf(named);
  const channels = named.map(({ channel, name }): AllocationChannel => {
    const kind = kindOf(setup, channel, name);
    return {
      id: channel.id,
      name: channel.name,
      kind,
      width: channel.lines,
      keepsSides: channel.keepSides,
      number: channel.numbers[0] ?? null,
      section: null,
      instrument: instruments.get(channel.id) ?? null,
      player: players.get(channel.id) ?? null,
      wantedBy: wantedBy(setup, channel, kind),
      currentInputs: [...(currentInputs.get(channel.id) ?? [])],
      rule: changedRule(channel.rule ?? {}),
      pin: pins.channels.get(channel.id) ?? null,
    };
  });
  return {
    inputs: setup.monitor.inputCount,
    reserved: [],
    channels,
    musicians: musiciansOf(setup).map(({ id, name, mono }) => ({ id, name, mono })),
    busPins: pins.buses,
    swapped: [...busesNow(setup, channels)].flatMap(([id, bus]) => (bus.stereo && bus.swapped ? [id] : [])),
  };
};
