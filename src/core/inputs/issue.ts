import type { DirectOut, Id, MonitorInput, Setup } from "../model/setup";

/** How bad: the patch does not do what it should; it probably does not; worth knowing. */
export type Severity = "fault" | "warn" | "note";

/** What a check of the patch found. */
export type IssueCode =
  /** More feeds than inputs, or something beyond the last input. */
  | "over"
  /** A source has slots of its own and is inside a patched sum. */
  | "heard twice"
  /** The very same thing in two slots. */
  | "patched twice"
  /** Both legs of a folded sum take a slot and carry the same. */
  | "spare side"
  /** The two sides of a pair are not neighbours. */
  | "split"
  /** A pair lies in reverse order and is not meant to. */
  | "swapped"
  /** A pair is meant to lie in reverse order and does not. */
  | "normal"
  /** Neighbours, but not an odd slot and the even one after it. */
  | "odd and even"
  | "only one side"
  | "off"
  | "muted"
  | "tap point"
  | "empty bus"
  | "unfed listener"
  | "unfed channel"
  | "same name"
  | "nothing fed";

/** One change that puts something right. */
export type Edit =
  /** What an input takes from now on, by index from 0; null frees it. */
  | { readonly edit: "input"; readonly index: number; readonly to: MonitorInput | null }
  /** In which order a pair is meant to be patched. */
  | { readonly edit: "direct out"; readonly channel: Id; readonly to: DirectOut }
  | { readonly edit: "meant"; readonly bus: Id; readonly swapped: boolean };

/** What a check of the patch found, and what to do about it. */
export interface PatchIssue {
  readonly code: IssueCode;
  readonly severity: Severity;
  /** Indexes from 0. */
  readonly inputs: readonly number[];
  readonly channels: readonly Id[];
  readonly buses: readonly Id[];
  readonly listeners: readonly Id[];
  /** What is so, as a sentence. */
  readonly says: string;
  /** What to do, as a sentence. */
  readonly remedy: string;
  /** The remedy as data for `applyEdits`, where one tap can do it. */
  readonly fix?: readonly Edit[];
}

/** A flag with whatever it does not concern left empty. */
export const issue = (
  code: IssueCode,
  severity: Severity,
  about: Partial<Pick<PatchIssue, "inputs" | "channels" | "buses" | "listeners">>,
  says: string,
  remedy: string,
  fix: readonly Edit[] = [],
): PatchIssue => ({
  code,
  severity,
  inputs: [],
  channels: [],
  buses: [],
  listeners: [],
  ...about,
  says,
  remedy,
  ...(fix.length > 0 ? { fix } : {}),
});

/** A setup with the changes made, in order; the very same one when there are none. */
export const applyEdits = (setup: Setup, edits: readonly Edit[]): Setup => {
  if (edits.length === 0) return setup;
  const inputs = [...setup.monitor.inputs];
  let { buses, channels } = setup;
  for (const edit of edits) {
    if (edit.edit === "input") {
      while (inputs.length <= edit.index) inputs.push(null);
      inputs[edit.index] = edit.to;
    } else if (edit.edit === "direct out") {
      channels = channels.map((c) => (c.id === edit.channel ? { ...c, directOut: edit.to } : c));
    } else buses = buses.map((s) => (s.id === edit.bus ? { ...s, swapped: edit.swapped } : s));
  }
  return { ...setup, channels, buses, monitor: { ...setup.monitor, inputs } };
};
