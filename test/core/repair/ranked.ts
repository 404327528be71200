import { type Repair, repairsFor } from "../../../src/core/repair/repairs";
import { sayStep } from "../../../src/core/repair/say";
import { situationOf } from "../../../src/core/repair/situation";
import type { Listener, Setup, Sum } from "../../../src/core/setup";
import { AUDIENCE, DRUMMER, kit } from "./setups";

/** The sum that the repairs are of. */
export const sumOf = (setup: Setup): Sum => setup.sums[0] as Sum;

export const all = (setup: Setup) => repairsFor(situationOf(setup, sumOf(setup)));

export const first = (setup: Setup): Repair => all(setup).ranked[0] as Repair;

/** A repair that must be among the ranked ones. */
export const ranked = (setup: Setup, id: string): Repair => {
  const repairs = all(setup).ranked;
  const found = repairs.find((r) => r.id === id);
  if (!found) throw new Error(`not ranked: ${id}, but ${repairs.map((r) => r.id).join("; ")}`);
  return found;
};

export const steps = (setup: Setup, repair: Repair): string[] => repair.steps.map((s) => sayStep(setup, s));

/** The sum otherwise. */
export const withSum = (setup: Setup, over: Partial<Sum>): Setup => ({
  ...setup,
  sums: setup.sums.map((s, at) => (at === 0 ? { ...s, ...over } : s)),
});

/** Heard by audience and drummer, and by others. */
export const heardBy = (setup: Setup, ...others: Listener[]): Setup => ({
  ...setup,
  listeners: [AUDIENCE, DRUMMER, ...others],
});

/** Everything panned the wrong way for the audience, who matters most; the house may change. */
export const crossed = (): Setup => ({
  ...kit(),
  sources: kit().sources.map((s) => ({ ...s, pan: -s.pan })),
  wishes: { ...kit().wishes, first: "audience", houseFixed: false },
});
