import { BLANK_BUS, BLANK_SEND } from "../model/defaults";
import { nextId, uniqueName } from "../model/ids";
import { sitsAtKit } from "../model/kinds";
import type { Bus, Channel, ChannelKind, Id, Setup } from "../model/setup";

/** Kinds that belong into a drum bus. Common practice, no source. */
const INTO_DRUM_BUS: readonly ChannelKind[] = ["drum", "percussion"];

/** Whether a channel belongs into a drum bus. */
export const isForDrumBus = ({ kind }: Pick<Channel, "kind">): boolean => INTO_DRUM_BUS.includes(kind);

/**
 * The drum bus of a setup: of the buses that take more drums and percussion than anything else, the one that takes most
 * of them, of two alike the first; null where there is none.
 */
export const drumBusOf = ({ channels, buses }: Pick<Setup, "channels" | "buses">): Bus | null => {
  const drums = new Set(channels.filter(isForDrumBus).map(({ id }) => id));
  let most = 0;
  let found: Bus | null = null;
  for (const bus of buses) {
    const count = bus.sends.filter(({ channel }) => drums.has(channel)).length;
    if (count > most && 2 * count > bus.sends.length) {
      most = count;
      found = bus;
    }
  }
  return found;
};

/** A bus with drums and percussion of these channels sent into it, at 0 dB; who is in it stays as it is. */
export const withDrumsIn = (bus: Bus, channels: readonly Channel[]): Bus => {
  const inside = new Set(bus.sends.map(({ channel }) => channel));
  const fresh = channels.filter((channel) => isForDrumBus(channel) && !inside.has(channel.id));
  return fresh.length === 0
    ? bus
    : { ...bus, sends: [...bus.sends, ...fresh.map(({ id }) => ({ ...BLANK_SEND, channel: id }))] };
};

/**
 * A setup with the drums and percussion that are new in it sent into a bus; where there is none yet, into a new stereo one
 * that drummers who heard no bus hear.
 * @param before the setup without them
 * @param into null builds the bus
 */
export const withDrumBus = (setup: Setup, before: Pick<Setup, "channels">, into: Id | null): Setup => {
  const known = new Set(before.channels.map(({ id }) => id));
  const fresh = setup.channels.filter((channel) => isForDrumBus(channel) && !known.has(channel.id));
  if (fresh.length === 0) return setup;
  if (into !== null)
    return { ...setup, buses: setup.buses.map((bus) => (bus.id === into ? withDrumsIn(bus, fresh) : bus)) };
  const blank: Bus = {
    ...BLANK_BUS,
    id: nextId("m", setup.buses),
    name: uniqueName("Drums", setup.buses),
    stereo: true,
  };
  return {
    ...setup,
    buses: [...setup.buses, withDrumsIn(blank, fresh)],
    listeners: setup.listeners.map((listener) =>
      sitsAtKit(listener) && listener.bus === null ? { ...listener, bus: blank.id } : listener,
    ),
  };
};
