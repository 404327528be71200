import { LINK_RULES, type LinkCode, type LinkValues, type TraceLink } from "../core/inputs/trace-links";
import { keysOf } from "../core/lib/keys";
import type { Id, Setup } from "../core/model/setup";
import { formatLevel, formatSource } from "./desk-list";
import { busName, channelName, mixerName, nameOr, numberedName } from "./names";
import { formatPort } from "./sheet";
import { TAP_NAMES } from "./taps";
import { capitalised, formatInputs, formatList } from "./words";

/** What names and numbers are looked up in. */
export type TraceNames = Pick<Setup, "channels" | "buses" | "listeners" | "desk" | "monitor">;

/** A channel by number and name: "Ch 12 Bass". */
export const formatChannelAt = (names: Pick<Setup, "channels">, id: Id): string => {
  const channel = names.channels.find((c) => c.id === id);
  return numberedName("Ch", channel?.numbers ?? [], nameOr(channel, "channel"));
};
const busOf = (names: TraceNames, id: Id | null): string => busName(names.buses.find((b) => b.id === id));
const mixerOf = (names: TraceNames, id: Id): string => mixerName(names.listeners.find((l) => l.id === id));
/** Monitor inputs in short: "In 3 + 4". */
export const formatShortInputs = (inputs: readonly number[]): string =>
  `In ${inputs.map((i) => i + 1).join(" + ")}`;
const plural = (list: readonly unknown[], one: string, many = `${one}s`): string =>
  list.length === 1 ? one : many;

/** Ports by their names; those that nobody has entered by the input that they feed. */
const portNames = (names: TraceNames, { ports, inputs }: LinkValues["port"]): string => {
  const known = ports.filter((port): port is number => port !== null);
  return known.length === ports.length && known.length > 0
    ? formatList([...new Set(known.map((port) => formatPort(names.desk, port)))])
    : `${plural(inputs, "the output", "the outputs")} for ${formatShortInputs(inputs)}`;
};

const sourcesOf = (names: TraceNames, inputs: readonly number[]): string =>
  formatList([
    ...new Set(
      inputs.flatMap((i) => {
        const feed = names.monitor.inputs[i]?.feed;
        return feed ? [formatSource(names, feed)] : [];
      }),
    ),
  ]);

const levelsOf = (names: TraceNames, { send, fader, busFader, bus }: LinkValues["level"]): string =>
  [
    ...(send === undefined ? [] : [`send ${formatLevel(send)}`]),
    ...(fader === undefined ? [] : [`channel fader ${formatLevel(fader)}`]),
    ...(busFader === undefined ? [] : [`${busOf(names, bus)} fader ${formatLevel(busFader)}`]),
  ].join(", ");

/** What of it is pulled down. */
const downOf = (names: TraceNames, { send, fader, busFader, bus }: LinkValues["level"]): string =>
  formatList([
    ...(send === null ? ["send"] : []),
    ...(fader === null ? ["channel fader"] : []),
    ...(busFader === null ? [`${busOf(names, bus)} fader`] : []),
  ]);

const meterOfLevel = (names: TraceNames, { bus }: LinkValues["level"]): string =>
  bus === null ? "channel fader" : `${busOf(names, bus)} meter`;

/** What is said of one kind of link. */
interface LinkText<Code extends LinkCode> {
  readonly name: (values: LinkValues[Code], names: TraceNames) => string;
  /** What it stands at in the plan. */
  readonly value: (values: LinkValues[Code], names: TraceNames) => string;
  /** Where to look, and when to say that there is a signal; null where nobody can look. */
  readonly look:
    | ((values: LinkValues[Code], names: TraceNames) => readonly [where: string, how: string])
    | null;
  /** What stops it in the plan, and what to change. */
  readonly broken: ((values: LinkValues[Code], names: TraceNames) => string) | null;
  /** What to do where it is the broken one. */
  readonly remedy: (values: LinkValues[Code], names: TraceNames) => string;
}

