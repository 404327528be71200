import type { Bus, Listener, Setup } from "../../../src/core/model/setup";
import { type Repair, repairsFor } from "../../../src/core/repair/repairs";
import { sayStep } from "../../../src/core/repair/say";
import { situationOf } from "../../../src/core/repair/situation";
import { AUDIENCE, DRUMMER, kit } from "./setups";

/** The bus that the recommendations are of. */
export const busOf = (setup: Setup): Bus => setup.buses[0] as Bus;

export const all = (setup: Setup) => repairsFor(situationOf(setup, busOf(setup)));

export const first = (setup: Setup): Repair => all(setup).ranked[0] as Repair;

/** A recommendation that must be among the ranked ones. */
export const ranked = (setup: Setup, id: string): Repair => {
  const repairs = all(setup).ranked;
  const found = repairs.find((r) => r.id === id);
  if (!found) throw new Error(`not ranked: ${id}, but ${repairs.map((r) => r.id).join("; ")}`);
  return found;
};

export const steps = (setup: Setup, repair: Repair): string[] => repair.steps.map((s) => sayStep(setup, s));

/** The bus otherwise. */
export const withBus = (setup: Setup, over: Partial<Bus>): Setup => ({
  ...setup,
  buses: setup.buses.map((s, at) => (at === 0 ? { ...s, ...over } : s)),
});

/** Heard by audience and drummer, and by others. */
export const heardBy = (setup: Setup, ...others: Listener[]): Setup => ({
  ...setup,
  listeners: [AUDIENCE, DRUMMER, ...others],
});

/** Everything panned the wrong way for the audience, who matters most; FOH may change. */
export const crossed = (): Setup => ({
  ...kit(),
  channels: kit().channels.map((s) => ({ ...s, pan: -s.pan })),
  preferences: { ...kit().preferences, first: "audience", fohFixed: false },
});
