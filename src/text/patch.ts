import type { PatchFigures } from "../core/inputs/figures";
import type { Statement } from "./statement";
import { formatCount, formatList } from "./words";

/**
 * How the patch stands: how many inputs are used, and whatever is left to do, counted.
 * @param short buses and direct outs that lack headroom
 */
export const describePatch = (
  { usage, issues }: Pick<PatchFigures, "usage" | "issues">,
  inputCount: number,
  short: { readonly buses: number; readonly directOuts: number },
): Statement => {
  const used = `${usage.used.length} of ${formatCount(inputCount, "input")} used`;
  const more = issues.length === 0 ? "" : `${formatCount(issues.length, "issue")}, listed below.`;
  const faults = issues.filter(({ severity }) => severity === "fault").length;
  const lacking = [
    ...(short.buses === 0 ? [] : [formatCount(short.buses, "bus", "buses")]),
    ...(short.directOuts === 0 ? [] : [formatCount(short.directOuts, "direct out")]),
  ];
  const headroom = lacking.length === 0 ? [] : [`${formatList(lacking)} short of headroom`];
  if (usage.tooMany > 0)
    return {
      tone: "wrong",
      says: `${formatCount(usage.tooMany, "feed")} too many for ${formatCount(inputCount, "input")}`,
      more,
    };
  if (usage.used.length === 0) return { tone: "care", says: "No inputs assigned yet", more };
  const wrong = faults === 0 ? [] : [`${formatCount(faults, "fault")} in the patch`];
  const toCheck =
    faults > 0 || issues.length === 0 ? [] : [`${formatCount(issues.length, "issue")} to check`];
  const open = [...wrong, ...toCheck, ...headroom];
  return open.length === 0
    ? { tone: "fine", says: `${used}, no issues`, more }
    : { tone: faults > 0 ? "wrong" : "care", says: [used, ...open].join(", "), more };
};
