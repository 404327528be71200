import { rmsBy } from "../core/level/analog";
import { isolated, quoted } from "../core/lib/direction";
import { formatClock, formatEntry, formatPercent } from "../core/lib/number";
import { CHANNEL_KINDS, LISTENER_KINDS, PIECE_KINDS } from "../core/model/kinds";
import type { Id, Limb, MonitorInput, Setup } from "../core/model/setup";
import type { Pan } from "../core/model/units";
import { LAWS } from "../core/pan/laws";
import { formatPan } from "../core/pan/notation";
import type { ComparedField, ComparedKind, ComparedValues, RightAndFront } from "./compared-values";
import { formatMeasured } from "./measured-bus";
import { SIDE_LETTERS } from "./names";
import { formatRule } from "./rules";
import { TAP_NAMES } from "./taps";
import { formatList } from "./words";

interface FieldText<V> {
  /** What it is called in a sentence; "" where the words speak for themselves. */
  readonly what: string;
  /** The value in words. */
  readonly print: (value: V, setup: Setup) => string;
}

/** A number with its unit; `none` where nobody entered it. */
const ofNumber = (what: string, unit: string, none = "not entered"): FieldText<number | null> => ({
  what,
  print: (n) => (n === null ? none : `${formatEntry(n)}${unit && ` ${unit}`}`),
});

/** One of a list. */
const ofWord = <W extends string | number>(
  what: string,
  words: { readonly [word in W]: string },
): FieldText<W> => ({ what, print: (value) => words[value] });

/** What is so or not. */
const ofYes = (ifSo: string, ifNot: string): FieldText<boolean> => ({
  what: "",
  print: (is) => (is ? ifSo : ifNot),
});

/** What a person wrote; `none` where they wrote nothing. */
const ofText = (what: string, none = "nothing"): FieldText<string> => ({
  what,
  print: (text) => isolated(text) || none,
});

const ofPan: FieldText<Pan | null> = {
  what: "pan",
  print: (pan, { desk }) => (pan === null ? "follows channel pan" : formatPan(pan, desk)),
};

const ofPlace = (right: string, left: string): FieldText<RightAndFront> => ({
  what: "place",
  print: ([x, y]) =>
    `${formatEntry(Math.abs(x))} m ${x < 0 ? left : right}, ${formatEntry(Math.abs(y))} m ${y < 0 ? "behind" : "in front"}`,
});

const ofNumbers = (what: string): FieldText<readonly number[]> => ({
  what,
  print: (numbers) => numbers.join(" and ") || "not entered",
});

const nameIn = (
  list: readonly { readonly id: Id; readonly name: string }[],
  id: Id,
  kind: "piece" | "channel" | "bus" | "listener",
): string => {
  const name = list.find((thing) => thing.id === id)?.name;
  return name ? quoted(name) : `an unnamed ${kind}`;
};

const LIMBS: { readonly [limb in Limb]: string } = {
  hand: "a hand",
  "kick-foot": "the kick foot",
  "hat-foot": "the hat foot",
  whole: "the whole kit",
};

