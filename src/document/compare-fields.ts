import { rmsBy } from "../core/level/analog";
import { isolated, quoted } from "../core/lib/direction";
import { formatClock, formatEntry, formatPercent } from "../core/lib/number";
import { CHANNEL_KINDS, LISTENER_KINDS, PIECE_KINDS } from "../core/model/kinds";
import type {
  Bus,
  Channel,
  Desk,
  Earphone,
  Id,
  Kit,
  Limb,
  Listener,
  MonitorInput,
  MonitorSystem,
  Piece,
  Preferences,
  Recording,
  Send,
  TapPoint,
} from "../core/model/setup";
import type { Pan } from "../core/model/units";
import { LAWS } from "../core/pan/laws";
import { formatPan } from "../core/pan/notation";
import { SIDE_LETTERS } from "../text/names";
import { formatRule } from "../text/rules";
import { TAP_NAMES } from "../text/taps";
import { formatList } from "../text/words";
import type { SetupFile } from "./schema";

/** One thing that can be said of a part of a setup. */
export interface ComparedField<T> {
  /** What it is called in a sentence; "" where the words speak for themselves. */
  readonly what: string;
  /** What is compared. */
  readonly value: (thing: T) => unknown;
  /** The value in words. */
  readonly print: (thing: T, setup: SetupFile) => string;
}

const number = <T>(
  what: string,
  unit: string,
  value: (thing: T) => number | null,
  none = "not entered",
): ComparedField<T> => ({
  what,
  value,
  print: (thing) => {
    const n = value(thing);
    return n === null ? none : `${formatEntry(n)}${unit && ` ${unit}`}`;
  },
});

const word = <T, W extends string | number>(
  what: string,
  value: (thing: T) => W,
  words: { readonly [word in W]: string },
): ComparedField<T> => ({ what, value, print: (thing) => words[value(thing)] });

const yes = <T>(value: (thing: T) => boolean, ifSo: string, ifNot: string): ComparedField<T> => ({
  what: "",
  value,
  print: (thing) => (value(thing) ? ifSo : ifNot),
});

/** What a person wrote; `none` where they wrote nothing. */
const written = <T>(what: string, value: (thing: T) => string, none = "nothing"): ComparedField<T> => ({
  what,
  value,
  print: (thing) => isolated(value(thing)) || none,
});

const nameIn = (
  list: readonly { readonly id: Id; readonly name: string }[],
  id: Id,
  kind: "piece" | "channel" | "bus" | "listener",
): string => {
  const name = list.find((thing) => thing.id === id)?.name;
  return name ? quoted(name) : `an unnamed ${kind}`;
};

const printPanOf = (pan: Pan | null, { desk: console }: SetupFile): string =>
  pan === null ? "as at FOH" : formatPan(pan, console);

const place = (x: number, y: number, right: string, left: string): string =>
  `${formatEntry(Math.abs(x))} m ${x < 0 ? left : right}, ${formatEntry(Math.abs(y))} m ${y < 0 ? "behind" : "in front"}`;

/** Of the whole setup. */
export const WHOLE: readonly ComparedField<SetupFile>[] = [
  { what: "note", value: (s) => s.note, print: (s) => (s.note === "" ? "none" : quoted(s.note)) },
  yes((s) => s.example, "an example with invented data", "no example"),
];

/** Of the kit as a whole. */
export const KIT: readonly ComparedField<Kit>[] = [
  word("set up", (k) => k.hand, { right: "right-handed", left: "left-handed", open: "open-handed" }),
  number("throne turned", "°", (k) => k.yaw),
];

const LIMBS: { readonly [limb in Limb]: string } = {
  hand: "a hand",
  "kick-foot": "the kick foot",
  "hat-foot": "the hat foot",
  whole: "the whole kit",
};

/** Of one piece. */
export const PIECE: readonly ComparedField<Piece>[] = [
  written("called", (p) => p.name),
  word("kind", (p) => p.kind, PIECE_KINDS),
  {
    what: "place",
    value: (p) => [p.x, p.y],
    print: (p) => place(p.x, p.y, "right of the throne", "left of the throne"),
  },
  {
    what: "sounded by",
    value: (p) => p.limbs,
    print: (p) => formatList(p.limbs.map((limb) => LIMBS[limb])) || "nothing",
  },
  written("played by", (p) => p.player, "nobody"),
];

const TAP_LIST = (taps: readonly TapPoint[]): string =>
  formatList(taps.map((tap) => TAP_NAMES[tap])) || "none";

