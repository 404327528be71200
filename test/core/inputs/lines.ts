import type { ListLine, ListRow } from "../../../src/core/inputs/list";
import { BLANK_SEND } from "../../../src/core/model/defaults";

/** A line of a list that says everything of a channel. */
export const wholeLine = ({ name, numbers, feeds, sends, extra, ...says }: ListRow): ListLine => ({
  name,
  numbers,
  says: { ...says, feeds, sends, extra },
  otherwise: says,
});

/** What a line of a list comes to as a new channel, with all that it says of its monitor inputs. */
export const wholeRow = ({
  name,
  numbers,
  says: { feeds = [], sends = [], extra = [], ...says },
  otherwise,
}: ListLine): ListRow => ({
  ...otherwise,
  ...says,
  name,
  numbers,
  feeds: feeds.map((feed) => ({ tap: "pre-fader", on: true, trim: 0, ...feed })),
  sends: sends.map(({ out: _, ...send }) => ({ ...BLANK_SEND, ...send })),
  extra,
});
