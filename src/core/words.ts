import { sourceCalled, sumCalled } from "./called";
import { printSigned } from "./number";
import type { Id, Setup } from "./setup";
import type { Db } from "./units";

/** "a", "a and b", "a, b and c". */
export const listed = (items: readonly string[]): string =>
  items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items.at(-1)}`;

/** "slot 3", "slots 3 and 4": numbers from 1 for indexes from 0. */
export const slotsSaid = (indexes: readonly number[]): string =>
  `${indexes.length === 1 ? "slot" : "slots"} ${listed(indexes.map((i) => String(i + 1)))}`;

/** Name of a source or a sum, for a sentence. */
export const thingCalled = (
  setup: Pick<Setup, "sources" | "sums">,
  kind: "source" | "sum",
  id: Id,
): string => (kind === "source" ? sourceCalled(setup, id) : sumCalled(setup.sums.find((s) => s.id === id)));

/** A sentence begins with a capital letter. */
export const sentence = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "1 slot", "3 slots". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** A level change with its sign: "+6.02 dB". */
export const changeSaid = (change: Db): string => `${printSigned(change, 2)} dB`;