/** The desk's name. */
export const DESK_NAME: ComparedField<Desk> = written("called", (c) => c.name, "not named");

/** Of the desk. */
export const DESK: readonly ComparedField<Desk>[] = [
  DESK_NAME,
  number("channels", "", (c) => c.channelCount),
  number("buses", "", (c) => c.busCount),
  number("output ports", "", (c) => c.portCount),
  number("channels in a bank", "", (c) => c.bankSize),
  {
    what: "first output port",
    value: (c) => [c.portName, c.firstPort],
    print: (c) => quoted(`${c.portName} ${c.firstPort}`),
  },
  yes((c) => c.busOverloads, "a bus can overload before its fader", "a bus cannot overload before its fader"),
  yes((c) => c.muteRule.preFaderSends, "mute takes pre-fader sends", "mute leaves pre-fader sends"),
  {
    what: "mute takes direct outs",
    value: (c) => c.muteRule.directOuts,
    print: (c) => TAP_LIST(c.muteRule.directOuts),
  },
  number("trim step", "dB", (c) => c.trimStep),
  { what: "pan law", value: (c) => c.law, print: (c) => LAWS[c.law].name },
  number("custom centre drop", "dB", (c) => c.centreDb),
  word("unity", (c) => c.reference, { sides: "hard-panned", centre: "at centre" }),
  word("stereo channels by", (c) => c.stereoLaw, {
    "balance-linear": "linear balance",
    "balance-sine": "sine balance",
    pan: "pan",
  }),
  word("pans shown as", (c) => c.panStyle, { steps: "L and R", midi: "0–127", clock: "clock hours" }),
  number("pan steps each side", "", (c) => c.panSteps),
  number("level step", "dB", (c) => c.levelStep),
  { what: "a full-scale sine reads", value: (c) => c.rms, print: (c) => rmsBy(c.rms).sine },
  number("output at 0 dBFS", "dBu", (c) => c.outputDbu),
];

/** Of one channel. */
export const CHANNEL: readonly ComparedField<Channel>[] = [
  written("called", (s) => s.name),
  { what: "channel number", value: (s) => s.numbers, print: (s) => s.numbers.join(" and ") || "not entered" },
  word("kind", (s) => s.kind, CHANNEL_KINDS),
  {
    what: "stands at",
    value: (s) => s.piece,
    print: (s, { kit }) => (s.piece === null ? "no place at the kit" : nameIn(kit.pieces, s.piece, "piece")),
  },
  word("", (s) => s.lines, { 1: "mono", 2: "stereo" }),
  { what: "pan", value: (s) => s.pan, print: (s, setup) => printPanOf(s.pan, setup) },
  number("fader", "dB", (s) => s.fader, "−∞"),
  yes((s) => s.muted, "muted", "not muted"),
  yes((s) => s.inverted, "polarity inverted", "polarity not inverted"),
  number("gated RMS", "dBFS", (s) => s.gatedRms, "not entered"),
  {
    what: "activity",
    value: (s) => s.activity,
    print: (s) => (s.activity === null ? "by kind" : formatPercent(s.activity)),
  },
  number("peak", "dBFS", (s) => s.peak, "not entered"),
  yes((s) => s.keepSides, "keep L/R", "may change sides"),
  {
    what: "direct out",
    value: (s) => s.directOut,
    print: ({ directOut: { on, tap, trim } }) =>
      `${on ? "on" : "off"}, ${TAP_NAMES[tap]}${trim === 0 ? "" : `, trim ${formatEntry(trim)} dB`}`,
  },
  { what: "rule", value: (s) => s.rule, print: (s, { listeners }) => formatRule(s.rule, listeners) },
  { what: "colour", value: (s) => s.colour, print: (s) => s.colour ?? "none" },
  written("group", (s) => s.group, "none"),
  {
    what: "extra columns",
    value: (s) => s.extra,
    print: (s) => s.extra.map(({ head, value }) => `${head}: ${value}`).join(", ") || "none",
  },
];

/** Of one bus, without its sends. */
export const BUS: readonly ComparedField<Bus>[] = [
  written("called", (s) => s.name),
  yes((s) => s.stereo, "a pair", "mono"),
  { what: "bus number", value: (s) => s.numbers, print: (s) => s.numbers.join(" and ") || "not entered" },
  number("fader", "dB", (s) => s.fader, "−∞"),
  number("trim", "dB", (s) => s.trim),
  number("trim of the left side", "dB", (s) => s.sideTrim[0]),
  number("trim of the right side", "dB", (s) => s.sideTrim[1]),
  yes(
    (s) => s.sideInverted[0],
    "polarity of the left side inverted",
    "polarity of the left side not inverted",
  ),
  yes(
    (s) => s.sideInverted[1],
    "polarity of the right side inverted",
    "polarity of the right side not inverted",
  ),
  yes((s) => s.unevenSides, "sides processed unlike", "sides processed alike"),
  yes((s) => s.swapped, "sides swapped at the patch", "sides patched straight"),
  yes((s) => s.folded, "folded to mono", "not folded to mono"),
  number("pad", "dB", (s) => s.padDb),
];

