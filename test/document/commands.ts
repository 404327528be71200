import fc from "fast-check";
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
  removeSum,
  setSend,
  swapPair,
} from "../../src/document/commands/sums";
import type { SetupFile } from "../../src/document/schema";

/** Ids that mostly exist: also one that never does. */
const id = (prefix: string) => fc.integer({ min: 1, max: 20 }).map((n) => `${prefix}${n}`);
const source = id("s");
const piece = id("p");
const sum = id("m").filter((m) => m.length === 2);
const listener = id("l");
const flag = fc.boolean();
const pan = fc.integer({ min: -10, max: 10 }).map((n) => n / 10 || 0);
const metres = fc.integer({ min: -40, max: 40 }).map((n) => n / 8 || 0);
const db = fc.integer({ min: -60, max: 20 });
const index = fc.integer({ min: -1, max: 24 });
const orNull = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: null });
const patch = <T extends object>(of: { [K in keyof T]: fc.Arbitrary<T[K]> }) =>
  fc.record(of, { requiredKeys: [] }) as fc.Arbitrary<Partial<T>>;
const name = fc.string({ maxLength: 12 });
const hand = fc.constantFrom("right", "left", "open" as const);

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
  trim: db,
});

/** Any command with any arguments that the types and fields allow, whether they fit the setup or not. */
export const commands: fc.Arbitrary<Command> = fc.oneof(
  orNull(sum).map(addSource),
  source.map(duplicateSource),
  source.map(removeSource),
  fc.tuple(source, source).map((a) => moveSource(...a)),
  fc
    .tuple(
      source,
      patch({
        name,
        piece: orNull(piece),
        channels: fc.constantFrom(1, 2 as const),
        pan,
        muted: flag,
        level: orNull(db),
      }),
    )
    .map((a) => editSource(...a)),
  fc.tuple(source, pan).map((a) => dragPan(...a)),
  fc.tuple(flag, name).map((a) => addSum(...a)),
  sum.map(removeSum),
  sum.map(duplicateSum),
  fc.tuple(sum, patch({ stereo: flag, reversed: flag, folded: flag, trim: db })).map((a) => editSum(...a)),
  fc.tuple(sum, source, orNull(patch({ level: orNull(db), pan: orNull(pan) }))).map((a) => setSend(...a)),
  sum.map(swapPair),
  source.map(swapChannels),
  fc.tuple(fc.constantFrom("kick", "tom", "crash", "other" as const), name).map((a) => addPiece(...a)),
  fc
    .tuple(piece, patch({ name, kind: fc.constantFrom("kick", "tom", "overhead" as const), x: metres }))
    .map((a) => editPiece(...a)),
  fc.tuple(piece, metres, metres).map((a) => movePiece(...a)),
  piece.map(removePiece),
  hand.map(setHand),
  fc.integer({ min: -180, max: 180 }).map((yaw) => setYaw(yaw || 0)),
  name.map(addListener),
  fc
    .tuple(listener, patch({ name, sum: orNull(sum), flipped: flag, mono: flag }))
    .map((a) => editListener(...a)),
  fc.tuple(listener, metres, metres).map((a) => moveListener(...a)),
  listener.map(removeListener),
  fc.constantFrom("linear", "custom", "sine" as const).map((law) => editConsole({ law })),
  fc.integer({ min: 0, max: 30 }).map((inputMaxDbu) => editMonitor({ inputMaxDbu })),
  listener.map((first) => editWishes({ first })),
  orNull(fc.constant({ impedance: 16 })).map(editEar),
  name.map(rename),
  name.map(setNote),
  fc.tuple(index, orNull(slot)).map((a) => setSlot(...a)),
  fc.tuple(index, index).map((a) => moveSlot(...a)),
  fc.integer({ min: 7, max: 24 }).map(setSlotCount),
  fc.tuple(index, patch({ on: flag, trim: db })).map((a) => editSlot(...a)),
  listener.map(startCheck),
  fc.tuple(piece, fc.constantFrom("left", "nothing" as const)).map((a) => answer(...a)),
  fc.constant(takeBackAnswer()),
  fc.constant(endCheck()),
  fc.tuple(index, orNull(flag)).map((a) => tickSlot(...a)),
  db.map((margin) =>
    replaceSetup("margin", (s) => ({ ...s, wishes: { ...s.wishes, margin: Math.abs(margin) / 2 } })),
  ),
);

/** A setup after some commands. */
export const applied = (file: SetupFile, ...done: readonly Command[]): SetupFile =>
  done.reduce((setup, command) => command.apply(setup), file);