const LINKS: { readonly [code in LinkCode]: LinkText<code> } = {
  source: {
    name: ({ channel }, names) => formatChannelAt(names, channel),
    value: () => "microphone, cable, DI, preamp",
    look: ({ channel }, names) => [
      `${formatChannelAt(names, channel)}: input meter`,
      "Have it played. Signal: the meter moves.",
    ],
    broken: null,
    remedy: ({ channel }, names) =>
      `Nothing arrives at ${formatChannelAt(names, channel)}. Check the microphone’s switch, cable, DI, phantom power, gain and input patch.`,
  },
  mute: {
    name: () => "Channel mute",
    value: ({ muted }) => (muted ? "on" : "off"),
    look: ({ channel }, names) => [
      `${formatChannelAt(names, channel)}: mute`,
      "Signal: no mute is on (its own, mute group, DCA), and its meter moves.",
    ],
    broken: ({ channel }, names) => `${formatChannelAt(names, channel)} is muted. Unmute it in Channels.`,
    remedy: ({ channel }, names) =>
      `Unmute ${formatChannelAt(names, channel)}. Check its own mute, mute groups and DCAs.`,
  },
  feed: {
    name: ({ bus }, names) => (bus === null ? "Direct out" : `Send to ${busOf(names, bus)}`),
    value: ({ on, tap }) => `${on ? "on" : "off"}, ${TAP_NAMES[tap]}`,
    look: ({ channel, bus }, names) => [
      bus === null
        ? `${formatChannelAt(names, channel)}: direct out`
        : `${formatChannelAt(names, channel)}: send to ${busOf(names, bus)}`,
      "Signal: it is switched on, and the channel’s meter moves.",
    ],
    broken: ({ channel, bus }, names) =>
      bus === null
        ? `The direct out of ${channelName(names, channel)} is off. Switch it on in Channels.`
        : `The send of ${channelName(names, channel)} to ${busOf(names, bus)} is off. Switch it on in Channels.`,
    remedy: ({ channel, bus, tap }, names) =>
      bus === null
        ? `Switch the direct out of ${formatChannelAt(names, channel)} on, ${TAP_NAMES[tap]}.`
        : `Switch the send of ${formatChannelAt(names, channel)} to ${busOf(names, bus)} on, ${TAP_NAMES[tap]}.`,
  },
  level: {
    name: ({ bus }) => (bus === null ? "Channel fader" : "Levels and bus fader"),
    value: (values, names) => levelsOf(names, values),
    look: (values, names) => [
      capitalised(meterOfLevel(names, values)),
      values.bus === null
        ? "Signal: the fader is up, and the channel’s meter moves."
        : values.send === undefined
          ? "Signal: the bus is unmuted, its fader is up, and its meter moves."
          : "Have only this channel played. Signal: the bus meter moves, post-fader.",
    ],
    broken: (values, names) => `At −∞ in the plan: ${downOf(names, values)}. Set it in Channels or Headroom.`,
    remedy: (values, names) => {
      const down = downOf(names, values);
      const set = down === "" ? `Set ${levelsOf(names, values)}.` : `Turn up: ${down}.`;
      return values.bus === null ? set : `${set} Check that ${busOf(names, values.bus)} is not muted.`;
    },
  },
  port: {
    name: ({ ports }) => plural(ports, "Output port", "Output ports"),
    value: ({ ports }, { desk }) =>
      ports.map((port) => (port === null ? "not entered" : formatPort(desk, port))).join(" + "),
    look: (values, names) => [
      `${capitalised(portNames(names, values))}: output patch and meter`,
      `Signal: from ${sourcesOf(names, values.inputs)}, and the meter moves.`,
    ],
    broken: ({ shared }, { desk }) =>
      `${formatList(shared.map((port) => formatPort(desk, port)))} ${shared.length === 1 ? "feeds" : "feed"} something else too. Give each feed its own port in Patch.`,
    remedy: (values, names) => `Patch ${sourcesOf(names, values.inputs)} to ${portNames(names, values)}.`,
  },
  "monitor link": {
    name: () => "Link to the monitor system",
    value: ({ link }) => link,
    look: ({ inputs }) =>
      inputs.length === 0
        ? ["Monitor system: input meters", "Signal: they move while the band plays."]
        : [
            `Monitor system: input ${plural(inputs, "meter")}, ${formatShortInputs(inputs)}`,
            `Signal: ${plural(inputs, "the meter moves", "both meters move")}.`,
          ],
    broken: null,
    remedy: ({ link }) =>
      link === "digital"
        ? "Check the card, its cable, and that both ends run from the same clock."
        : "Check the multicore, its cables and the input trim of the monitor system.",
  },
  "monitor input": {
    name: ({ inputs }) => plural(inputs, "Monitor input"),
    value: ({ inputs, off }) => {
      if (off.length === 0) return formatShortInputs(inputs);
      return off.length === inputs.length
        ? `${formatShortInputs(inputs)}, off`
        : `${formatShortInputs(inputs)}; ${formatShortInputs(off)} off`;
    },
    look: ({ inputs }) => [
      `${formatShortInputs(inputs)} at the mixer`,
      `Ask which input is turned up. Signal: it is ${formatShortInputs(inputs)}, and ${plural(inputs, "its meter moves", "both meters move")}.`,
    ],
    broken: ({ off }) =>
      `${capitalised(formatInputs(off))} ${off.length === 1 ? "is" : "are"} off or beyond the last. Change it in Patch.`,
    remedy: ({ inputs }) => `Turn up ${formatShortInputs(inputs)}. Label the mixer as the patch sheet does.`,
  },
  "stereo link": {
    name: () => "Stereo link at the mixer",
    value: ({ inputs, isPair }) => `${formatShortInputs(inputs)}${isPair ? "" : ", not a pair"}`,
    look: ({ inputs }) => [
      `${formatShortInputs(inputs)} at the mixer: stereo link`,
      "Signal: these two are linked, and both meters move.",
    ],
    broken: () => "Left and right are not on neighbouring inputs. Move them together in Patch.",
    remedy: ({ inputs }) =>
      `Link ${formatShortInputs(inputs)} as a stereo pair at the mixer, panned left and right.`,
  },
  mixer: {
    name: ({ listener }, names) => capitalised(mixerOf(names, listener)),
    value: () => "level, mute, pan, solo",
    look: ({ listener }, names) => [
      `${capitalised(mixerOf(names, listener))}: headphone output`,
      "Turn it down, plug in your own earphones, turn it up. Signal: you hear it.",
    ],
    broken: null,
    remedy: ({ listener }, names) =>
      `At ${mixerOf(names, listener)}: turn the level up, unmute, centre the pan, clear every solo.`,
  },
  earphones: {
    name: () => "Pack and earphones",
    value: () => "battery, plug, both sides",
    look: null,
    broken: null,
    remedy: () => "Change the battery, check the plug, try other earphones.",
  },
};

