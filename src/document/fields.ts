import { BLANK_SUM } from "../core/blanksum";
import type {
  Console,
  Ear,
  Feed,
  Hit,
  Kit,
  Listener,
  Measured,
  Monitor,
  Piece,
  Recording,
  Send,
  Slot,
  Source,
  Sum,
  Wishes,
} from "../core/setup";
import { BLANK_CONSOLE, BLANK_MONITOR, BLANK_WISHES, TYPICAL_EAR } from "./blank";
import { LIMITS, RANGES } from "./limits";
import {
  fields,
  isFields,
  join,
  legs,
  list,
  number,
  oneOf,
  orNull,
  type Reader,
  show,
  text,
  whole,
  yes,
} from "./reader";
import { type CheckSession, FORMAT, type SetupFile, VERSION } from "./schema";

const id = text("", LIMITS.note);

const piece = fields<Piece>({
  id,
  name: text("Piece", LIMITS.note),
  kind: oneOf(
    ["kick", "snare", "hat", "tom", "floor", "ride", "crash", "percussion", "overhead", "other"],
    "other",
  ),
  x: number(RANGES.metres, 0),
  y: number(RANGES.metres, 0),
  limbs: list(oneOf(["hand", "kick-foot", "hat-foot", "whole"], "hand"), 4),
  player: text("drummer", LIMITS.note),
});

const kit = fields<Kit>({
  hand: oneOf(["right", "left", "open"], "right"),
  yaw: number(RANGES.degrees, 0),
  pieces: list(piece, LIMITS.pieces),
});

const console = fields<Console>({
  law: oneOf(["sine", "root", "linear", "mean45", "sine45", "cosine2", "custom"], BLANK_CONSOLE.law),
  centreDb: number(RANGES.centre, BLANK_CONSOLE.centreDb),
  reference: oneOf(["sides", "centre"], BLANK_CONSOLE.reference),
  twoChannel: oneOf(["balance-linear", "balance-sine", "pan"], BLANK_CONSOLE.twoChannel),
  panStyle: oneOf(["steps", "midi", "clock"], BLANK_CONSOLE.panStyle),
  panSteps: whole(RANGES.panSteps, BLANK_CONSOLE.panSteps),
  levelStep: number(RANGES.levelStep, BLANK_CONSOLE.levelStep),
  rms: oneOf(["sample", "aes17"], BLANK_CONSOLE.rms),
  outputDbu: number(RANGES.output, BLANK_CONSOLE.outputDbu),
});

const source = fields<Source>({
  id,
  name: text("Source", LIMITS.note),
  kind: oneOf(["drum", "voice", "bass", "guitar", "keys", "horn", "playback", "talk", "other"], "other"),
  piece: orNull(id),
  channels: oneOf([1, 2], 1),
  pan: number(RANGES.pan, 0),
  muted: yes(false),
  inverted: yes(false),
  level: orNull(number(RANGES.level, null)),
  peak: orNull(number(RANGES.level, null)),
  keepSides: yes(false),
});

const send = fields<Send>({
  source: id,
  level: orNull(number(RANGES.send, 0)),
  pan: orNull(number(RANGES.pan, 0)),
});

const trim = number(RANGES.trim, 0);

const sum = fields<Sum>({
  id,
  name: text("Sum", LIMITS.note),
  stereo: yes(true),
  sends: list(send, LIMITS.sources),
  trim,
  legTrim: legs(trim),
  legInverted: legs(yes(false)),
  unevenLegs: yes(BLANK_SUM.unevenLegs),
  reversed: yes(BLANK_SUM.reversed),
  folded: yes(BLANK_SUM.folded),
  padDb: number(RANGES.pad, BLANK_SUM.padDb),
});

const listener = fields<Listener>({
  id,
  name: text("Listener", LIMITS.note),
  kind: oneOf(["drummer", "performer", "audience"], "performer"),
  x: number(RANGES.metres, 0),
  y: number(RANGES.metres, 0),
  facing: number(RANGES.degrees, 0),
  sum: orNull(id),
  flipped: yes(false),
  mono: yes(false),
});

const side = ["left", "right"] as const;

