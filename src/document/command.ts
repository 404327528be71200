import type { SetupFile } from "./schema";

/**
 * One change to a setup. `kind` says how it enters the history:
 * "step" is undone by itself; "drag" is one undo together with all of its like until the drag ends, and none where
 * that ends as it began.
 */
export interface Command {
  readonly kind: "step" | "drag";
  /** What is done, as it stands behind "Undo". */
  readonly label: string;
  /** The setup after it; the very same object when nothing changes. */
  readonly apply: (file: SetupFile) => SetupFile;
  /** Why it does nothing to a setup, as a sentence; null or missing where it does. */
  readonly refuses?: (file: SetupFile) => string | null;
}

/** A change that is undone by itself. */
export const step = (label: string, apply: Command["apply"]): Command => ({ kind: "step", label, apply });

/** One move of a drag: all moves until the drag ends are one undo. */
export const drag = (label: string, apply: Command["apply"]): Command => ({ kind: "drag", label, apply });
