import { inputsLeft } from "../inputs/usage";
import { isSwapped } from "../mix/pair-order";
import { hearsFoh } from "../model/kinds";
import type { Bus, Listener, Setup } from "../model/setup";
import type { Premises, Situation } from "./model";
import { voicesOf } from "./voices";

/** Whether a listener hears a bus. */
export const isOnBus = (listener: Listener, bus: Bus): boolean =>
  !hearsFoh(listener) && listener.bus === bus.id;

/** Whether a bus brings two different sides, so that there is something to exchange. */
export const hasSides = (bus: Bus): boolean => bus.stereo && !bus.folded;

/** Gathers what recommendations for a bus are computed from. */
export const situationOf = (setup: Setup, bus: Bus): Situation => ({
  setup,
  bus,
  swapped: isSwapped(setup, bus),
  voices: voicesOf(setup, bus),
  members: setup.listeners.filter((l) => isOnBus(l, bus)),
  others: setup.listeners.filter((l) => !isOnBus(l, bus)),
});

/** Monitor inputs that a recommendation may take: none where the user keeps them. */
export const freeInputs = ({
  preferences: wishes,
  monitor,
}: Pick<Setup, "preferences" | "monitor">): number => (wishes.inputsFixed ? 0 : inputsLeft(monitor));

/** The premises as the setup has them. */
export const premisesOf = (setup: Setup): Premises => ({
  first: setup.preferences.first,
  fohFixed: setup.preferences.fohFixed,
  freeInputs: freeInputs(setup),
  turned: [],
});
