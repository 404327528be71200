import type { DirectOutFigures } from "../core/headroom/direct-outs";
import type { OpenDirectOuts } from "../core/headroom/open-direct-outs";
import type { Setup } from "../core/model/setup";
import { formatDb, STAGE_NAMES } from "./headroom";
import { channelName } from "./names";
import { formatCount, formatList } from "./words";

/** A direct out as a row: channel, peak, headroom and limiting stage. */
export const describeDirectOut = (
  setup: Pick<Setup, "channels">,
  { channel, peak, lowest: { headroom, place, state } }: DirectOutFigures,
): readonly [name: string, peak: string, headroom: string, stage: string] => {
  const name = channelName(setup, channel);
  if (peak === null) return [name, "not entered", "–", "–"];
  if (state === "silent") return [name, "silent", "–", "–"];
  return [name, formatDb(peak), formatDb(headroom), STAGE_NAMES[place].replace(/^the /, "")];
};

/** What of the direct outs needs a look, as a sentence; "" where nothing does. */
export const describeOpenDirectOuts = ({ over, underTarget, unknown }: OpenDirectOuts): string => {
  const outs = (count: number, what: string): string[] =>
    count === 0 ? [] : [`${formatCount(count, "direct out")} ${what}`];
  const parts = [
    ...outs(over, "over"),
    ...outs(underTarget, "under target"),
    ...outs(unknown, "without an entered peak"),
  ];
  return parts.length === 0 ? "" : `${formatList(parts)}, listed below.`;
};
