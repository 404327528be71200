import type { SearchName } from "../core/searches";

/** What a search is doing while it runs, as the beginning of a sentence: "Working out the plans". */
export const SEARCH_LABELS: { readonly [name in SearchName]: string } = {
  check: "Preparing the check",
  ways: "Working out ways to free inputs",
  plans: "Working out the plans",
  "plans otherwise": "Working out what would change",
  recommendation: "Working out the recommendation",
};

/** How a search ended that found nothing, as a sentence. */
export const SEARCH_ENDS = { stopped: "Stopped.", failed: "This could not be worked out." } as const;

/** How the search for what would change a recommendation ended, as a sentence; "" where what it found says enough. */
export const describeWhatIfs = (
  state: "running" | "stopped" | "failed" | "done",
  { done, of, found }: { readonly done: number; readonly of: number; readonly found: number },
): string => {
  if (state === "stopped") return `Stopped after ${done} of ${of} what-ifs.`;
  if (state === "failed") return `${SEARCH_ENDS.failed} Close and open it to try again.`;
  return state === "done" && found === 0 ? "No single what-if would." : "";
};
