import { keysOf } from "../core/lib/keys";
import { BLANK_BUS, BLANK_SEND } from "../core/model/defaults";
import { ANSWERS, CHANNEL_KINDS, LISTENER_KINDS, PIECE_KINDS } from "../core/model/kinds";
import type {
  Action,
  Bus,
  Channel,
  Colour,
  Desk,
  DirectOut,
  Earphone,
  ExtraColumn,
  Feed,
  Hit,
  Kit,
  Listener,
  MonitorInput,
  MonitorSystem,
  MuteRule,
  Piece,
  Preferences,
  Send,
  TapPoint,
} from "../core/model/setup";
import { LAWS } from "../core/pan/laws";
import { PAN_STYLES } from "../core/pan/notation-styles";
import { BLANK_DESK, BLANK_MONITOR, BLANK_PREFERENCES, TYPICAL_EARPHONE } from "./blank";
import { readDeskTicks, readHanded, readTickLog } from "./desk-tick-field";
import { LIMITS, RANGES } from "./limits";
import { measuredField } from "./measured-field";
import {
  fields,
  glimpse,
  isFields,
  join,
  list,
  number,
  oneOf,
  oneOfOrAbsent,
  orNull,
  type Reader,
  Refusal,
  sides,
  text,
  whole,
  yes,
} from "./reader";
import { recordingField } from "./recording-field";
import { ruleField } from "./rule-field";
import { type CheckSession, FORMAT, type SetupFile, VERSION } from "./schema";
import { readTrace } from "./trace-session";

const id: Reader<string> = (value, at, say) => {
  // The beginning of one could be another's: a file with such ids is none that this app writes.
  if (typeof value === "string" && value.length > LIMITS.id)
    throw new Refusal({ code: "long id", at, letters: value.length, limit: LIMITS.id });
  return text("", LIMITS.id)(value, at, say);
};

