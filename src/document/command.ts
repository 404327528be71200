import type { Excess } from "../text/excess";
import type { SetupFile } from "./schema";

/** One change to a setup. */
export interface Command {
  /** What is done, as it stands behind "Undo". */
  readonly label: string;
  /**
   * What a visit changes: commands with the same key are one undo until the visit ends (the finger lifted, the field
   * left), and none where that ends as it began. Null is undone by itself.
   */
  readonly key: string | null;
  /** The setup after it; the very same object when nothing changes. */
  readonly apply: (file: SetupFile) => SetupFile;
  /** Why it does nothing to a setup; null or missing where it does. */
  readonly refuses?: (file: SetupFile) => Excess | null;
}

/** A change of one value, which may also be made in many small moves. */
export interface EditCommand extends Command {
  /** The value that it changes: thing, id, fields. */
  readonly edits: string;
}

/** A change that is undone by itself. */
export const step = (label: string, apply: Command["apply"]): Command => ({ label, key: null, apply });

/**
 * A change of one value, undone by itself unless it is made `during` a visit.
 * @param edits names the value, so that no two values share an undo
 */
export const edit = (label: string, edits: string, apply: Command["apply"]): EditCommand => ({
  ...step(label, apply),
  edits,
});

/** Names of the fields that a change is about, for the key of an edit. */
export const fieldsOf = (patch: object | null): string => Object.keys(patch ?? {}).join("+");

/** An edit as one move of a visit to what it edits. */
export const during = (change: EditCommand): Command => ({ ...change, key: change.edits });

/** Several commands, one after the other, as one undo. */
export const batch = (label: string, commands: readonly Command[]): Command =>
  step(label, (file) => commands.reduce((now, command) => command.apply(now), file));
