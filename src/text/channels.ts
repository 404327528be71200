import type { Bus } from "../core/model/setup";
import { busName } from "./names";
import { type Statement, tickUnless } from "./statement";
import { formatCount } from "./words";

/**
 * What the list of channels shows, in a line.
 * @param bus the one that is shown; undefined where there is none yet
 * @param sounding how many channels sound in it
 * @param short buses that lack headroom
 */
export const describeChannels = (
  bus: Pick<Bus, "name" | "stereo"> | undefined,
  sounding: number,
  channels: number,
  short: number,
): Pick<Statement, "tone" | "says"> => {
  if (channels === 0) return { tone: "care", says: "No channels yet" };
  const tone = tickUnless(short > 0, "fine");
  if (!bus) return { tone, says: "No bus yet: every channel is on its own" };
  if (sounding === 0) return { tone: "care", says: `${busName(bus)} is silent` };
  const kind = bus.stereo ? "stereo" : "mono";
  return { tone, says: `${formatCount(sounding, "channel")} in ${busName(bus)}, ${kind} bus` };
};
