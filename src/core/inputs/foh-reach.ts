import { isDirectOutMuted, isSendMuted } from "../mix/taps";
import { inputsOfChannel } from "../model/inputs";
import type { Id, Setup } from "../model/setup";
import { routesOf } from "./trace";

/** A way by which a channel reaches the musicians, and what of FOH reaches it. */
export interface FohReach {
  readonly channel: Id;
  /** The bus that brings it; null for its direct out. */
  readonly bus: Id | null;
  /** The channel mute cuts it: behind the fader always, else by the desk’s rule. */
  readonly byMute: boolean;
  /** The channel fader moves it. */
  readonly byFader: boolean;
}

/**
 * What a mute or a fader at FOH takes from the musicians’ ears, for every way that is switched on, in the order of the
 * channels. Each musician mixes from all monitor inputs, so it is the same for all of them.
 */
export const fohReach = (setup: Setup): FohReach[] =>
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

/** Channels whose direct out no monitor input takes: at the desk it has to be off, whatever it was used for before. */
export const idleDirectOuts = ({ channels, monitor }: Setup): Id[] =>
  channels.filter(({ id }) => inputsOfChannel(monitor, id).length === 0).map(({ id }) => id);

/** Indexes of monitor inputs that take something, but whose output port nobody has entered. */
export const inputsWithoutPort = ({ monitor }: Setup): number[] =>
  monitor.inputs.flatMap((input, at) => (input && input.port === null ? [at] : []));
