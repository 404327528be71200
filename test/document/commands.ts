import fc from "fast-check";
import type { TraceAbout, TraceLook } from "../../src/core/inputs/trace";
import { LINK_RULES } from "../../src/core/inputs/trace-links";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import { CHANNEL_KINDS, PIECE_KINDS } from "../../src/core/model/kinds";
import type {
  Bus,
  Channel,
  ChannelRule,
  Colour,
  Desk,
  Earphone,
  Listener,
  Piece,
  Recording,
} from "../../src/core/model/setup";
import type { Side } from "../../src/core/model/units";
import { LAWS } from "../../src/core/pan/laws";
import type { Command } from "../../src/document/command";
import { addChannels } from "../../src/document/commands/add-channels";
import { replaceSetup } from "../../src/document/commands/apply";
import { assignBus, assignChannel } from "../../src/document/commands/assign";
import {
  addBus,
  duplicateBus,
  editBus,
  lowerSends,
  removeBus,
  setSend,
  setSends,
  swapBus,
} from "../../src/document/commands/buses";
import {
  addChannel,
  dragPan,
  duplicateChannel,
  editChannel,
  editChannels,
  moveChannel,
  removeChannel,
} from "../../src/document/commands/channels";
import {
  answer,
  declineAction,
  endCheck,
  startCheck,
  tickInput,
  undoAnswer,
} from "../../src/document/commands/check";
import { editInput, moveInput, setInput, setInputCount, swapLines } from "../../src/document/commands/inputs";
import {
  addPiece,
  editPiece,
  movePiece,
  removePiece,
  setHand,
  setYaw,
} from "../../src/document/commands/kit";
import {
  addListener,
  editListener,
  moveListener,
  removeListener,
} from "../../src/document/commands/listeners";
import { forgetRecording, keepRecording } from "../../src/document/commands/recording";
import { editRules, resetRules } from "../../src/document/commands/rules";
import {
  editDesk,
  editEarphone,
  editMonitorSystem,
  editPreferences,
  rename,
  setNote,
} from "../../src/document/commands/settings";
import { addLook, endTrace, restartTrace, startTrace, undoLook } from "../../src/document/commands/trace";
import { RANGES } from "../../src/document/limits";
import type { SetupFile } from "../../src/document/schema";
import { NOBODY } from "../../src/document/tick-log";
import { actions, answers, EARPHONE, measuredOf, within } from "./any";

/** Ids that mostly exist: also one that never does. */
const id = (prefix: string) => fc.integer({ min: 1, max: 20 }).map((n) => `${prefix}${n}`);
const channel = id("s");
const piece = id("p");
const bus = id("m").filter((m) => m.length === 2);
const listener = id("l");
const flag = fc.boolean();
const pan = fc.oneof(
  fc.integer({ min: -10, max: 10 }).map((n) => n / 10 || 0),
  within(RANGES.pan),
);
const metres = fc.oneof(
  fc.integer({ min: -40, max: 40 }).map((n) => n / 8 || 0),
  within(RANGES.metres),
);
const degrees = within(RANGES.degrees);
const trim = within(RANGES.trim);
const number = fc.integer(RANGES.number);
const numbers = fc.array(number, { maxLength: 2 });
const index = fc.integer({ min: -1, max: 24 });
const orNull = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: null });
const patch = <T extends object>(of: { [K in keyof T]: fc.Arbitrary<T[K]> }) =>
  fc.record(of, { requiredKeys: [] }) as fc.Arbitrary<Partial<T>>;
const name = fc.string({ maxLength: 12 });
const hand = fc.constantFrom("right", "left", "open" as const);
/** Any name in a table of core. */
const anyOf = <K extends string>(table: { readonly [name in K]: unknown }) =>
  fc.constantFrom(...(Object.keys(table) as K[]));
const both = <T>(of: fc.Arbitrary<T>) => fc.tuple(of, of);

const input = fc.record({
  feed: fc.oneof(
    fc.record({
      kind: fc.constant("channel" as const),
      channel,
      side: fc.constantFrom("both", "left", "right" as const),
    }),
    fc.record({ kind: fc.constant("bus" as const), bus, side: fc.constantFrom("left", "right" as const) }),
  ),
  port: orNull(number),
  on: flag,
  trim,
});