/** Each field that is compared, in words; they stand in the order of what differs. */
const FIELDS: {
  readonly [K in ComparedKind]: {
    readonly [F in keyof ComparedValues[K]]-?: FieldText<ComparedValues[K][F]>;
  };
} = {
  setup: {
    note: { what: "note", print: (note) => (note === "" ? "none" : quoted(note)) },
    example: ofYes("an example with invented data", "no example"),
  },
  kit: {
    hand: ofWord("set up", { right: "right-handed", left: "left-handed", open: "open-handed" }),
    yaw: ofNumber("throne turned", "°"),
  },
  piece: {
    name: ofText("name"),
    kind: ofWord("kind", PIECE_KINDS),
    place: ofPlace("right of the throne", "left of the throne"),
    limbs: {
      what: "played with",
      print: (limbs) => formatList(limbs.map((limb) => LIMBS[limb])) || "nothing",
    },
    player: ofText("played by", "nobody"),
  },
  desk: {
    name: ofText("name", "none"),
    channelCount: ofNumber("channels", ""),
    busCount: ofNumber("buses", ""),
    portCount: ofNumber("output ports", ""),
    bankSize: ofNumber("channels in a bank", ""),
    port: { what: "first output port", print: ([name, first]) => quoted(`${name} ${first}`) },
    busOverloads: ofYes("a bus can overload before its fader", "a bus cannot overload before its fader"),
    mutesSends: ofYes("mute also mutes pre-fader sends", "mute leaves pre-fader sends on"),
    mutesDirectOuts: {
      what: "mute also mutes direct outs",
      print: (taps) => formatList(taps.map((tap) => TAP_NAMES[tap])) || "none",
    },
    trimStep: ofNumber("trim step", "dB"),
    law: { what: "pan law", print: (law) => LAWS[law].name },
    centreDb: ofNumber("custom centre drop", "dB"),
    reference: ofWord("unity", { sides: "hard-panned", centre: "at centre" }),
    stereoLaw: ofWord("stereo channels by", {
      "balance-linear": "linear balance",
      "balance-sine": "sine balance",
      pan: "pan",
    }),
    panStyle: ofWord("pans shown as", { steps: "L and R", midi: "0–127", clock: "clock hours" }),
    panSteps: ofNumber("pan steps each side", ""),
    levelStep: ofNumber("level step", "dB"),
    rms: { what: "a full-scale sine reads", print: (rms) => rmsBy(rms).sine },
    outputDbu: ofNumber("output at 0 dBFS", "dBu"),
  },
  channel: {
    name: ofText("name"),
    numbers: ofNumbers("channel number"),
    kind: ofWord("kind", CHANNEL_KINDS),
    piece: {
      what: "kit piece",
      print: (piece, { kit }) => (piece === null ? "none" : nameIn(kit.pieces, piece, "piece")),
    },
    lines: ofWord("", { 1: "mono", 2: "stereo" }),
    pan: ofPan,
    fader: ofNumber("fader", "dB", "−∞"),
    muted: ofYes("muted", "not muted"),
    inverted: ofYes("polarity inverted", "polarity normal"),
    gatedRms: ofNumber("gated RMS", "dBFS"),
    activity: {
      what: "activity",
      print: (activity) => (activity === null ? "by kind" : formatPercent(activity)),
    },
    peak: ofNumber("peak", "dBFS"),
    keepSides: ofYes("keeps L/R", "need not keep L/R"),
    directOut: {
      what: "direct out",
      print: ({ on, tap, trim }) =>
        `${on ? "on" : "off"}, ${TAP_NAMES[tap]}${trim === 0 ? "" : `, trim ${formatEntry(trim)} dB`}`,
    },
    rule: { what: "rule", print: (rule, { listeners }) => formatRule(rule, listeners) },
    colour: { what: "colour", print: (colour) => colour ?? "none" },
    group: ofText("group", "none"),
    extra: {
      what: "extra columns",
      print: (extra) => extra.map(({ head, value }) => `${head}: ${value}`).join(", ") || "none",
    },
  },
  bus: {
    name: ofText("name"),
    stereo: ofYes("stereo", "mono"),
    numbers: ofNumbers("bus number"),
    fader: ofNumber("fader", "dB", "−∞"),
    trim: ofNumber("trim", "dB"),
    trimL: ofNumber("trim L", "dB"),
    trimR: ofNumber("trim R", "dB"),
    invertedL: ofYes("polarity L inverted", "polarity L normal"),
    invertedR: ofYes("polarity R inverted", "polarity R normal"),
    unevenSides: ofYes("L and R processed differently", "L and R processed alike"),
    swapped: ofYes("L/R swapped", "L/R normal"),
    folded: ofYes("folded to mono", "not folded to mono"),
    padDb: ofNumber("pad", "dB"),
    measured: { what: "measured", print: (measured) => (measured ? formatMeasured(measured) : "not") },
  },
  send: {
    level: ofNumber("send", "dB", "−∞"),
    on: ofYes("on", "off"),
    tap: ofWord("", { "pre-fader": "pre-fader", "post-fader": "post-fader" }),
    pan: ofPan,
  },
  listener: {
    name: ofText("name"),
    kind: { what: "", print: (kind) => LISTENER_KINDS[kind].name },
    place: ofPlace("to house right", "to house left"),
    facing: ofNumber("facing", "°"),
    bus: {
      what: "hears",
      print: (bus, { buses }) => (bus === null ? "no bus" : nameIn(buses, bus, "bus")),
    },
    flipped: ofYes("mixer flips L/R", "mixer does not flip L/R"),
    mono: ofYes("mixer in mono", "mixer in stereo"),
  },
  monitor: {
    inputCount: ofNumber("number of inputs", ""),
    maxInputDbu: ofNumber("max input level", "dBu"),
    link: ofWord("link from the desk", { analog: "analog", digital: "digital" }),
    trimBeforeInput: ofYes("input trim before the input stage", "input trim after the input stage"),
    canFlip: ofYes("mixers can flip L/R", "mixers cannot flip L/R"),
    canGoMono: ofYes("mixers can go mono", "mixers cannot go mono"),
  },
  preferences: {
    first: {
      what: "who matters most:",
      print: (first, { listeners }) => nameIn(listeners, first, "listener"),
    },
    fohFixed: ofYes("FOH stays as it is", "FOH may change"),
    inputsFixed: ofYes("free inputs must not be used", "free inputs may be used"),
    targetHeadroom: ofNumber("target headroom", "dB"),
  },
  recording: {
    name: { what: "figures of", print: quoted },
    seconds: { what: "length", print: formatClock },
  },
  earphone: {
    sensitivity: { what: "sensitivity", print: ([figure, unit]) => `${formatEntry(figure)} ${unit}` },
    impedance: ofNumber("impedance", "Ω"),
    sourceImpedance: ofNumber("amplifier output impedance", "Ω"),
    drive: ofNumber("amplifier output", "V"),
    isolation: ofNumber("isolation", "dB"),
    stage: ofNumber("level on stage", "dBA"),
  },
};

const textOf = (of: ComparedKind, field: ComparedField): FieldText<unknown> =>
  // The compiler does not see that field and value belong together, whichever of them it is.
  (FIELDS[of] as { readonly [field: string]: FieldText<unknown> })[field] as FieldText<unknown>;

/** What a field is called, with a space behind it; "" where its values speak for themselves. */
export const formatComparedField = (of: ComparedKind, field: ComparedField): string => {
  const { what } = textOf(of, field);
  return what && `${what} `;
};

/** A value of a field in words; what it names by id is looked up in `setup`. */
export const formatComparedValue = (
  of: ComparedKind,
  field: ComparedField,
  value: unknown,
  setup: Setup,
): string => textOf(of, field).print(value, setup);

const SIDE = { left: " L", right: " R", both: "" } as const;

/** What an input takes, in words. */
export const formatMonitorInput = (input: MonitorInput | null, { channels, buses }: Setup): string => {
  if (!input) return "nothing";
  const { feed, port, on, trim } = input;
  const from =
    feed.kind === "bus"
      ? `${nameIn(buses, feed.bus, "bus")} ${SIDE_LETTERS[feed.side]}`
      : `${nameIn(channels, feed.channel, "channel")}${SIDE[feed.side]}`;
  return `${from}${port === null ? "" : `, port ${port}`}${on ? "" : ", off"}${trim === 0 ? "" : `, trim ${formatEntry(trim)} dB`}`;
};
