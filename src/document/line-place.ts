import type { Id } from "../core/model/setup";

/** Where a line is checked: an input, by its index from 0, at a musician’s mixer or, `null`, anywhere. */
export interface LinePlace {
  readonly index: number;
  readonly listener: Id | null;
}

/** How a place is written in a setup’s `lineCheck`: "3", at the mixer of l2 "3 l2". */
export const lineKey = ({ index, listener }: LinePlace): string =>
  listener === null ? String(index) : `${index} ${listener}`;

/** The place that a key stands for; null where it is none. */
export const linePlace = (key: string): LinePlace | null => {
  const [, index, listener] = /^(0|[1-9]\d{0,2})(?: (.+))?$/s.exec(key) ?? [];
  return index === undefined ? null : { index: Number(index), listener: listener ?? null };
};
