import { troubleOf } from "../shelf/trouble";
import { toast } from "./state";

/**
 * Does something that may fail, such as reading what is kept; says so where it does.
 * @param failed how the sentence begins then: "Not copied"
 * @returns whether it went well
 */
export const attempt = async (failed: string, work: () => Promise<unknown>): Promise<boolean> => {
  try {
    await work();
    return true;
  } catch (error) {
    toast.value = { says: `${failed}: ${troubleOf(error)}.`, undo: false };
    return false;
  }
};
