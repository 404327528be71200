import { rmsBy } from "../core/level/analog";
import { quoted } from "../core/lib/direction";
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
import { formatMeasured } from "../text/measured-bus";
import { SIDE_LETTERS } from "../text/names";
import { formatRule } from "../text/rules";
import { TAP_NAMES } from "../text/taps";
import { formatList } from "../text/words";
import { type ComparedField, ofNumber, ofText, ofWord, ofYes } from "./compared-field";
import type { SetupFile } from "./schema";

const nameIn = (
  list: readonly { readonly id: Id; readonly name: string }[],
  id: Id,
  kind: "piece" | "channel" | "bus" | "listener",
): string => {
  const name = list.find((thing) => thing.id === id)?.name;
  return name ? quoted(name) : `an unnamed ${kind}`;
};

const printPanOf = (pan: Pan | null, { desk: console }: SetupFile): string =>
  pan === null ? "follows channel pan" : formatPan(pan, console);

const place = (x: number, y: number, right: string, left: string): string =>
  `${formatEntry(Math.abs(x))} m ${x < 0 ? left : right}, ${formatEntry(Math.abs(y))} m ${y < 0 ? "behind" : "in front"}`;

/** Of the whole setup. */
export const WHOLE: readonly ComparedField<SetupFile>[] = [
  { what: "note", value: (s) => s.note, print: (s) => (s.note === "" ? "none" : quoted(s.note)) },
  ofYes((s) => s.example, "an example with invented data", "no example"),
];

/** Of the kit as a whole. */
export const KIT: readonly ComparedField<Kit>[] = [
  ofWord("set up", (k) => k.hand, { right: "right-handed", left: "left-handed", open: "open-handed" }),
  ofNumber("throne turned", "°", (k) => k.yaw),
];

const LIMBS: { readonly [limb in Limb]: string } = {
  hand: "a hand",
  "kick-foot": "the kick foot",
  "hat-foot": "the hat foot",
  whole: "the whole kit",
};

/** Of one piece. */
export const PIECE: readonly ComparedField<Piece>[] = [
  ofText("name", (p) => p.name),
  ofWord("kind", (p) => p.kind, PIECE_KINDS),
  {
    what: "place",
    value: (p) => [p.x, p.y],
    print: (p) => place(p.x, p.y, "right of the throne", "left of the throne"),
  },
  {
    what: "played with",
    value: (p) => p.limbs,
    print: (p) => formatList(p.limbs.map((limb) => LIMBS[limb])) || "nothing",
  },
  ofText("played by", (p) => p.player, "nobody"),
];

const TAP_LIST = (taps: readonly TapPoint[]): string =>
  formatList(taps.map((tap) => TAP_NAMES[tap])) || "none";

/** The desk's name. */
export const DESK_NAME: ComparedField<Desk> = ofText("name", (c) => c.name, "none");

/** Of the desk. */
export const DESK: readonly ComparedField<Desk>[] = [
  DESK_NAME,
  ofNumber("channels", "", (c) => c.channelCount),
  ofNumber("buses", "", (c) => c.busCount),
  ofNumber("output ports", "", (c) => c.portCount),
  ofNumber("channels in a bank", "", (c) => c.bankSize),
  {
    what: "first output port",
    value: (c) => [c.portName, c.firstPort],
    print: (c) => quoted(`${c.portName} ${c.firstPort}`),
  },
  ofYes(
    (c) => c.busOverloads,
    "a bus can overload before its fader",
    "a bus cannot overload before its fader",
  ),
  ofYes((c) => c.muteRule.preFaderSends, "mute also mutes pre-fader sends", "mute leaves pre-fader sends on"),
  {
    what: "mute also mutes direct outs",
    value: (c) => c.muteRule.directOuts,
    print: (c) => TAP_LIST(c.muteRule.directOuts),
  },
  ofNumber("trim step", "dB", (c) => c.trimStep),
  { what: "pan law", value: (c) => c.law, print: (c) => LAWS[c.law].name },
  ofNumber("custom centre drop", "dB", (c) => c.centreDb),
  ofWord("unity", (c) => c.reference, { sides: "hard-panned", centre: "at centre" }),
  ofWord("stereo channels by", (c) => c.stereoLaw, {
    "balance-linear": "linear balance",
    "balance-sine": "sine balance",
    pan: "pan",
  }),
  ofWord("pans shown as", (c) => c.panStyle, { steps: "L and R", midi: "0–127", clock: "clock hours" }),
  ofNumber("pan steps each side", "", (c) => c.panSteps),
  ofNumber("level step", "dB", (c) => c.levelStep),
  { what: "a full-scale sine reads", value: (c) => c.rms, print: (c) => rmsBy(c.rms).sine },
  ofNumber("output at 0 dBFS", "dBu", (c) => c.outputDbu),
];

