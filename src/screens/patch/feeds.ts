import { nameOf, sumCalled } from "../../core/called";
import { channelsOf, legsOf } from "../../core/legs";
import { partOf } from "../../core/patch/sheet";
import { TAP_ADVICE } from "../../core/patch/taps";
import type { Feed, Setup } from "../../core/setup";

/** The key of a feed in the list of all of them; "" for none. */
export const feedKey = (feed: Feed | undefined): string => {
  if (!feed) return "";
  return feed.kind === "leg" ? `leg ${feed.sum} ${feed.leg}` : `source ${feed.source} ${feed.channel}`;
};

type FeedOption = readonly [key: string, name: string, feed: Feed];

/** Everything that a slot can take, as a list for choosing. */
export const feedOptions = (setup: Setup): readonly FeedOption[] => {
  const legs = setup.sums.flatMap((sum) =>
    legsOf(sum).map((leg): FeedOption => {
      const feed: Feed = { kind: "leg", sum: sum.id, leg };
      return [feedKey(feed), `${sumCalled(sum)}, ${partOf(feed, sum.stereo)}`, feed];
    }),
  );
  const sources = setup.sources.flatMap((source) => {
    const name = nameOf(source, "source");
    const stereo = source.channels === 2;
    const channels = stereo ? ([...channelsOf(source), "both"] as const) : channelsOf(source);
    return channels.map((channel): FeedOption => {
      const feed: Feed = { kind: "source", source: source.id, channel, tap: TAP_ADVICE[source.kind].better };
      return [feedKey(feed), stereo ? `${name}, ${partOf(feed, stereo)}` : name, feed];
    });
  });
  return [...legs, ...sources];
};