const piece = fields<Piece>({
  id,
  name: text("Piece", LIMITS.note),
  kind: oneOf(keysOf(PIECE_KINDS), "other"),
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

const TAPS: readonly TapPoint[] = ["pre-hpf", "pre-eq", "pre-fader", "post-fader"];

/** Every field of a desk, in a setup or by itself. */
export const deskFields = fields<Desk>({
  name: text(BLANK_DESK.name, LIMITS.note),
  channelCount: whole(RANGES.channelCount, BLANK_DESK.channelCount),
  busCount: whole(RANGES.busCount, BLANK_DESK.busCount),
  portCount: whole(RANGES.portCount, BLANK_DESK.portCount),
  bankSize: whole(RANGES.bankSize, BLANK_DESK.bankSize),
  portName: text(BLANK_DESK.portName, LIMITS.note),
  firstPort: whole(RANGES.number, BLANK_DESK.firstPort),
  busOverloads: yes(BLANK_DESK.busOverloads),
  muteRule: fields<MuteRule>({
    preFaderSends: yes(false),
    directOuts: list(oneOf(TAPS, "post-fader"), TAPS.length),
  }),
  trimStep: number(RANGES.levelStep, BLANK_DESK.trimStep),
  law: oneOf(keysOf(LAWS), BLANK_DESK.law),
  centreDb: number(RANGES.centre, BLANK_DESK.centreDb),
  reference: oneOf(["sides", "centre"], BLANK_DESK.reference),
  stereoLaw: oneOf(["balance-linear", "balance-sine", "pan"], BLANK_DESK.stereoLaw),
  panStyle: oneOf(keysOf(PAN_STYLES), BLANK_DESK.panStyle),
  panSteps: whole(RANGES.panSteps, BLANK_DESK.panSteps),
  levelStep: number(RANGES.levelStep, BLANK_DESK.levelStep),
  rms: oneOf(["sample", "aes17"], BLANK_DESK.rms),
  outputDbu: number(RANGES.output, BLANK_DESK.outputDbu),
});

const channel = fields<Channel>({
  id,
  name: text("Channel", LIMITS.note),
  numbers: list(whole(RANGES.number, 1), 2),
  kind: oneOf(keysOf(CHANNEL_KINDS), "other"),
  piece: orNull(id),
  lines: oneOf([1, 2], 1),
  pan: number(RANGES.pan, 0),
  fader: orNull(number(RANGES.fader, 0)),
  muted: yes(false),
  inverted: yes(false),
  gatedRms: orNull(number(RANGES.level, null)),
  activity: orNull(number(RANGES.share, null)),
  peak: orNull(number(RANGES.level, null)),
  keepSides: yes(false),
  directOut: fields<DirectOut>({
    tap: oneOf(TAPS, "pre-fader"),
    on: yes(true),
    trim: number(RANGES.trim, 0),
  }),
  rule: ruleField(id),
  colour: orNull(
    oneOf<Colour>(["red", "orange", "yellow", "green", "teal", "blue", "violet", "grey"], "grey"),
  ),
  group: text("", LIMITS.note),
  extra: list(
    fields<ExtraColumn>({ head: text("", LIMITS.name), value: text("", LIMITS.cell) }),
    LIMITS.extra,
  ),
});

const send = fields<Send>({
  channel: id,
  on: yes(true),
  level: orNull(number(RANGES.send, 0)),
  tap: oneOf(["pre-fader", "post-fader"], BLANK_SEND.tap),
  pan: orNull(number(RANGES.pan, 0)),
});

const trim = number(RANGES.trim, 0);

const bus = fields<Bus>({
  id,
  numbers: list(whole(RANGES.number, 1), 2),
  name: text("Bus", LIMITS.note),
  stereo: yes(true),
  sends: list(send, LIMITS.channels),
  fader: orNull(number(RANGES.fader, 0)),
  trim,
  sideTrim: sides(trim),
  sideInverted: sides(yes(false)),
  unevenSides: yes(BLANK_BUS.unevenSides),
  swapped: yes(BLANK_BUS.swapped),
  folded: yes(BLANK_BUS.folded),
  padDb: number(RANGES.pad, BLANK_BUS.padDb),
  measured: measuredField,
});

const listener = fields<Listener>({
  id,
  name: text("Listener", LIMITS.note),
  kind: oneOf(keysOf(LISTENER_KINDS), "performer"),
  x: number(RANGES.metres, 0),
  y: number(RANGES.metres, 0),
  facing: number(RANGES.degrees, 0),
  bus: orNull(id),
  flipped: yes(false),
  mono: yes(false),
});

const side = ["left", "right"] as const;

const feeds: { readonly [K in Feed["kind"]]: Reader<Feed> } = {
  channel: fields<Extract<Feed, { kind: "channel" }>>({
    kind: oneOf(["channel"], "channel"),
    channel: id,
    side: oneOf(["both", ...side], "both"),
  }),
  bus: fields<Extract<Feed, { kind: "bus" }>>({
    kind: oneOf(["bus"], "bus"),
    bus: id,
    side: oneOf(side, "left"),
  }),
};

/** One that names nothing leaves the input free when references are mended. */
const feed: Reader<Feed> = (value, at, say) => {
  const kind = isFields(value) ? value.kind : value;
  return (kind === "bus" ? feeds.bus : feeds.channel)(value, at, say);
};

const input = fields<MonitorInput>({ feed, port: orNull(whole(RANGES.number, 1)), on: yes(true), trim });

const monitor = fields<MonitorSystem>({
  inputCount: whole(RANGES.inputCount, BLANK_MONITOR.inputCount),
  inputs: list(orNull(input), LIMITS.inputs),
  maxInputDbu: number(RANGES.input, BLANK_MONITOR.maxInputDbu),
  link: oneOf(["analog", "digital"], BLANK_MONITOR.link),
  trimBeforeInput: yes(BLANK_MONITOR.trimBeforeInput),
  mixers: fields<MonitorSystem["mixers"]>({ flip: yes(true), mono: yes(true) }),
});

const wishes = fields<Preferences>({
  first: id,
  fohFixed: yes(BLANK_PREFERENCES.fohFixed),
  inputsFixed: yes(BLANK_PREFERENCES.inputsFixed),
  targetHeadroom: number(RANGES.margin, BLANK_PREFERENCES.targetHeadroom),
});

const ear = fields<Earphone>({
  unit: oneOf(["dB/mW", "dB/V"], TYPICAL_EARPHONE.unit),
  sensitivity: number(RANGES.sensitivity, TYPICAL_EARPHONE.sensitivity),
  impedance: number(RANGES.impedance, TYPICAL_EARPHONE.impedance),
  sourceImpedance: number(RANGES.sourceImpedance, TYPICAL_EARPHONE.sourceImpedance),
  drive: number(RANGES.drive, TYPICAL_EARPHONE.drive),
  isolation: number(RANGES.isolation, TYPICAL_EARPHONE.isolation),
  stage: number(RANGES.stage, TYPICAL_EARPHONE.stage),
});

const ACTIONS = keysOf<Action>({
  "mute-overheads": true,
  mono: true,
  "first-input": true,
  "balance-left": true,
  "balance-right": true,
});

const check = fields<CheckSession>({
  listener: id,
  hits: list(
    fields<Hit>({
      piece: id,
      answer: oneOf(ANSWERS, "unclear"),
      action: oneOfOrAbsent(ACTIONS),
    }),
    LIMITS.hits,
  ),
  declined: (value, at, say) =>
    value === undefined ? undefined : list(oneOf(ACTIONS, "mono"), ACTIONS.length)(value, at, say),
});

const lineCheck: Reader<SetupFile["lineCheck"]> = (value, at, say) => {
  if (!isFields(value)) say({ code: "no ticks", at, given: glimpse(value) });
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
  desk: deskFields,
  channels: list(channel, LIMITS.channels),
  buses: list(bus, LIMITS.buses),
  listeners: list(listener, LIMITS.listeners),
  monitor,
  preferences: wishes,
  earphone: orNull(ear),
  recording: orNull(recordingField(id)),
  check: orNull(check),
  lineCheck,
  deskTicks: readDeskTicks,
  trace: readTrace,
  tickLog: readTickLog,
  handed: readHanded,
});