/** Of one channel. */
export const CHANNEL: readonly ComparedField<Channel>[] = [
  ofText("name", (s) => s.name),
  { what: "channel number", value: (s) => s.numbers, print: (s) => s.numbers.join(" and ") || "not entered" },
  ofWord("kind", (s) => s.kind, CHANNEL_KINDS),
  {
    what: "kit piece",
    value: (s) => s.piece,
    print: (s, { kit }) => (s.piece === null ? "none" : nameIn(kit.pieces, s.piece, "piece")),
  },
  ofWord("", (s) => s.lines, { 1: "mono", 2: "stereo" }),
  { what: "pan", value: (s) => s.pan, print: (s, setup) => printPanOf(s.pan, setup) },
  ofNumber("fader", "dB", (s) => s.fader, "−∞"),
  ofYes((s) => s.muted, "muted", "not muted"),
  ofYes((s) => s.inverted, "polarity inverted", "polarity normal"),
  ofNumber("gated RMS", "dBFS", (s) => s.gatedRms, "not entered"),
  {
    what: "activity",
    value: (s) => s.activity,
    print: (s) => (s.activity === null ? "by kind" : formatPercent(s.activity)),
  },
  ofNumber("peak", "dBFS", (s) => s.peak, "not entered"),
  ofYes((s) => s.keepSides, "keeps L/R", "need not keep L/R"),
  {
    what: "direct out",
    value: (s) => s.directOut,
    print: ({ directOut: { on, tap, trim } }) =>
      `${on ? "on" : "off"}, ${TAP_NAMES[tap]}${trim === 0 ? "" : `, trim ${formatEntry(trim)} dB`}`,
  },
  { what: "rule", value: (s) => s.rule, print: (s, { listeners }) => formatRule(s.rule, listeners) },
  { what: "colour", value: (s) => s.colour, print: (s) => s.colour ?? "none" },
  ofText("group", (s) => s.group, "none"),
  {
    what: "extra columns",
    value: (s) => s.extra,
    print: (s) => s.extra.map(({ head, value }) => `${head}: ${value}`).join(", ") || "none",
  },
];

/** Of one bus, without its sends. */
export const BUS: readonly ComparedField<Bus>[] = [
  ofText("name", (s) => s.name),
  ofYes((s) => s.stereo, "stereo", "mono"),
  { what: "bus number", value: (s) => s.numbers, print: (s) => s.numbers.join(" and ") || "not entered" },
  ofNumber("fader", "dB", (s) => s.fader, "−∞"),
  ofNumber("trim", "dB", (s) => s.trim),
  ofNumber("trim L", "dB", (s) => s.sideTrim[0]),
  ofNumber("trim R", "dB", (s) => s.sideTrim[1]),
  ofYes((s) => s.sideInverted[0], "polarity L inverted", "polarity L normal"),
  ofYes((s) => s.sideInverted[1], "polarity R inverted", "polarity R normal"),
  ofYes((s) => s.unevenSides, "L and R processed differently", "L and R processed alike"),
  ofYes((s) => s.swapped, "L/R swapped", "L/R normal"),
  ofYes((s) => s.folded, "folded to mono", "not folded to mono"),
  ofNumber("pad", "dB", (s) => s.padDb),
  {
    what: "measured",
    value: (s) => s.measured,
    print: ({ measured }) => (measured ? formatMeasured(measured) : "not"),
  },
];

/** Of one send. */
export const SEND: readonly ComparedField<Send>[] = [
  ofNumber("send", "dB", (s) => s.level, "−∞"),
  ofYes((s) => s.on, "on", "off"),
  ofWord("", (s) => s.tap, { "pre-fader": "pre-fader", "post-fader": "post-fader" }),
  { what: "pan", value: (s) => s.pan, print: (s, setup) => printPanOf(s.pan, setup) },
];

/** Of one listener. */
export const LISTENER: readonly ComparedField<Listener>[] = [
  ofText("name", (l) => l.name),
  { what: "", value: (l) => l.kind, print: (l) => LISTENER_KINDS[l.kind].name },
  {
    what: "place",
    value: (l) => [l.x, l.y],
    print: (l) => place(l.x, l.y, "to house right", "to house left"),
  },
  ofNumber("facing", "°", (l) => l.facing),
  {
    what: "hears",
    value: (l) => l.bus,
    print: (l, { buses }) => (l.bus === null ? "no bus" : nameIn(buses, l.bus, "bus")),
  },
  ofYes((l) => l.flipped, "mixer flips L/R", "mixer does not flip L/R"),
  ofYes((l) => l.mono, "mixer in mono", "mixer in stereo"),
];

/** Of the monitor system, without its inputs. */
export const MONITOR: readonly ComparedField<MonitorSystem>[] = [
  ofNumber("number of inputs", "", (m) => m.inputCount),
  ofNumber("max input level", "dBu", (m) => m.maxInputDbu),
  ofWord("link from the desk", (m) => m.link, { analog: "analog", digital: "digital" }),
  ofYes((m) => m.trimBeforeInput, "input trim before the input stage", "input trim after the input stage"),
  ofYes((m) => m.mixers.flip, "mixers can flip L/R", "mixers cannot flip L/R"),
  ofYes((m) => m.mixers.mono, "mixers can go mono", "mixers cannot go mono"),
];

const SIDE = { left: " L", right: " R", both: "" } as const;

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
  ofYes((w) => w.fohFixed, "FOH stays as it is", "FOH may change"),
  ofYes((w) => w.inputsFixed, "free inputs must not be used", "free inputs may be used"),
  ofNumber("target headroom", "dB", (w) => w.targetHeadroom),
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
  ofNumber("impedance", "Ω", (e) => e.impedance),
  ofNumber("amplifier output impedance", "Ω", (e) => e.sourceImpedance),
  ofNumber("amplifier output", "V", (e) => e.drive),
  ofNumber("isolation", "dB", (e) => e.isolation),
  ofNumber("level on stage", "dBA", (e) => e.stage),
];
