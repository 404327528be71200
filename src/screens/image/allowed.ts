import { formatEntry } from "../../core/lib/number";
import { RULES } from "../rules";
import { toast } from "../state";

/** Whether something may stand there, metres from the throne; says so where it may not. */
export const allowed = (x: number, y: number): boolean => {
  const { min, max } = RULES.metres;
  if ([x, y].every((v) => v >= min && v <= max)) return true;
  toast.value = {
    says: `Not moved: places are ${formatEntry(min)} to ${formatEntry(max)} m from the throne`,
    undo: false,
  };
  return false;
};
