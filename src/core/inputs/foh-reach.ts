import { isDirectOutMuted, isSendMuted } from "../mix/taps";
import { inputsOfChannel } from "../model/inputs";
import { hearsFoh } from "../model/kinds";
import type { Id, Listener, Setup } from "../model/setup";
import { routesOf } from "./trace";

/** A way by which a channel reaches the musicians, and what of FOH reaches it. */
interface FohReach {
  readonly channel: Id;
  /** The bus that brings it; null for its direct out. */
  readonly bus: Id | null;
  /** The channel mute cuts it: behind the fader always, else by the desk’s rule. */
  readonly byMute: boolean;
  /** The channel fader moves it. */
  readonly byFader: boolean;
}

/** What a mute or a fader at FOH does to every way that is switched on, whoever hears it, in the order of the channels. */
const fohReach = (setup: Setup): FohReach[] =>
  setup.channels.flatMap((channel) =>
    routesOf(setup, channel.id).flatMap((bus): FohReach[] => {
      const muted = { ...channel, muted: true };
      const { directOut } = channel;
      if (bus === null) {
        if (!directOut.on) return [];
        const byMute = isDirectOutMuted(setup.desk, muted);
        return [{ channel: channel.id, bus, byMute, byFader: directOut.tap === "post-fader" }];
      }
      const send = setup.buses.find((b) => b.id === bus)?.sends.find((s) => s.channel === channel.id);
      if (!send?.on || send.level === null) return [];
      const byMute = isSendMuted(setup.desk, muted, send);
      return [{ channel: channel.id, bus, byMute, byFader: send.tap === "post-fader" }];
    }),
  );

/** One channel in a musician’s ears: the ways by which it gets there, each the bus or null for its direct out. */
export interface FohTake {
  readonly channel: Id;
  readonly ways: readonly (Id | null)[];
  /** Those that the channel mute cuts: the channel is gone where these are all. */
  readonly cut: readonly (Id | null)[];
  /** Those that the channel fader moves. */
  readonly moved: readonly (Id | null)[];
}

/**
 * What a mute or a fader at FOH takes from a musician’s ears, in the order of the channels; channels that it leaves
 * alone are not in it. A musician mixes from all monitor inputs, but of the buses that somebody listens to hears only
 * their own.
 */
export const fohTakes = (setup: Setup, listener: Pick<Listener, "kind" | "bus">): FohTake[] => {
  if (hearsFoh(listener)) return [];
  const others = new Set(setup.listeners.flatMap(({ bus }) => (bus !== listener.bus && bus) || []));
  const reach = fohReach(setup).filter(({ bus }) => bus === null || !others.has(bus));
  return setup.channels.flatMap(({ id }): FohTake[] => {
    const mine = reach.filter(({ channel }) => channel === id);
    const ways = (those: readonly FohReach[]): (Id | null)[] => those.map(({ bus }) => bus);
    const [cut, moved] = [mine.filter((r) => r.byMute), mine.filter((r) => r.byFader)];
    if (cut.length + moved.length === 0) return [];
    return [{ channel: id, ways: ways(mine), cut: ways(cut), moved: ways(moved) }];
  });
};

/** Channels whose direct out no monitor input takes: at the desk it has to be off, whatever it was used for before. */
export const idleDirectOuts = ({ channels, monitor }: Setup): Id[] =>
  channels.filter(({ id }) => inputsOfChannel(monitor, id).length === 0).map(({ id }) => id);

/** Indexes of monitor inputs that take something, but whose output port nobody has entered. */
export const inputsWithoutPort = ({ monitor }: Setup): number[] =>
  monitor.inputs.flatMap((input, at) => (input && input.port === null ? [at] : []));
