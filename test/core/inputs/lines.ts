import type { ListLine, ListRow } from "../../../src/core/inputs/list";

/** A line of a list that says everything of a channel. */
export const wholeLine = ({ name, numbers, feeds, ...says }: ListRow): ListLine => ({
  name,
  numbers,
  says: { ...says, feeds },
  otherwise: says,
});

/** What a line of a list comes to as a new channel, with all that it says of its monitor inputs. */
export const wholeRow = ({ name, numbers, says: { feeds = [], ...says }, otherwise }: ListLine): ListRow => ({
  ...otherwise,
  ...says,
  name,
  numbers,
  feeds: feeds.map((feed) => ({ tap: "pre-fader", on: true, trim: 0, ...feed })),
});
