import { nextId, uniqueName } from "../../core/naming";
import type { Id, Source } from "../../core/setup";
import type { Pan } from "../../core/units";
import { amend, amendIn, insertAfter, kept, mapped, movePast } from "../amend";
import { type Command, drag, step } from "../command";
import { LIMITS } from "../limits";
import { mend } from "../mend";
import type { SetupFile } from "../schema";

const isFull = (file: SetupFile): boolean => file.sources.length >= LIMITS.sources;

/**
 * A new drum microphone at the end, sent at 0 dB into a sum. Nothing happens beyond `LIMITS.sources`.
 * @param into the sum's id; null leaves it in no sum
 */
export const addSource = (into: Id | null): Command =>
  step("add source", (file) => {
    if (isFull(file)) return file;
    const source: Source = {
      id: nextId("s", file.sources),
      name: uniqueName("Source", file.sources),
      kind: "drum",
      piece: null,
      channels: 1,
      pan: 0,
      muted: false,
      inverted: false,
      level: null,
      peak: null,
      keepSides: false,
    };
    return {
      ...file,
      sources: [...file.sources, source],
      sums: mapped(file.sums, (sum) =>
        sum.id === into ? { ...sum, sends: [...sum.sends, { source: source.id, level: 0, pan: null }] } : sum,
      ),
    };
  });

/** A copy of a source right behind it, in the same sums. It takes no slot and no measured figures along. */
export const duplicateSource = (id: Id): Command =>
  step("duplicate source", (file) => {
    const source = file.sources.find((s) => s.id === id);
    if (!source || isFull(file)) return file;
    const copy: Source = {
      ...source,
      id: nextId("s", file.sources),
      name: uniqueName(source.name, file.sources),
    };
    return {
      ...file,
      sources: insertAfter(file.sources, id, copy),
      sums: mapped(file.sums, (sum) => {
        const send = sum.sends.find((s) => s.source === id);
        return send ? { ...sum, sends: [...sum.sends, { ...send, source: copy.id }] } : sum;
      }),
    };
  });

/** Takes a source away with its sends, slots and measured figures. The piece stays: a drum without a microphone still stands there. */
export const removeSource = (id: Id): Command =>
  step("delete source", (file) =>
    mend(amend(file, { sources: kept(file.sources, (source) => source.id !== id) })),
  );

/** Moves a source in the list to the other side of another: of its neighbour among those that are shown. */
export const moveSource = (id: Id, past: Id): Command =>
  step("move source", (file) => amend(file, { sources: movePast(file.sources, id, past) }));

/** Changes what is said of a source. A stereo source made mono frees nothing: its slots take the one channel. */
export const editSource = (id: Id, patch: Partial<Omit<Source, "id">>): Command =>
  step("change source", (file) => mend(amend(file, { sources: amendIn(file.sources, id, patch) })));

/** One move of a house pan under the finger, −1…+1. */
export const dragPan = (id: Id, pan: Pan): Command =>
  drag("pan", (file) => amend(file, { sources: amendIn(file.sources, id, { pan }) }));
