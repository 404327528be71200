import type { PatchFigures } from "../core/inputs/figures";
import type { Statement } from "./statement";
import { formatCount, formatList } from "./words";

/**
 * How the patch stands: how many inputs are used, and whatever is left to do, counted.
 * @param short buses that lack headroom
 */
export const describePatch = (
  { usage, issues }: Pick<PatchFigures, "usage" | "issues">,
  inputCount: number,
  short: number,
): Statement => {
  const used = `${usage.used.length} of ${formatCount(inputCount, "input")} used`;
  const more = issues.length === 0 ? "" : `${formatCount(issues.length, "issue")}, listed below.`;
  const faults = issues.filter(({ severity }) => severity === "fault").length;
  const buses = short === 0 ? [] : [`${formatCount(short, "bus", "buses")} short of headroom`];
  if (usage.tooMany > 0)
    return {
      tone: "wrong",
      says: `${formatCount(usage.tooMany, "feed")} too many for ${formatCount(inputCount, "input")}`,
      more,
    };
  if (usage.used.length === 0) return { tone: "care", says: "No inputs assigned yet", more };
  if (faults > 0)
    return { tone: "wrong", says: `${used}, ${formatCount(faults, "fault")} in the patch`, more };
  const open = issues.length === 0 ? buses : [`${formatCount(issues.length, "issue")} to check`, ...buses];
  return open.length === 0
    ? { tone: "fine", says: `${used}, no issues`, more }
    : { tone: "care", says: `${used}, ${formatList(open)}`, more };
};
