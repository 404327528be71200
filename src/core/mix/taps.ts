import { gainOf } from "../level/decibels";
import type { Channel, Desk, MonitorInput, Send, Setup } from "../model/setup";
import type { Db, Gain } from "../model/units";

/** Gain of a fader or a level: 0 where it is at −∞. */
export const faderGain = (level: Db | null): Gain => (level === null ? 0 : gainOf(level));

/** Whether the desk’s mute silences a send of a channel: always behind the fader, else by the desk’s rule. */
export const isSendMuted = (
  desk: Pick<Desk, "muteRule">,
  { muted }: Pick<Channel, "muted">,
  { tap }: Pick<Send, "tap">,
): boolean => muted && (tap === "post-fader" || desk.muteRule.preFaderSends);

/**
 * Gain of a send, without pan and polarity; 0 where nothing goes. A post-fader send moves with the channel fader and
 * dies with its mute; a pre-fader one does neither, unless the desk’s mute takes it too.
 */
export const sendGain = (desk: Pick<Desk, "muteRule">, channel: Channel, send: Send): Gain => {
  if (!send.on || isSendMuted(desk, channel, send)) return 0;
  return faderGain(send.level) * (send.tap === "post-fader" ? faderGain(channel.fader) : 1);
};

/** Whether the desk’s mute silences a channel’s direct out: always behind the fader, else by the desk’s rule. */
export const isDirectOutMuted = (desk: Pick<Desk, "muteRule">, { muted, directOut }: Channel): boolean =>
  muted && (directOut.tap === "post-fader" || desk.muteRule.directOuts.includes(directOut.tap));

/** Gain of a channel’s direct out: tap point, trim, switch and mute. */
export const directOutGain = (desk: Pick<Desk, "muteRule">, channel: Channel): Gain => {
  const { on, tap, trim } = channel.directOut;
  if (!on || isDirectOutMuted(desk, channel)) return 0;
  return gainOf(trim) * (tap === "post-fader" ? faderGain(channel.fader) : 1);
};

/** Gain at which a monitor input passes what feeds it: its switch and trim, and the direct out of a channel; 0 where nothing comes. */
export const inputGain = (setup: Pick<Setup, "desk" | "channels">, input: MonitorInput): Gain => {
  if (!input.on) return 0;
  const { feed } = input;
  const gain = gainOf(input.trim);
  if (feed.kind === "bus") return gain;
  const channel = setup.channels.find((c) => c.id === feed.channel);
  return channel ? gain * directOutGain(setup.desk, channel) : 0;
};

/** Whether an input is switched on, at the monitor system and at the direct out that feeds it; a mute or a fader does not count. */
export const isInputOn = (
  setup: Pick<Setup, "channels">,
  input: MonitorInput | null | undefined,
): boolean => {
  if (!input?.on) return false;
  const { feed } = input;
  return feed.kind === "bus" || setup.channels.find((c) => c.id === feed.channel)?.directOut.on === true;
};

/** Gain of a channel at FOH: its fader, silent where it is muted. */
export const fohGain = (channel: Pick<Channel, "muted" | "fader">): Gain =>
  channel.muted ? 0 : faderGain(channel.fader);