/** Of one send. */
export const SEND: readonly ComparedField<Send>[] = [
  number("send", "dB", (s) => s.level, "−∞"),
  yes((s) => s.on, "on", "off"),
  word("", (s) => s.tap, { "pre-fader": "pre-fader", "post-fader": "post-fader" }),
  { what: "pan", value: (s) => s.pan, print: (s, setup) => printPanOf(s.pan, setup) },
];

/** Of one listener. */
export const LISTENER: readonly ComparedField<Listener>[] = [
  written("called", (l) => l.name),
  { what: "", value: (l) => l.kind, print: (l) => LISTENER_KINDS[l.kind].name },
  {
    what: "place",
    value: (l) => [l.x, l.y],
    print: (l) => place(l.x, l.y, "to house right", "to house left"),
  },
  number("facing", "°", (l) => l.facing),
  {
    what: "hears",
    value: (l) => l.bus,
    print: (l, { buses }) => (l.bus === null ? "no bus" : nameIn(buses, l.bus, "bus")),
  },
  yes((l) => l.flipped, "flipped at their own mixer", "not flipped at their own mixer"),
  yes((l) => l.mono, "hears both sides in one", "hears both sides apart"),
];

/** Of the monitor system, without its inputs. */
export const MONITOR: readonly ComparedField<MonitorSystem>[] = [
  number("number of inputs", "", (m) => m.inputCount),
  number("max input level", "dBu", (m) => m.maxInputDbu),
  word("link from the desk", (m) => m.link, { analog: "analog", digital: "digital" }),
  yes((m) => m.trimBeforeInput, "trims lie before the input stage", "trims lie after the input stage"),
  yes((m) => m.mixers.flip, "mixers can flip L/R", "mixers cannot flip L/R"),
  yes((m) => m.mixers.mono, "mixers can go mono", "mixers cannot go mono"),
];

const SIDE = { left: " left", right: " right", both: "" } as const;

/** What an input takes, in words. */
export const formatInput = (input: MonitorInput | null, { channels, buses }: SetupFile): string => {
  if (!input) return "nothing";
  const { feed, port, on, trim } = input;
  const from =
    feed.kind === "bus"
      ? `${nameIn(buses, feed.bus, "bus")} ${SIDE_LETTERS[feed.side]}`
      : `${nameIn(channels, feed.channel, "channel")}${SIDE[feed.side]}`;
  return `${from}${port === null ? "" : `, port ${port}`}${on ? "" : ", off"}${trim === 0 ? "" : `, trim ${formatEntry(trim)} dB`}`;
};

/** Of what a recommendation may do. */
export const PREFERENCES: readonly ComparedField<Preferences>[] = [
  {
    what: "who matters most:",
    value: (w) => w.first,
    print: (w, { listeners }) => nameIn(listeners, w.first, "listener"),
  },
  yes((w) => w.fohFixed, "FOH stays as it is", "FOH may change"),
  yes((w) => w.inputsFixed, "no free input may be taken", "free inputs may be taken"),
  number("target headroom", "dB", (w) => w.targetHeadroom),
];

/** Of a recording, without its figures. */
export const RECORDING: readonly ComparedField<Recording>[] = [
  { what: "figures of", value: (r) => r.name, print: (r) => quoted(r.name) },
  { what: "length", value: (r) => r.seconds, print: (r) => formatClock(r.seconds) },
];

/** Of the earphones. */
export const EARPHONE: readonly ComparedField<Earphone>[] = [
  {
    what: "sensitivity",
    value: (e) => [e.sensitivity, e.unit],
    print: (e) => `${formatEntry(e.sensitivity)} ${e.unit}`,
  },
  number("impedance", "Ω", (e) => e.impedance),
  number("amplifier’s impedance", "Ω", (e) => e.sourceImpedance),
  number("drive", "V", (e) => e.drive),
  number("isolation", "dB", (e) => e.isolation),
  number("level on stage", "dBA", (e) => e.stage),
];
