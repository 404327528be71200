import { computed, type ReadonlySignal, type Signal, signal } from "@preact/signals-core";
import { evaluate, type Figures } from "../core/evaluate";
import { blankSetup } from "./blank";
import type { Command } from "./command";
import { back, beginHistory, forward, named, record, settle } from "./history";
import type { SetupFile } from "./schema";

/** Blank until a setup is loaded. */
const history = signal(beginHistory(blankSetup()));

/** Another tab is editing this setup: nothing is changed here then. */
export const readOnly: Signal<boolean> = signal(false);

/** The setup as it is now. */
export const current: ReadonlySignal<SetupFile> = computed(() => history.value.present);

let before: Figures | undefined;

/** Every figure of it, computed when somebody looks; of what did not change, as before. */
export const figures: ReadonlySignal<Figures> = computed(() => {
  before = evaluate(current.value, before);
  return before;
});

/** What would be undone; null when there is nothing. */
export const canUndo: ReadonlySignal<string | null> = computed(
  () => history.value.past.at(-1)?.label ?? null,
);

/** What would be redone; null when there is nothing. */
export const canRedo: ReadonlySignal<string | null> = computed(() => history.value.future[0]?.label ?? null);

/** Changes the setup; refused while another tab edits it. */
export const run = (command: Command): void => {
  if (!readOnly.value) history.value = record(history.value, command);
};

/** The finger is lifted or the field left: what comes next is an undo of its own. */
export const endVisit = (): void => {
  history.value = settle(history.value);
};

/** Takes the last step back; refused while another tab edits the setup. */
export const undo = (): void => {
  if (!readOnly.value) history.value = back(history.value);
};

/** Does what was undone again; refused while another tab edits the setup. */
export const redo = (): void => {
  if (!readOnly.value) history.value = forward(history.value);
};

/**
 * The setup lies on the shelf by another name than the user gave: it is shown so, whoever edits. No step of theirs, so
 * nothing to undo.
 */
export const nameAsKept = (name: string): void => {
  history.value = named(history.peek(), name);
};

/** Opens a setup: history begins anew. */
export const load = (file: SetupFile): void => {
  history.value = beginHistory(file);
};
