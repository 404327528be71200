import { type InputName, readName } from "../inputs/names";
import { inputsOfBus, inputsOfChannel } from "../model/inputs";
import type { Channel, Id, Setup } from "../model/setup";
import { instrumentsOf } from "./instruments";
import type { AllocationChannel, AllocationProblem, BusPin, Pin } from "./model";
import { busesNow } from "./now";
import { musiciansOf, playersOf } from "./people";
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

/** The inputs that carry a channel now, from 1: its own and those of the buses it is sent to. */
const inputsNow = ({ monitor, buses }: Setup, id: Id): number[] => {
  const within = buses.filter((bus) => bus.sends.some((send) => send.on && send.channel === id));
  const indexes = [inputsOfChannel(monitor, id), ...within.map((bus) => inputsOfBus(monitor, bus.id))].flat();
  return [...new Set(indexes)].filter((i) => i < monitor.inputCount).map((i) => i + 1);
};

/** The question that a setup asks: what goes into the monitor inputs? */
export const problemOf = (setup: Setup, pins: HandPins): AllocationProblem => {
  const named = setup.channels.map((channel) => ({ channel, name: readName(channel.name) }));
  const players = playersOf(setup, named);
  const instruments = instrumentsOf(named);
  const channels = named.map(
    ({ channel, name }): AllocationChannel => ({
      id: channel.id,
      name: channel.name,
      kind: kindOf(setup, channel, name),
      width: channel.lines,
      keepsSides: channel.keepSides,
      number: channel.numbers[0] ?? null,
      section: null,
      instrument: instruments.get(channel.id) ?? null,
      player: players.get(channel.id) ?? null,
      wantedBy: [],
      currentInputs: inputsNow(setup, channel.id),
      rule: {},
      pin: pins.channels.get(channel.id) ?? null,
    }),
  );
  return {
    inputs: setup.monitor.inputCount,
    reserved: [],
    channels,
    musicians: musiciansOf(setup).map(({ id, name, mono }) => ({ id, name, mono })),
    busPins: pins.buses,
    swapped: [...busesNow(setup, channels)].flatMap(([id, bus]) => (bus.stereo && bus.swapped ? [id] : [])),
  };
};
