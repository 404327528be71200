import type { Action } from "../model/setup";
import { FOLDED, gains, STRAIGHT, type Wiring } from "./wiring";

/** What an action changes on the way from the bus to the ears, and what it costs. */
export interface ActionRecord {
  /** The overheads are out of the bus. */
  readonly mutesOverheads: boolean;
  /** At the monitor inputs of the listener's own mixer. */
  readonly atInputs: Wiring;
  /** At the output of the listener's own mixer. */
  readonly atOutput: Wiring;
  /** What the first hit with it costs, in hits: somebody has to do it. A design choice. */
  readonly cost: number;
}

/**
 * The one table of actions: mute the overheads in the bus; do that and fold to mono at the listener's own mixer; mute the
 * second monitor input of the pair there; listen with one ear, by the balance there.
 */
export const ACTIONS: Readonly<Record<Action, ActionRecord>> = {
  "mute-overheads": { mutesOverheads: true, atInputs: STRAIGHT, atOutput: STRAIGHT, cost: 2 },
  // The overheads are two sounds on two sides: they would be left over where the rest cancels.
  mono: { mutesOverheads: true, atInputs: STRAIGHT, atOutput: FOLDED, cost: 2 },
  "first-input": { mutesOverheads: false, atInputs: gains(1, 0), atOutput: STRAIGHT, cost: 2 },
  "balance-left": { mutesOverheads: false, atInputs: STRAIGHT, atOutput: gains(1, 0), cost: 2 },
  "balance-right": { mutesOverheads: false, atInputs: STRAIGHT, atOutput: gains(0, 1), cost: 2 },
};

/** A hit by itself. */
export const NO_ACTION: ActionRecord = {
  mutesOverheads: false,
  atInputs: STRAIGHT,
  atOutput: STRAIGHT,
  cost: 1,
};