const feeds: { readonly [K in Feed["kind"]]: Reader<Feed> } = {
  source: fields<Extract<Feed, { kind: "source" }>>({
    kind: oneOf(["source"], "source"),
    source: id,
    channel: oneOf(["both", ...side], "both"),
    tap: oneOf(["before-filter", "before-eq", "before-fader", "after-fader"], "before-fader"),
  }),
  leg: fields<Extract<Feed, { kind: "leg" }>>({
    kind: oneOf(["leg"], "leg"),
    sum: id,
    leg: oneOf(side, "left"),
  }),
};

/** One that names nothing leaves the slot free when references are mended. */
const feed: Reader<Feed> = (value, at, say) => {
  const kind = isFields(value) ? value.kind : value;
  return (kind === "leg" ? feeds.leg : feeds.source)(value, at, say);
};

const slot = fields<Slot>({ feed, on: yes(true), trim });

const monitor = fields<Monitor>({
  slotCount: whole(RANGES.slotCount, BLANK_MONITOR.slotCount),
  slots: list(orNull(slot), LIMITS.slots),
  inputMaxDbu: number(RANGES.input, BLANK_MONITOR.inputMaxDbu),
});

const wishes = fields<Wishes>({
  first: id,
  houseFixed: yes(BLANK_WISHES.houseFixed),
  slotsFixed: yes(BLANK_WISHES.slotsFixed),
  margin: number(RANGES.margin, BLANK_WISHES.margin),
});

const ear = fields<Ear>({
  unit: oneOf(["dB/mW", "dB/V"], TYPICAL_EAR.unit),
  sensitivity: number(RANGES.sensitivity, TYPICAL_EAR.sensitivity),
  impedance: number(RANGES.impedance, TYPICAL_EAR.impedance),
  sourceImpedance: number(RANGES.sourceImpedance, TYPICAL_EAR.sourceImpedance),
  drive: number(RANGES.drive, TYPICAL_EAR.drive),
  isolation: number(RANGES.isolation, TYPICAL_EAR.isolation),
  stage: number(RANGES.stage, TYPICAL_EAR.stage),
});

/** A measured level; JSON has no −∞, so silence is null in a file. */
const measuredLevel: Reader<number> = (value, at, say) =>
  value === null
    ? Number.NEGATIVE_INFINITY
    : number(RANGES.measured, Number.NEGATIVE_INFINITY)(value, at, say);

const measured = fields<Measured>({
  source: id,
  rms: measuredLevel,
  playing: measuredLevel,
  peak: measuredLevel,
  truePeak: measuredLevel,
  fast: measuredLevel,
  slow: measuredLevel,
});

const figuresOf = fields<Recording>({
  name: text("Recording", LIMITS.note),
  seconds: number(RANGES.seconds, 0),
  sources: list(measured, LIMITS.sources),
  correlation: list(list(number(RANGES.correlation, 0), LIMITS.sources), LIMITS.sources),
});

/** A recording whose correlations are not one for each two sources is left out whole: a wrong figure is worse than none. */
const recording: Reader<Recording | null> = (value, at, say) => {
  const read = figuresOf(value, at, say);
  const size = read.sources.length;
  if (read.correlation.length === size && read.correlation.every((row) => row.length === size)) return read;
  say(`${at}.correlation`, `not ${size} rows of ${size}; the recording is left out`);
  return null;
};

const check = fields<CheckSession>({
  listener: id,
  hits: list(
    fields<Hit>({ piece: id, answer: oneOf(["left", "middle", "right", "nothing", "unclear"], "unclear") }),
    LIMITS.hits,
  ),
});

const lineCheck: Reader<SetupFile["lineCheck"]> = (value, at, say) => {
  if (!isFields(value))
    say(at, `${show(value)}${value === undefined ? "" : " is not an object"}; none taken`);
  const ticks = Object.entries(isFields(value) ? value : {});
  return Object.fromEntries(ticks.map(([key, tick]) => [key, yes(false)(tick, join(at, key), say)]));
};

/** Every field of a setup file of the newest version, with what is taken where it is missing or wrong. */
export const setupFields = fields<SetupFile>({
  format: oneOf([FORMAT], FORMAT),
  version: oneOf([VERSION], VERSION),
  name: text("Unnamed setup", LIMITS.note),
  note: text("", LIMITS.note),
  example: yes(false),
  kit,
  console,
  sources: list(source, LIMITS.sources),
  sums: list(sum, LIMITS.sums),
  listeners: list(listener, LIMITS.listeners),
  monitor,
  wishes,
  ear: orNull(ear),
  recording: orNull(recording),
  check: orNull(check),
  lineCheck,
});
