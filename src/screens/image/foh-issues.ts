import { computed } from "@preact/signals";
import type { Lookup } from "../../core/lib/memo";
import { hearsFoh } from "../../core/model/kinds";
import { fohPanIssues } from "../../core/stereo/foh-pans";
import { busOverheads, type OverheadIssue, overheadIssues } from "../../core/stereo/overheads";
import { current, figures } from "../../document/store";
import { images } from "./heard";

let before: Lookup<OverheadIssue | null> | undefined;

/** What does not fit together at FOH itself: overheads against close microphones, pans against places. */
export const fohIssues = computed(() => {
  const setup = current.value;
  const audience = setup.listeners.filter(hearsFoh).flatMap(({ id }) => images.value.get(id) ?? []);
  before = busOverheads(setup, figures.value.mixed, before);
  const overheads = overheadIssues(setup, before);
  const told = overheads.flatMap((issue) => (issue.where === "foh" ? issue.channels : []));
  const pans = fohPanIssues(setup, audience, told);
  return { overheads, pans, count: overheads.length + pans.length };
});
