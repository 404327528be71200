import { type Command, during, type EditCommand } from "../document/command";
import { current, readOnly, run } from "../document/store";
import { shelf } from "../shelf/here";
import { describeExcess } from "../text/excess";
import { planBefore, toast } from "./state";

/** Runs a command as part of one visit to a field: undo takes the whole visit back. */
export const typing = (change: EditCommand): void => run(during(change));

/**
 * Runs a command; where nothing changes by it, says why instead of staying silent.
 * @param otherwise why, where it is not that another tab edits
 * @returns whether something changed
 */
export const runOrSay = (command: Command, otherwise: string): boolean => {
  const before = current.peek();
  run(command);
  if (current.peek() !== before) return true;
  const excess = command.refuses?.(before);
  const why = excess ? describeExcess(excess) : otherwise;
  toast.value = { says: readOnly.peek() ? "Not done: another tab is editing" : why, undo: false };
  return false;
};

/** Runs a command that takes something away or changes much, and offers the way back for as long as nothing else is changed. */
export const runWithWord = (command: Command, says: string): void => {
  if (runOrSay(command, "Nothing to change: already set")) toast.value = { says, undo: current.peek() };
};

/** Changes the plan in one tap, and leads from its word to what is now to be set at the desk. */
export const runPlanChange = (command: Command, says: string): void => {
  const file = current.peek();
  if (!runOrSay(command, "Nothing to change: already set")) return;
  planBefore.value = { of: shelf.openId.peek(), file };
  toast.value = { says, undo: current.peek(), atDesk: true };
};
