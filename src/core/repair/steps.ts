import { firstFree, usageOf } from "../patch/usage";
import { hasBothSlots, slotOfLeg, withPairSwapped } from "../patched";
import type { Id, Monitor, Setup, Slot, Sum } from "../setup";
import type { Db, Legs, Pan } from "../units";
import { withSum } from "../withsum";

/** A pan that is set. */
export interface PanMove {
  readonly source: Id;
  readonly from: Pan;
  /** On the console's steps. */
  readonly to: Pan;
  /** It followed the house pan before. */
  readonly followed: boolean;
  /** What rounding to the console's steps costs, dB. */
  readonly error: Db;
}

/** One thing to do. */
export type Step =
  /** The legs change places; `slots` are those of the left and right leg afterwards, null when they have none. */
  | { readonly step: "swap"; readonly sum: Id; readonly slots: Legs<number> | null }
  | { readonly step: "fold"; readonly sum: Id }
  | ({ readonly step: "pan"; readonly sum: Id } & PanMove)
  | ({ readonly step: "house pan" } & PanMove)
  | { readonly step: "flip"; readonly listener: Id; readonly flipped: boolean }
  /** A copy of a sum for one listener alone, with the slots of its left and right leg and what is panned in it. */
  | {
      readonly step: "own pair";
      readonly listener: Id;
      readonly of: Id;
      readonly copy: Sum;
      readonly slots: Legs<number>;
      readonly trims: Legs<Db>;
      readonly off: Legs<boolean>;
      readonly pans: readonly PanMove[];
    };

/** Where the legs of a pair lie once it is swapped; null where one of them has no slot. */
export const slotsSwapped = (monitor: Monitor, sum: Sum): Legs<number> | null => {
  if (!hasBothSlots(monitor, sum)) return null;
  return [slotOfLeg(monitor, sum, "right"), slotOfLeg(monitor, sum, "left")];
};

/** Two free slots: neighbours where there are any. Null without room. */
export const roomForPair = (setup: Setup): Legs<number> | null => {
  const [first, second] = firstFree(setup.monitor, 2) ?? usageOf(setup).free;
  return first === undefined || second === undefined ? null : [first, second];
};

const withOwnPair = (setup: Setup, step: Step & { readonly step: "own pair" }): Setup => {
  const leg = (at: 0 | 1): Slot => ({
    feed: { kind: "leg", sum: step.copy.id, leg: at === 0 ? "left" : "right" },
    on: !step.off[at],
    trim: step.trims[at],
  });
  const length = Math.max(setup.monitor.slots.length, step.slots[0] + 1, step.slots[1] + 1);
  const slots = Array.from({ length }, (_, i) => setup.monitor.slots[i] ?? null);
  slots[step.slots[0]] = leg(0);
  slots[step.slots[1]] = leg(1);
  const at = setup.sums.findIndex((s) => s.id === step.of) + 1;
  return {
    ...setup,
    sums: [...setup.sums.slice(0, at), step.copy, ...setup.sums.slice(at)],
    listeners: setup.listeners.map((l) => (l.id === step.listener ? { ...l, sum: step.copy.id } : l)),
    monitor: { ...setup.monitor, slots },
  };
};

/** The setup with one step done. */
export const withStep = (setup: Setup, step: Step): Setup => {
  switch (step.step) {
    case "swap": {
      const sum = setup.sums.find((s) => s.id === step.sum);
      return sum ? withPairSwapped(setup, sum) : setup;
    }
    case "fold":
      return withSum(setup, step.sum, (sum) => ({ ...sum, folded: true }));
    case "pan":
      return withSum(setup, step.sum, (sum) => ({
        ...sum,
        sends: sum.sends.map((s) => (s.source === step.source ? { ...s, pan: step.to } : s)),
      }));
    case "house pan":
      return {
        ...setup,
        sources: setup.sources.map((s) => (s.id === step.source ? { ...s, pan: step.to } : s)),
      };
    case "flip":
      return {
        ...setup,
        listeners: setup.listeners.map((l) => (l.id === step.listener ? { ...l, flipped: step.flipped } : l)),
      };
    case "own pair":
      return withOwnPair(setup, step);
  }
};
