import type { SheetFeed, SheetRow } from "../core/inputs/sheet";
import { isolated } from "../core/lib/direction";
import { formatNumber } from "../core/lib/number";
import { portNumber } from "../core/model/ports";
import type { Desk, Feed, Setup } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { formatDeskNumbers } from "./names";
import { TAP_NAMES } from "./taps";
import { capitalised, feedName } from "./words";

/** What names are looked up in. */
export type SheetNames = Pick<Setup, "channels" | "buses" | "desk">;

/** One column of a sheet, for what is in one of its lines. */
export interface Column<Line> {
  readonly head: string;
  readonly cell: (line: Line, setup: SheetNames) => string;
  /** The number in the cell, which a CSV has in every digit; null where there is none. Absent from a column of words. */
  readonly value?: (line: Line) => number | null;
}

const LETTERS = { left: " L", right: " R", both: "" } as const;

/** Name of what an input takes: "Drum bus L", "Keys R", "Bass". */
export const formatFeed = (setup: SheetNames, feed: Feed, stereo: boolean): string => {
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
export const formatRowName = (setup: SheetNames, { feed }: SheetRow): string =>
  feed ? formatFeed(setup, feed.input.feed, feed.stereo) : "";

const ofFeed =
  (format: (feed: SheetFeed, setup: SheetNames) => string) =>
  ({ feed }: SheetRow, setup: SheetNames): string =>
    feed ? format(feed, setup) : "";

/** Number at the desk of what feeds an input: "Ch 12", "Ch 11–12", "Bus 5". */
export const formatNumbers = (feed: Feed, numbers: readonly number[]): string =>
  `${feed.kind === "bus" ? "Bus" : "Ch"} ${formatDeskNumbers(numbers)}`;

/** An output port by the desk’s own name for it: "Card 9"; counted from 1, from the first port that the desk names. */
export const formatPort = (desk: Pick<Desk, "portName" | "firstPort">, port: number): string =>
  `${isolated(desk.portName)} ${portNumber(desk, port)}`.trim();

/** Trim of the direct out and of the monitor input together, dB. */
const trimOf = ({ directOut, input }: SheetFeed): Db => (directOut?.trim ?? 0) + input.trim;

/** One column of the patch sheet. */
export type SheetColumn = Column<SheetRow>;

type ColumnId = "input" | "name" | "from" | "port" | "tap" | "on" | "trim" | "swapped";

/** The columns of the patch sheet, in their order, for screen, print and CSV alike. */
export const SHEET_COLUMNS: { readonly [column in ColumnId]: SheetColumn } = {
  input: { head: "In", cell: ({ input }) => String(input) },
  name: { head: "Name", cell: (row, setup) => formatRowName(setup, row) },
  from: {
    head: "From",
    cell: ofFeed(({ input, stereo, numbers }) => {
      const kind = capitalised(formatFeedKind(input.feed, stereo));
      return numbers.length === 0 ? kind : `${formatNumbers(input.feed, numbers)}, ${kind.toLowerCase()}`;
    }),
  },
  port: {
    head: "Port",
    cell: ofFeed(({ input: { port } }, { desk }) => (port === null ? "" : formatPort(desk, port))),
  },
  tap: { head: "Tap point", cell: ofFeed(({ directOut }) => (directOut ? TAP_NAMES[directOut.tap] : "")) },
  on: { head: "On", cell: ofFeed(({ on }) => (on ? "on" : "off")) },
  trim: {
    head: "Trim, dB",
    cell: ofFeed((feed) => formatNumber(trimOf(feed), 1)),
    value: ({ feed }) => (feed ? trimOf(feed) : null),
  },
  swapped: { head: "L/R", cell: ofFeed(({ swapped }) => SWAPPED_NAMES[swapped]) },
};
