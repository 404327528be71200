import { alike } from "./amend";
import type { Command } from "./command";
import type { SetupFile } from "./schema";

/** A setup that can be gone back (or forward) to, and what would be undone (or redone) by that. */
interface Stop {
  readonly label: string;
  readonly file: SetupFile;
}

/** Whole setups in the order in which they were; unchanged parts are shared between them. */
export interface History {
  /** Oldest first. */
  readonly past: readonly Stop[];
  readonly present: SetupFile;
  /** Nearest first. */
  readonly future: readonly Stop[];
  /** Key of the visit under way: the finger that is down, the field that is edited. */
  readonly visit: string | null;
}

/** How many steps can be undone. */
export const MAX_STEPS = 200;

/** A history that begins with a setup. */
export const beginHistory = (present: SetupFile): History => ({ past: [], present, future: [], visit: null });

/** The history after a command; the same object when the command changed nothing. */
export const record = (history: History, command: Command): History => {
  const { past, present, visit } = history;
  const file = command.apply(present);
  if (file === present) return history;
  if (command.key !== null && visit === command.key) return { ...history, present: file };
  return {
    past: [...past, { label: command.label, file: present }].slice(-MAX_STEPS),
    present: file,
    future: [],
    visit: command.key,
  };
};

/** The history once a visit is over: the next is an undo of its own; one that ended as it began is none. */
export const settle = (history: History): History => {
  if (history.visit === null) return history;
  const last = history.past.at(-1);
  return last && alike(last.file, history.present)
    ? { ...history, past: history.past.slice(0, -1), present: last.file, visit: null }
    : { ...history, visit: null };
};

/** The history with another name for what the setup is called now, in every step that calls it so. */
export const named = ({ past, present, future, visit }: History, name: string): History => {
  const file = (was: SetupFile): SetupFile => (was.name === present.name ? { ...was, name } : was);
  const stop = (at: Stop): Stop => ({ ...at, file: file(at.file) });
  return { past: past.map(stop), present: file(present), future: future.map(stop), visit };
};

/** One step back; the same object when there is none. */
export const back = (history: History): History => {
  const last = history.past.at(-1);
  if (!last) return history;
  return {
    past: history.past.slice(0, -1),
    present: last.file,
    future: [{ label: last.label, file: history.present }, ...history.future],
    visit: null,
  };
};

/** One step forward again; the same object when there is none. */
export const forward = (history: History): History => {
  const [next, ...future] = history.future;
  if (!next) return history;
  return {
    past: [...history.past, { label: next.label, file: history.present }],
    present: next.file,
    future,
    visit: null,
  };
};
