import { formatSigned } from "../core/lib/number";
import type { Id, Setup } from "../core/model/setup";
import type { Db } from "../core/model/units";
import { busName, channelName } from "./names";

/** "a", "a and b", "a, b and c". */
export const formatList = (items: readonly string[]): string =>
  items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;

/** Names in a sentence, cut where it would grow too long. */
const MOST_NAMES = 5;

/** "a, b and c"; of more than five the first four and how many more, and only those are looked up by `name`. */
export const formatFew = <T>(things: readonly T[], name: (thing: T) => string): string =>
  things.length <= MOST_NAMES
    ? formatList(things.map(name))
    : `${things
        .slice(0, MOST_NAMES - 1)
        .map(name)
        .join(", ")} and ${things.length - MOST_NAMES + 1} more`;

/** "input 3", "inputs 3 and 4": numbers from 1 for indexes from 0. */
export const formatInputs = (indexes: readonly number[]): string =>
  `${indexes.length === 1 ? "input" : "inputs"} ${formatList(indexes.map((i) => String(i + 1)))}`;

/** Name of a channel or a bus, for a sentence. */
export const feedName = (
  setup: Pick<Setup, "channels" | "buses">,
  kind: "channel" | "bus",
  id: Id,
): string => (kind === "channel" ? channelName(setup, id) : busName(setup.buses.find((s) => s.id === id)));

/** A sentence begins with a capital letter. */
export const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "1 input", "3 inputs". */
export const formatCount = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** A level change with its sign: "+6.02 dB". */
export const formatChange = (change: Db): string => `${formatSigned(change, 2)} dB`;

/** A sentence as the middle of another: without the stop at its end, of which the other has its own. */
export const clause = (text: string): string => text.replace(/[.!\s]+$/, "");

/** What an error says, as the middle of a sentence; `otherwise` where it says nothing. */
export const reasonOf = (error: unknown, otherwise = "no reason given"): string =>
  clause(error instanceof Error ? error.message : "") || otherwise;
