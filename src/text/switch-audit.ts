import type { FohTake } from "../core/inputs/foh-reach";
import type { Id, Setup } from "../core/model/setup";
import { busName, channelName } from "./names";
import { formatChannelAt } from "./trace-links";
import { capitalised, formatInputs, formatList } from "./words";

/** What names are looked up in. */
type Names = Pick<Setup, "channels" | "buses">;

/** What FOH does to some of the ways: "cuts it", "cuts Drum bus, not its direct out". */
const describeDone = (
  names: Names,
  does: "cuts" | "moves",
  { ways }: FohTake,
  done: FohTake["ways"],
): string => {
  if (done.length === 0) return "no effect";
  if (done.length === ways.length) return `${does} it`;
  const named = (some: FohTake["ways"]): string =>
    formatList(
      some.map((bus) => (bus === null ? "its direct out" : busName(names.buses.find((b) => b.id === bus)))),
    );
  return `${does} ${named(done)}, not ${named(ways.filter((way) => !done.includes(way)))}`;
};

/** One channel in a musician’s ears, and what FOH does to it: "Kick", "cuts it", "no effect". */
export const describeTake = (
  names: Names,
  take: FohTake,
): { readonly channel: string; readonly mute: string; readonly fader: string } => ({
  channel: channelName(names, take.channel),
  mute: describeDone(names, "cuts", take, take.cut),
  fader: describeDone(names, "moves", take, take.moved),
});

/** Direct outs that have to be off; "" where there are none. */
export const describeIdle = (names: Names, channels: readonly Id[]): string =>
  channels.length === 0
    ? ""
    : `The direct ${channels.length === 1 ? "out" : "outs"} of ${formatList(channels.map((id) => formatChannelAt(names, id)))} ${channels.length === 1 ? "feeds" : "feed"} no monitor input. Check that ${channels.length === 1 ? "it is" : "they are"} off at the desk.`;

/** Inputs without a port; "" where there are none. */
export const describePortless = (inputs: readonly number[]): string =>
  inputs.length === 0
    ? ""
    : `${capitalised(formatInputs(inputs))} ${inputs.length === 1 ? "has" : "have"} no output port yet. Enter ${inputs.length === 1 ? "it" : "them"} in Patch.`;