/** Every field of a record but its id, each with what it may be. */
const TAPS = ["pre-hpf", "pre-eq", "pre-fader", "post-fader"] as const;
/** What can be changed of a rule. */
const rules = fc
  .record(
    {
      own: fc.constantFrom("must", "prefer", "if-left", "no-matter", "no"),
      stereo: fc.constantFrom("must", "prefer", "no"),
      shares: fc.constantFrom("nobody", "family", "anyone"),
      reach: fc.oneof(fc.constant("all" as const), fc.array(listener, { maxLength: 4 })),
      mayLeaveOut: flag,
      tap: fc.constantFrom(...TAPS),
      send: fc.constantFrom("pre-fader", "post-fader"),
    },
    { requiredKeys: [] },
  )
  .map((rule) => rule as ChannelRule);
const channelFields = patch<Omit<Channel, "id" | "rule">>({
  name,
  numbers,
  fader: orNull(within(RANGES.fader)),
  activity: orNull(within(RANGES.share)),
  directOut: fc.record({ tap: fc.constantFrom(...TAPS), on: flag, trim }),
  colour: orNull(fc.constantFrom<Colour>("red", "grey")),
  group: name,
  extra: fc.array(fc.record({ head: name, value: name }), { maxLength: 3 }),
  kind: anyOf(CHANNEL_KINDS),
  piece: orNull(piece),
  lines: fc.constantFrom(1, 2),
  pan,
  muted: flag,
  inverted: flag,
  gatedRms: orNull(within(RANGES.level)),
  peak: orNull(within(RANGES.level)),
  keepSides: flag,
});
const busFields = patch<Omit<Bus, "id" | "sends">>({
  name,
  numbers,
  fader: orNull(within(RANGES.fader)),
  stereo: flag,
  trim,
  sideTrim: both(trim),
  sideInverted: both(flag),
  unevenSides: flag,
  swapped: flag,
  folded: flag,
  padDb: within(RANGES.pad),
});
const pieceFields = patch<Omit<Piece, "id">>({
  name,
  kind: anyOf(PIECE_KINDS),
  x: metres,
  y: metres,
  limbs: fc.subarray(["hand", "kick-foot", "hat-foot", "whole"] as const),
  player: fc.constantFrom("drummer", "Ike"),
});
const listenerFields = patch<Omit<Listener, "id" | "kind">>({
  name,
  x: metres,
  y: metres,
  facing: degrees,
  bus: orNull(bus),
  flipped: flag,
  mono: flag,
});
const consoleFields = patch<Desk>({
  name,
  channelCount: fc.integer(RANGES.channelCount),
  busCount: fc.integer(RANGES.busCount),
  portCount: fc.integer(RANGES.portCount),
  bankSize: fc.integer(RANGES.bankSize),
  portName: name,
  firstPort: number,
  busOverloads: flag,
  muteRule: fc.record({ preFaderSends: flag, directOuts: fc.subarray([...TAPS]) }),
  trimStep: within(RANGES.levelStep),
  law: anyOf(LAWS),
  centreDb: within(RANGES.centre),
  reference: fc.constantFrom("sides", "centre"),
  stereoLaw: fc.constantFrom("balance-linear", "balance-sine", "pan"),
  panStyle: fc.constantFrom("steps", "midi", "clock"),
  panSteps: fc.integer(RANGES.panSteps),
  levelStep: within(RANGES.levelStep),
  rms: fc.constantFrom("sample", "aes17"),
  outputDbu: within(RANGES.output),
});
const earFields = patch<Earphone>(EARPHONE);

/** Figures of some channels, correlated anyhow but alike both ways. */
const recording = fc
  .record({
    name,
    seconds: within(RANGES.seconds),
    channels: fc.uniqueArray(measuredOf(channel, within(RANGES.measured)), {
      maxLength: 6,
      selector: (m) => m.channel,
    }),
    each: fc.array(within(RANGES.correlation), { minLength: 15, maxLength: 15 }),
  })
  .map(({ each, ...rest }): Recording => {
    const of = (low: number, high: number): number => each[(high * (high - 1)) / 2 + low] ?? 0;
    const correlation = rest.channels.map((_, row) =>
      rest.channels.map((__, column) =>
        row === column ? 1 : of(Math.min(row, column), Math.max(row, column)),
      ),
    );
    return { ...rest, correlation };
  });

const abouts: fc.Arbitrary<TraceAbout> = fc.oneof(
  fc.record({ what: fc.constant("channel" as const), channel, bus: orNull(bus) }),
  fc.record({ what: fc.constant("too loud" as const), channel }),
  fc.record({ what: fc.constant("input" as const), input: index }),
  fc.record({ what: fc.constant("side" as const), side: fc.constantFrom<Side>("left", "right") }),
  fc.constant({ what: "everything" as const }),
);

