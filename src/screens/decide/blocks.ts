import type { AllocationProblem, BusPin, Pin } from "../../core/allocate/model";
import type { AllocationPlan, PlanFeed } from "../../core/allocate/plans";
import type { Id } from "../../core/model/setup";

/** One block of the picture of the inputs: a feed, or an input that nothing uses. */
export interface Block {
  /** From 1. */
  readonly inputs: readonly number[];
  /** Null where the input is free. */
  readonly feed: PlanFeed | null;
}

/** The inputs of a plan as blocks, in order. */
export const blocksOf = ({ feeds, inputsLeft }: Pick<AllocationPlan, "feeds" | "inputsLeft">): Block[] =>
  [
    ...feeds.map((feed): Block => ({ inputs: feed.inputs, feed })),
    ...inputsLeft.map((input): Block => ({ inputs: [input], feed: null })),
  ].sort((a, b) => (a.inputs[0] ?? 0) - (b.inputs[0] ?? 0));

/** What keeps a block where it is when the rest is solved again. */
export type BlockPin =
  | { readonly of: "channel"; readonly channel: Id; readonly pin: Pin }
  | { readonly of: "bus"; readonly pin: BusPin };

/** The pin that holds a feed where it stands; null where there is nothing to hold. */
export const pinOf = ({ bus, inputs, width, channels }: PlanFeed): BlockPin | null => {
  const input = inputs[0] ?? null;
  if (bus) return { of: "bus", pin: { bus: bus.id, width, input } };
  const [channel] = channels;
  return channel === undefined ? null : { of: "channel", channel, pin: { as: "own", width, input } };
};

/** Whether a block is pinned as it stands. */
export const isHeld = (
  problem: Pick<AllocationProblem, "channels" | "busPins">,
  block: BlockPin,
): boolean => {
  const now: unknown =
    block.of === "bus"
      ? problem.busPins.find(({ bus }) => bus === block.pin.bus)
      : problem.channels.find(({ id }) => id === block.channel)?.pin;
  return JSON.stringify(now) === JSON.stringify(block.pin);
};

/** What a channel can be pinned to in a list: an input that was pinned by its block stays until another choice is made. */
export type PinChoice = "free" | "mono" | "stereo" | "shared" | "fold-back" | "out" | "placed";

/** The choice that a pin stands for. */
export const choiceOf = (pin: Pin | null): PinChoice => {
  if (pin === null) return "free";
  if (pin.as !== "own") return pin.as;
  if (pin.input !== null) return "placed";
  return pin.width === 2 ? "stereo" : "mono";
};

/** The pin that a choice stands for; what is placed keeps its place. */
export const pinBy = (choice: PinChoice, now: Pin | null): Pin | null => {
  if (choice === "placed") return now;
  if (choice === "free") return null;
  if (choice === "mono" || choice === "stereo")
    return { as: "own", width: choice === "stereo" ? 2 : 1, input: null };
  return { as: choice };
};
