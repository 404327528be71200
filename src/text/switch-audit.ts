import type { FohReach } from "../core/inputs/foh-reach";
import type { Id, Setup } from "../core/model/setup";
import { busName, channelName } from "./names";
import { formatChannelAt } from "./trace-links";
import { capitalised, formatInputs, formatList } from "./words";

/** What names are looked up in. */
type Names = Pick<Setup, "channels" | "buses">;

/** One way to the ears and what FOH does to it: "Kick, by Drum bus", "cuts it", "no effect". */
export const describeReach = (
  names: Names,
  { channel, bus, byMute, byFader }: FohReach,
): { readonly feed: string; readonly mute: string; readonly fader: string } => ({
  feed: `${channelName(names, channel)}, by ${bus === null ? "direct out" : busName(names.buses.find((b) => b.id === bus))}`,
  mute: byMute ? "cuts it" : "no effect",
  fader: byFader ? "moves it" : "no effect",
});

/** Direct outs that have to be off; "" where there are none. */
export const describeIdle = (names: Names, channels: readonly Id[]): string =>
  channels.length === 0
    ? ""
    : `No monitor input takes the direct ${channels.length === 1 ? "out" : "outs"} of ${formatList(channels.map((id) => formatChannelAt(names, id)))}. Check that ${channels.length === 1 ? "it is" : "they are"} off at the desk.`;

/** Inputs without a port; "" where there are none. */
export const describePortless = (inputs: readonly number[]): string =>
  inputs.length === 0
    ? ""
    : `${capitalised(formatInputs(inputs))} ${inputs.length === 1 ? "has" : "have"} no output port yet. Enter ${inputs.length === 1 ? "it" : "them"} in Patch.`;
