import { BLANK_SUM } from "../../core/blanksum";
import { nextId, uniqueName } from "../../core/naming";
import { withPairSwapped } from "../../core/patched";
import type { Id, Send, Sum } from "../../core/setup";
import type { Db } from "../../core/units";
import { amend, amendIn, insertAfter, kept, mapped } from "../amend";
import { type Command, step } from "../command";
import { LIMITS } from "../limits";
import { mend } from "../mend";
import type { SetupFile } from "../schema";
import { withoutStaleTicks } from "../ticks";

const isFull = (file: SetupFile): boolean => file.sums.length >= LIMITS.sums;

/** A new empty sum: a pair, or mono. Nothing happens beyond `LIMITS.sums`. */
export const addSum = (stereo: boolean, name = "Sum"): Command =>
  step("add sum", (file) =>
    isFull(file)
      ? file
      : {
          ...file,
          sums: [
            ...file.sums,
            { ...BLANK_SUM, id: nextId("m", file.sums), name: uniqueName(name, file.sums), stereo },
          ],
        },
  );

/** A copy of a sum right behind it, with the same sends; nobody hears it yet and it takes no slots. */
export const duplicateSum = (id: Id): Command =>
  step("duplicate sum", (file) => {
    const sum = file.sums.find((s) => s.id === id);
    if (!sum || isFull(file)) return file;
    const copy = { ...sum, id: nextId("m", file.sums), name: uniqueName(sum.name, file.sums) };
    return { ...file, sums: insertAfter(file.sums, id, copy) };
  });

/** Takes a sum away; its slots are free then and who heard it hears none. */
export const removeSum = (id: Id): Command =>
  step("delete sum", (file) => mend(amend(file, { sums: kept(file.sums, (sum) => sum.id !== id) })));

/** Changes what is said of a sum. A pair made mono frees the slot of its right leg. */
export const editSum = (id: Id, patch: Partial<Omit<Sum, "id">>): Command =>
  step("change sum", (file) => mend(amend(file, { sums: amendIn(file.sums, id, patch) })));

const withSend = (
  file: SetupFile,
  id: Id,
  source: Id,
  patch: Partial<Omit<Send, "source">> | null,
): SetupFile => {
  if (!file.sources.some((s) => s.id === source)) return file;
  const sums = mapped(file.sums, (sum) => {
    if (sum.id !== id) return sum;
    if (patch === null) return amend(sum, { sends: kept(sum.sends, (send) => send.source !== source) });
    const sends = sum.sends.some((send) => send.source === source)
      ? mapped(sum.sends, (send) => (send.source === source ? amend(send, patch) : send))
      : [...sum.sends, { source, level: 0, pan: null, ...patch }];
    return amend(sum, { sends });
  });
  return amend(file, { sums });
};

/** Changes a source's way into a sum; puts it in at 0 dB following the house pan where it was not; null takes it out. */
export const setSend = (sum: Id, source: Id, patch: Partial<Omit<Send, "source">> | null): Command =>
  step(patch === null ? "take out of sum" : "change send", (file) => withSend(file, sum, source, patch));

/** Several sends brought to new levels, dB, as one step; null is off. */
export const pullSends = (
  sum: Id,
  pulls: readonly { readonly source: Id; readonly to: Db | null }[],
): Command =>
  step("pull sends", (file) =>
    pulls.reduce((now, { source, to }) => withSend(now, sum, source, { level: to }), file),
  );

/**
 * Swaps a pair: its legs change slots (each slot keeps its trim and switch) and the plan says so.
 * A pair of which a leg has no slot is only planned the other way round. A mono sum has nothing to swap.
 */
export const swapPair = (id: Id): Command =>
  step("swap pair", (file) => {
    const sum = file.sums.find((s) => s.id === id);
    return sum?.stereo ? withoutStaleTicks(file, withPairSwapped(file, sum)) : file;
  });
