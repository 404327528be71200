import { nameOf, sumCalled } from "../../core/called";
import { TAP_ADVICE } from "../../core/patch/taps";
import type { Feed, Setup } from "../../core/setup";

/** Everything that a slot can take, as a list for choosing. */
export const feedOptions = (setup: Setup): readonly (readonly [key: string, name: string, feed: Feed])[] => {
  const legs = setup.sums.flatMap((sum) => {
    const name = sumCalled(sum);
    const sides = sum.stereo ? (["left", "right"] as const) : (["left"] as const);
    return sides.map((leg): readonly [string, string, Feed] => [
      `leg ${sum.id} ${leg}`,
      sum.stereo ? `${name}, ${leg} leg` : `${name}, mono sum`,
      { kind: "leg", sum: sum.id, leg },
    ]);
  });
  const sources = setup.sources.flatMap((source) => {
    const name = nameOf(source, "source");
    const channels = source.channels === 1 ? (["both"] as const) : (["left", "right", "both"] as const);
    return channels.map((channel): readonly [string, string, Feed] => [
      `source ${source.id} ${channel}`,
      source.channels === 1
        ? name
        : channel === "both"
          ? `${name}, both to mono`
          : `${name}, ${channel} channel`,
      { kind: "source", source: source.id, channel, tap: TAP_ADVICE[source.kind].better },
    ]);
  });
  return [...legs, ...sources];
};

/** The key of a feed in that list; "" for none. */
export const feedKey = (feed: Feed | undefined): string => {
  if (!feed) return "";
  return feed.kind === "leg" ? `leg ${feed.sum} ${feed.leg}` : `source ${feed.source} ${feed.channel}`;
};
