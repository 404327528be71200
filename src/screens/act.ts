import type { Command } from "../document/command";
import { endDrag, run } from "../document/store";
import { toast } from "./state";

/** Runs a command as part of one visit to a field: undo takes the whole visit back. */
export const typing = (command: Command): void => run({ ...command, kind: "drag" });

/** The visit or the drag is over. */
export const done = (): void => endDrag();

/** Runs a command that takes something away or changes much, and offers the way back. */
export const runWithWord = (command: Command, says: string = command.label): void => {
  run(command);
  toast.value = { says, undo: true };
};