/** Any command with any arguments that the types and fields allow, whether they fit the setup or not. */
export const commands: fc.Arbitrary<Command> = fc.oneof(
  orNull(bus).map(addChannel),
  fc.tuple(fc.array(channelFields, { maxLength: 3 }), orNull(bus)).map(([fresh, into]) =>
    addChannels(
      fresh.map((c) => ({ ...BLANK_CHANNEL, name: "Channel", ...c, piece: null })),
      into,
    ),
  ),
  channel.map(duplicateChannel),
  channel.map(removeChannel),
  fc.tuple(channel, channel).map((a) => moveChannel(...a)),
  fc.tuple(channel, channelFields).map((a) => editChannel(...a)),
  fc.tuple(fc.array(channel, { maxLength: 3 }), rules).map((a) => editRules(...a)),
  fc.array(channel, { maxLength: 3 }).map(resetRules),
  fc
    .tuple(fc.array(channel, { maxLength: 5 }), channelFields)
    .map(([ids, patch]) => editChannels(ids, () => patch)),
  fc.tuple(channel, pan).map((a) => dragPan(...a)),
  fc.tuple(flag, name).map((a) => addBus(...a)),
  bus.map(removeBus),
  bus.map(duplicateBus),
  fc.tuple(bus, busFields).map((a) => editBus(...a)),
  fc
    .tuple(bus, channel, orNull(patch({ level: orNull(within(RANGES.send)), pan: orNull(pan) })))
    .map((a) => setSend(...a)),
  fc
    .tuple(bus, fc.array(channel, { maxLength: 5 }), orNull(patch({ level: orNull(within(RANGES.send)) })))
    .map((a) => setSends(...a)),
  fc
    .tuple(bus, fc.array(fc.record({ channel, to: orNull(within(RANGES.send)) }), { maxLength: 4 }))
    .map((a) => lowerSends(...a)),
  bus.map(swapBus),
  channel.map(swapLines),
  fc.tuple(anyOf(PIECE_KINDS), name).map((a) => addPiece(...a)),
  fc.tuple(piece, pieceFields).map((a) => editPiece(...a)),
  fc.tuple(piece, metres, metres).map((a) => movePiece(...a)),
  piece.map(removePiece),
  hand.map(setHand),
  degrees.map(setYaw),
  name.map(addListener),
  fc.tuple(listener, listenerFields).map((a) => editListener(...a)),
  fc.tuple(listener, metres, metres).map((a) => moveListener(...a)),
  listener.map(removeListener),
  consoleFields.map(editDesk),
  within(RANGES.input).map((maxInputDbu) => editMonitorSystem({ maxInputDbu: maxInputDbu })),
  patch({ first: listener, fohFixed: flag, inputsFixed: flag, targetHeadroom: within(RANGES.margin) }).map(
    editPreferences,
  ),
  orNull(earFields).map(editEarphone),
  name.map(rename),
  name.map(setNote),
  channel.map(assignChannel),
  bus.map(assignBus),
  fc.tuple(index, orNull(input)).map((a) => setInput(...a)),
  fc.tuple(index, index).map((a) => moveInput(...a)),
  fc.integer({ min: 7, max: 24 }).map(setInputCount),
  fc.tuple(index, patch({ on: flag, trim })).map((a) => editInput(...a)),
  listener.map(startCheck),
  fc.tuple(piece, answers, fc.option(actions)).map((a) => answer(...a)),
  actions.map(declineAction),
  fc.constant(undoAnswer()),
  fc.constant(endCheck()),
  fc.tuple(index, orNull(flag), orNull(listener)).map(([at, said, by]) => tickInput(at, said, NOBODY, by)),
  fc.tuple(listener, abouts).map((a) => startTrace(...a)),
  fc
    .record({
      link: anyOf(LINK_RULES),
      said: fc.constantFrom<TraceLook["said"]>("signal", "no signal", "unseen"),
    })
    .map(addLook),
  fc.constantFrom(undoLook(), restartTrace(), endTrace()),
  fc.tuple(recording, flag).map((a) => keepRecording(...a)),
  fc.constant(forgetRecording()),
  within(RANGES.margin).map((margin) =>
    replaceSetup("margin", (s) => ({ ...s, preferences: { ...s.preferences, targetHeadroom: margin } })),
  ),
);

/** A setup after some commands. */
export const applied = (file: SetupFile, ...done: readonly Command[]): SetupFile =>
  done.reduce((setup, command) => command.apply(setup), file);
