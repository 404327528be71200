import fc from "fast-check";
import { PIECE_KINDS, SOURCE_KINDS } from "../../src/core/kinds";
import { LAWS } from "../../src/core/laws";
import type { Console, Ear, Listener, Piece, Recording, Source, Sum } from "../../src/core/setup";
import type { Command } from "../../src/document/command";
import { replaceSetup } from "../../src/document/commands/apply";
import { answer, endCheck, startCheck, takeBackAnswer, tickSlot } from "../../src/document/commands/check";
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
import { placeSource, placeSum } from "../../src/document/commands/place";
import { forgetRecording, keepRecording } from "../../src/document/commands/recording";
import {
  editConsole,
  editEar,
  editMonitor,
  editWishes,
  rename,
  setNote,
} from "../../src/document/commands/settings";
import { editSlot, moveSlot, setSlot, setSlotCount, swapChannels } from "../../src/document/commands/slots";
import {
  addSource,
  dragPan,
  duplicateSource,
  editSource,
  moveSource,
  removeSource,
} from "../../src/document/commands/sources";
import {
  addSum,
  duplicateSum,
  editSum,
  pullSends,
  removeSum,
  setSend,
  swapPair,
} from "../../src/document/commands/sums";
import { RANGES } from "../../src/document/limits";
import type { SetupFile } from "../../src/document/schema";
import { answers, EAR, measuredOf, within } from "./any";

/** Ids that mostly exist: also one that never does. */
const id = (prefix: string) => fc.integer({ min: 1, max: 20 }).map((n) => `${prefix}${n}`);
const source = id("s");
const piece = id("p");
const sum = id("m").filter((m) => m.length === 2);
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

const slot = fc.record({
  feed: fc.oneof(
    fc.record({
      kind: fc.constant("source" as const),
      source,
      channel: fc.constantFrom("both", "left", "right" as const),
      tap: fc.constantFrom("before-eq", "after-fader" as const),
    }),
    fc.record({ kind: fc.constant("leg" as const), sum, leg: fc.constantFrom("left", "right" as const) }),
  ),
  on: flag,
  trim,
});

/** Every field of a record but its id, each with what it may be. */
const sourceFields = patch<Omit<Source, "id">>({
  name,
  kind: anyOf(SOURCE_KINDS),
  piece: orNull(piece),
  channels: fc.constantFrom(1, 2),
  pan,
  muted: flag,
  inverted: flag,
  level: orNull(within(RANGES.level)),
  peak: orNull(within(RANGES.level)),
  keepSides: flag,
});
const sumFields = patch<Omit<Sum, "id" | "sends">>({
  name,
  stereo: flag,
  trim,
  legTrim: both(trim),
  legInverted: both(flag),
  unevenLegs: flag,
  reversed: flag,
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
  sum: orNull(sum),
  flipped: flag,
  mono: flag,
});
const consoleFields = patch<Console>({
  law: anyOf(LAWS),
  centreDb: within(RANGES.centre),
  reference: fc.constantFrom("sides", "centre"),
  twoChannel: fc.constantFrom("balance-linear", "balance-sine", "pan"),
  panStyle: fc.constantFrom("steps", "midi", "clock"),
  panSteps: fc.integer(RANGES.panSteps),
  levelStep: within(RANGES.levelStep),
  rms: fc.constantFrom("sample", "aes17"),
  outputDbu: within(RANGES.output),
});
const earFields = patch<Ear>(EAR);

/** Figures of some sources, correlated anyhow but alike both ways. */
const recording = fc
  .record({
    name,
    seconds: within(RANGES.seconds),
    sources: fc.uniqueArray(measuredOf(source, within(RANGES.measured)), {
      maxLength: 6,
      selector: (m) => m.source,
    }),
    each: fc.array(within(RANGES.correlation), { minLength: 15, maxLength: 15 }),
  })
  .map(({ each, ...rest }): Recording => {
    const of = (low: number, high: number): number => each[(high * (high - 1)) / 2 + low] ?? 0;
    const correlation = rest.sources.map((_, row) =>
      rest.sources.map((__, column) =>
        row === column ? 1 : of(Math.min(row, column), Math.max(row, column)),
      ),
    );
    return { ...rest, correlation };
  });

/** Any command with any arguments that the types and fields allow, whether they fit the setup or not. */
export const commands: fc.Arbitrary<Command> = fc.oneof(
  orNull(sum).map(addSource),
  source.map(duplicateSource),
  source.map(removeSource),
  fc.tuple(source, source).map((a) => moveSource(...a)),
  fc.tuple(source, sourceFields).map((a) => editSource(...a)),
  fc.tuple(source, pan).map((a) => dragPan(...a)),
  fc.tuple(flag, name).map((a) => addSum(...a)),
  sum.map(removeSum),
  sum.map(duplicateSum),
  fc.tuple(sum, sumFields).map((a) => editSum(...a)),
  fc
    .tuple(sum, source, orNull(patch({ level: orNull(within(RANGES.send)), pan: orNull(pan) })))
    .map((a) => setSend(...a)),
  fc
    .tuple(sum, fc.array(fc.record({ source, to: orNull(within(RANGES.send)) }), { maxLength: 4 }))
    .map((a) => pullSends(...a)),
  sum.map(swapPair),
  source.map(swapChannels),
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
  consoleFields.map(editConsole),
  within(RANGES.input).map((inputMaxDbu) => editMonitor({ inputMaxDbu })),
  patch({ first: listener, houseFixed: flag, slotsFixed: flag, margin: within(RANGES.margin) }).map(
    editWishes,
  ),
  orNull(earFields).map(editEar),
  name.map(rename),
  name.map(setNote),
  source.map(placeSource),
  sum.map(placeSum),
  fc.tuple(index, orNull(slot)).map((a) => setSlot(...a)),
  fc.tuple(index, index).map((a) => moveSlot(...a)),
  fc.integer({ min: 7, max: 24 }).map(setSlotCount),
  fc.tuple(index, patch({ on: flag, trim })).map((a) => editSlot(...a)),
  listener.map(startCheck),
  fc.tuple(piece, answers).map((a) => answer(...a)),
  fc.constant(takeBackAnswer()),
  fc.constant(endCheck()),
  fc.tuple(index, orNull(flag)).map((a) => tickSlot(...a)),
  fc.tuple(recording, flag).map((a) => keepRecording(...a)),
  fc.constant(forgetRecording()),
  within(RANGES.margin).map((margin) =>
    replaceSetup("margin", (s) => ({ ...s, wishes: { ...s.wishes, margin } })),
  ),
);

/** A setup after some commands. */
export const applied = (file: SetupFile, ...done: readonly Command[]): SetupFile =>
  done.reduce((setup, command) => command.apply(setup), file);
