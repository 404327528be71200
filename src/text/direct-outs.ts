import type { DirectOutFigures } from "../core/headroom/direct-outs";
import type { Setup } from "../core/model/setup";
import { formatDb, STAGE_NAMES } from "./headroom";
import { channelName } from "./names";

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
