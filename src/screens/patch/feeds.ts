import type { Feed, Setup } from "../../core/model/setup";
import { linesOf, sidesOf } from "../../core/model/sides";
import { formatFeed, formatFeedKind } from "../../text/sheet";

/** The key of a feed in the list of all of them; "" for none. */
export const feedKey = (feed: Feed | undefined): string => {
  if (!feed) return "";
  return feed.kind === "bus" ? `side ${feed.bus} ${feed.side}` : `channel ${feed.channel} ${feed.side}`;
};

type FeedOption = readonly [key: string, name: string, feed: Feed];

/** Everything that an input can take, as a list for choosing. */
export const feedOptions = (setup: Setup): readonly FeedOption[] => {
  const sides = setup.buses.flatMap((bus) =>
    sidesOf(bus).map((side): FeedOption => {
      const feed: Feed = { kind: "bus", bus: bus.id, side };
      return [
        feedKey(feed),
        `${formatFeed(setup, feed, bus.stereo)}, ${formatFeedKind(feed, bus.stereo)}`,
        feed,
      ];
    }),
  );
  const channels = setup.channels.flatMap((channel) => {
    const stereo = channel.lines === 2;
    const sides = stereo ? ([...linesOf(channel), "both"] as const) : linesOf(channel);
    return sides.map((side): FeedOption => {
      const feed: Feed = { kind: "channel", channel: channel.id, side };
      return [feedKey(feed), `${formatFeed(setup, feed, stereo)}, ${formatFeedKind(feed, stereo)}`, feed];
    });
  });
  return [...sides, ...channels];
};
