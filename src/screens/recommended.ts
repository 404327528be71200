import type { Bus, Id, Setup } from "../core/model/setup";
import type { Recommendation } from "../core/recommend/model";
import { reasonsFor } from "../core/recommend/reasons";
import { recommend } from "../core/recommend/recommend";
import { type Advice, describeAdvice } from "../text/recommend-why";

/** What to do about a bus, best first, and why. */
export interface Recommended {
  readonly ranked: readonly Recommendation[];
  readonly advice: Advice;
}

const known = new WeakMap<Setup, Map<Id, Recommended>>();

/** What to do about a bus: worked out once for a setup, whoever asks. */
export const recommendedFor = (setup: Setup, bus: Bus): Recommended => {
  const its = known.get(setup) ?? new Map<Id, Recommended>();
  known.set(setup, its);
  const seen = its.get(bus.id);
  if (seen) return seen;
  const ranked = recommend(setup, bus);
  const fresh = { ranked, advice: describeAdvice(setup, bus, ranked, reasonsFor(setup, bus, ranked)) };
  its.set(bus.id, fresh);
  return fresh;
};
