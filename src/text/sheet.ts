import type { SheetFeed, SheetRow } from "../core/inputs/sheet";
import { formatNumber } from "../core/lib/number";
import type { Feed, Setup } from "../core/model/setup";
import { TAP_NAMES } from "./taps";
import { capitalised, feedName } from "./words";

/** What names are looked up in. */
type Names = Pick<Setup, "channels" | "buses">;

const LETTERS = { left: " L", right: " R", both: "" } as const;

/** Name of what an input takes: "Drum bus L", "Keys R", "Bass". */
export const formatFeed = (setup: Names, feed: Feed, stereo: boolean): string => {
  const name = feedName(setup, feed.kind, feed.kind === "bus" ? feed.bus : feed.channel);
  return stereo ? `${name}${LETTERS[feed.side]}` : name;
};

/** What sort of feed it is: "stereo bus", "direct out", "direct out, L+R". */
export const formatFeedKind = (feed: Feed, stereo: boolean): string => {
  if (feed.kind === "bus") return stereo ? "stereo bus" : "mono bus";
  return stereo && feed.side === "both" ? "direct out, L+R" : "direct out";
};

/** Marks of a pair that lies swapped. */
export const SWAPPED_NAMES: { readonly [swapped in SheetFeed["swapped"]]: string } = {
  no: "",
  "on purpose": "L/R swapped",
  "by mistake": "L/R swapped by mistake",
};

/** What is written over the knob; "" for a free input. */
export const formatRowName = (setup: Names, { feed }: SheetRow): string =>
  feed ? formatFeed(setup, feed.input.feed, feed.stereo) : "";

const ofFeed =
  (format: (feed: SheetFeed) => string) =>
  ({ feed }: SheetRow): string =>
    feed ? format(feed) : "";

/** One column of the patch sheet. */
export interface SheetColumn {
  readonly head: string;
  readonly cell: (row: SheetRow, setup: Names) => string;
}

type ColumnId = "input" | "name" | "from" | "tap" | "on" | "trim" | "swapped";

/** The columns of the patch sheet, in their order, for screen, print and CSV alike. */
export const SHEET_COLUMNS: { readonly [column in ColumnId]: SheetColumn } = {
  input: { head: "In", cell: ({ input }) => String(input) },
  name: { head: "Name", cell: (row, setup) => formatRowName(setup, row) },
  from: {
    head: "From",
    cell: ofFeed(({ input, stereo }) => capitalised(formatFeedKind(input.feed, stereo))),
  },
  tap: {
    head: "Tap point",
    cell: ofFeed(({ input: { feed } }) => (feed.kind === "channel" ? TAP_NAMES[feed.tap] : "")),
  },
  on: { head: "On", cell: ofFeed(({ input }) => (input.on ? "on" : "off")) },
  trim: { head: "Trim, dB", cell: ofFeed(({ input }) => formatNumber(input.trim, 1)) },
  swapped: { head: "L/R", cell: ofFeed(({ swapped }) => SWAPPED_NAMES[swapped]) },
};
