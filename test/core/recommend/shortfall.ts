import type { Criteria } from "../../../src/core/recommend/model";
import { type Best, order } from "./brute";

const sameFirst = (a: Best, b: Best): boolean => a.first.join() === b.first.join();
const sameOthers = (a: Best, b: Best): boolean => a.others.join() === b.others.join();

/** In which criterion a recommendation falls short of the best there is; null where in none. */
export const shortfall = (
  found: Criteria,
  best: Best,
): "first" | "others" | "inputs" | "moves" | "better" | null => {
  const by = order(found, best);
  if (by < 0) return "better";
  if (by === 0) return null;
  if (!sameFirst(found, best)) return "first";
  if (!sameOthers(found, best)) return "others";
  return found.inputs === best.inputs ? "moves" : "inputs";
};
