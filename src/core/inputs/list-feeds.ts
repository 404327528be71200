import { BLANK_INPUT } from "../model/defaults";
import type { Channel, Id, MonitorInput, Setup, TapPoint } from "../model/setup";
import type { Db, Side } from "../model/units";

/** A monitor input that a channel has of its own. */
export interface ListFeed {
  /** Number as it stands on the mixer, from 1. */
  readonly input: number;
  readonly side: "both" | Side;
  readonly tap: TapPoint;
  readonly on: boolean;
  readonly trim: Db;
}

/** A monitor input that a list names; what the list does not say of it is not there. */
export type NamedFeed = Pick<ListFeed, "input" | "side"> & Partial<ListFeed>;

/** The same without what is the channel’s: where its direct out is taken. */
export type WholeFeed = Omit<ListFeed, "tap">;

/** The monitor inputs that a channel has of its own, in their order. */
export const listFeedsOf = (setup: Setup, { id, directOut }: Channel): ListFeed[] =>
  setup.monitor.inputs.flatMap((input, i) =>
    input?.feed.kind === "channel" && input.feed.channel === id
      ? [{ input: i + 1, side: input.feed.side, tap: directOut.tap, on: input.on, trim: input.trim }]
      : [],
  );

/**
 * Named monitor inputs, whole: what a list does not say stays as it is at the same input, else at another one of the same
 * side that the list moves; a new one is on, without trim.
 * @param before what the channel has now
 */
export const wholeFeeds = (named: readonly NamedFeed[], before: readonly ListFeed[]): WholeFeed[] => {
  const left = before.filter((b) => !named.some((n) => n.input === b.input));
  return named.map(({ tap: _, ...feed }) => {
    const here = before.find((b) => b.input === feed.input);
    const at = left.findIndex((b) => b.side === feed.side);
    const [moved] = here || at < 0 ? [] : left.splice(at, 1);
    const was = here ?? moved;
    return {
      on: was?.on ?? true,
      trim: was?.trim ?? 0,
      ...feed,
    };
  });
};

/**
 * Puts feeds into monitor inputs; one whose input is taken goes into the next free one from there, else the first, or
 * beyond the count.
 * @param inputs is filled
 * @param before as they were: an output port stays with the input that it feeds
 */
export const putFeeds = (
  inputs: (MonitorInput | null)[],
  feeds: readonly (WholeFeed & { readonly channel: Id })[],
  inputCount: number,
  before: readonly (MonitorInput | null)[],
): void => {
  const put = (index: number, input: MonitorInput): void => {
    inputs[index] = { ...input, port: before[index]?.port ?? null };
  };
  const waiting: { readonly index: number; readonly input: MonitorInput }[] = [];
  for (const { input: number, channel, side, on, trim } of feeds) {
    const index = number - 1;
    const input: MonitorInput = { ...BLANK_INPUT, feed: { kind: "channel", channel, side }, on, trim };
    while (inputs.length <= index) inputs.push(null);
    if (inputs[index]) waiting.push({ index, input });
    else put(index, input);
  }
  for (const { index, input } of waiting) {
    while (inputs.length < inputCount) inputs.push(null);
    const after = inputs.indexOf(null, index);
    const free = after < 0 || after >= inputCount ? inputs.indexOf(null) : after;
    put(free < 0 ? inputs.length : free, input);
  }
};