// The table pairs each code with its own values, which the compiler cannot follow through the union.
const textOf = ({ code }: TraceLink): LinkText<"source"> => LINKS[code] as LinkText<"source">;
const valuesOf = ({ values }: TraceLink): LinkValues["source"] => values as LinkValues["source"];

/** One link of the chain by name, with what it stands at in the plan. */
export const describeLink = (
  names: TraceNames,
  link: TraceLink,
): { readonly name: string; readonly value: string } => ({
  name: textOf(link).name(valuesOf(link), names),
  value: textOf(link).value(valuesOf(link), names),
});

/** Where to look, and when there is a signal. */
export const describeLook = (
  names: TraceNames,
  link: TraceLink,
): { readonly where: string; readonly how: string } => {
  const [where, how] = textOf(link).look?.(valuesOf(link), names) ?? ["", ""];
  return { where, how };
};

/** What to do where a link is the broken one. */
export const describeRemedy = (names: TraceNames, link: TraceLink): string =>
  textOf(link).remedy(valuesOf(link), names);

/** What of the plan itself stops the signal at a link; "" where nothing does. */
export const describeBreak = (names: TraceNames, link: TraceLink): string =>
  link.broken ? (textOf(link).broken?.(valuesOf(link), names) ?? "") : "";

/** What each kind of link is called where no band is at hand. */
const KIND_NAMES: { readonly [code in LinkCode]: string } = {
  source: "Channel without a signal",
  mute: "Channel mute",
  feed: "Direct out or send switched off",
  level: "Send level or a fader",
  port: "Output port",
  "monitor link": "Link to the monitor system",
  "monitor input": "Wrong input turned up at the mixer",
  "stereo link": "Stereo link at the mixer",
  mixer: "Musician’s mixer",
  earphones: "Pack and earphones",
};

/** The weights and costs behind the order of looks, as rows of a table. */
export const LINK_TABLE: readonly (readonly [link: string, weight: string, cost: string])[] = keysOf(
  KIND_NAMES,
).map((code) => {
  const { weight, lookCost } = LINK_RULES[code];
  return [KIND_NAMES[code], String(weight), lookCost === null ? "can’t look" : String(lookCost)];
});
