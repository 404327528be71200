import type { Id, Setup, Slot } from "../setup";

/** How bad: the patch does not do what it should; it probably does not; worth knowing. */
export type Severity = "fault" | "warn" | "note";

/** What a check of the patch found. */
export type FlagCode =
  /** More feeds than slots, or something beyond the last slot. */
  | "over"
  /** A source has slots of its own and is inside a patched sum. */
  | "heard twice"
  /** The very same thing in two slots. */
  | "patched twice"
  /** Both legs of a folded sum take a slot and carry the same. */
  | "spare leg"
  /** The two sides of a pair are not neighbours. */
  | "split"
  /** A pair lies in reverse order and is not meant to. */
  | "reversed"
  /** A pair is meant to lie in reverse order and does not. */
  | "straight"
  /** Neighbours, but not an odd slot and the even one after it. */
  | "odd and even"
  | "only one side"
  | "off"
  | "muted"
  | "tap point"
  | "empty sum"
  | "unfed listener"
  | "unfed source"
  | "same name"
  | "nothing fed";

/** One change that puts something right. */
export type Edit =
  /** What a slot takes from now on, by index from 0; null frees it. */
  | { readonly edit: "slot"; readonly index: number; readonly to: Slot | null }
  /** In which order a pair is meant to be patched. */
  | { readonly edit: "meant"; readonly sum: Id; readonly reversed: boolean };

/** What a check of the patch found, and what to do about it. */
export interface PatchFlag {
  readonly code: FlagCode;
  readonly severity: Severity;
  /** Indexes from 0. */
  readonly slots: readonly number[];
  readonly sources: readonly Id[];
  readonly sums: readonly Id[];
  readonly listeners: readonly Id[];
  /** What is so, as a sentence. */
  readonly says: string;
  /** What to do, as a sentence. */
  readonly remedy: string;
  /** The remedy as data for `applyEdits`, where one tap can do it. */
  readonly fix?: readonly Edit[];
}

/** A flag with whatever it does not concern left empty. */
export const flag = (
  code: FlagCode,
  severity: Severity,
  about: Partial<Pick<PatchFlag, "slots" | "sources" | "sums" | "listeners">>,
  says: string,
  remedy: string,
  fix: readonly Edit[] = [],
): PatchFlag => ({
  code,
  severity,
  slots: [],
  sources: [],
  sums: [],
  listeners: [],
  ...about,
  says,
  remedy,
  ...(fix.length > 0 ? { fix } : {}),
});

/** A setup with the changes made, in order; the very same one when there are none. */
export const applyEdits = (setup: Setup, edits: readonly Edit[]): Setup => {
  if (edits.length === 0) return setup;
  const slots = [...setup.monitor.slots];
  let sums = setup.sums;
  for (const edit of edits) {
    if (edit.edit === "slot") {
      while (slots.length <= edit.index) slots.push(null);
      slots[edit.index] = edit.to;
    } else sums = sums.map((s) => (s.id === edit.sum ? { ...s, reversed: edit.reversed } : s));
  }
  return { ...setup, sums, monitor: { ...setup.monitor, slots } };
};
