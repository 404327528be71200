import { computed, type ReadonlySignal, signal } from "@preact/signals";
import { applyPlan } from "../../core/allocate/apply";
import type { AllocationProblem, BusPin, Pin } from "../../core/allocate/model";
import { type Allocation, type AllocationPlan, allocate } from "../../core/allocate/plans";
import { type HandPins, problemOf } from "../../core/allocate/problem";
import { arePlansShort } from "../../core/at-once";
import { deskMoves } from "../../core/inputs/desk-list";
import type { Id } from "../../core/model/setup";
import { replaceSetup } from "../../document/commands/apply";
import { current } from "../../document/store";
import { shelf } from "../../shelf/here";
import { allocatedBusName } from "../../text/allocate";
import { formatCount } from "../../text/words";
import { runPlanChange } from "../act";
import type { BlockPin } from "./blocks";

const NO_PINS: HandPins = { channels: new Map(), buses: [] };

/** What was pinned, and of which setup: in another one the same ids are other channels. */
const pinned = signal<{ readonly of: string | null; readonly pins: HandPins }>({ of: null, pins: NO_PINS });

/** What is pinned in the open setup. */
export const pins: ReadonlySignal<HandPins> = computed(() =>
  pinned.value.of === shelf.openId.value ? pinned.value.pins : NO_PINS,
);

const setPins = (next: HandPins): void => {
  pinned.value = { of: shelf.openId.peek(), pins: next };
};

/** What the open setup asks, worked out while the screen looks. */
export const problem: ReadonlySignal<AllocationProblem> = computed(() =>
  problemOf(current.value, pins.value),
);

/** What is asked, in one object as long as it stays the same. */
export const plansAsked = computed(() => ({ problem: problem.value }));
const searched = signal<{ readonly of: AllocationProblem; readonly it: Allocation } | null>(null);

/** Plans for it, worked out while the screen looks; null while they are searched elsewhere. */
export const allocation: ReadonlySignal<Allocation | null> = computed(() => {
  const of = problem.value;
  if (arePlansShort(of)) return allocate(of);
  return searched.value?.of === of ? searched.value.it : null;
});

/** Takes in plans that were searched elsewhere. */
export const takeAllocation = (of: AllocationProblem, it: Allocation): void => {
  searched.value = { of, it };
};

/** HandPins a channel; null lets it go. */
export const pinChannel = (channel: Id, pin: Pin | null): void => {
  const channels = new Map(pins.peek().channels);
  if (pin) channels.set(channel, pin);
  else channels.delete(channel);
  setPins({ ...pins.peek(), channels });
};

/** Lets a bus go. */
export const unpinBus = ({ bus }: BusPin): void =>
  setPins({ ...pins.peek(), buses: pins.peek().buses.filter((pin) => pin.bus !== bus) });

/** HandPins a block where it stands; one that is pinned there is let go. */
export const toggleBlock = (block: BlockPin, isPinned: boolean): void => {
  if (block.of === "channel") pinChannel(block.channel, isPinned ? null : block.pin);
  else if (isPinned) unpinBus(block.pin);
  else {
    const others = pins.peek().buses.filter(({ bus }) => bus !== block.pin.bus);
    setPins({ ...pins.peek(), buses: [...others, block.pin] });
  }
};

/**
 * Makes a plan the setup’s, as one step, and says how much is to be set at the desk.
 * @param asked what the plan answers
 */
export const applyAs = (
  label: string,
  says: string,
  asked: AllocationProblem,
  plan: AllocationPlan,
): void => {
  const before = current.peek();
  const after = applyPlan(before, asked, plan, allocatedBusName);
  runPlanChange(
    replaceSetup(label, () => after),
    `${says} ${formatCount(deskMoves(before, after).length, "thing")} to set at the desk.`,
  );
};

/** Makes one of the plans that the screen shows the setup’s. */
export const apply = (plan: AllocationPlan): void =>
  applyAs("apply plan", "Plan applied.", problem.peek(), plan);
