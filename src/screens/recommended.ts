import { signal } from "@preact/signals";
import { isRecommendationShort } from "../core/at-once";
import type { Bus, Id, Setup } from "../core/model/setup";
import type { Recommendation } from "../core/recommend/model";
import { type Reasons, reasonsFor } from "../core/recommend/reasons";
import { type FoundRecommendations, recommend, recommendationsOf } from "../core/recommend/recommend";
import { type Advice, describeAdvice } from "../text/recommend-why";

/** What to do about a bus, best first, and why. */
export interface Recommended {
  readonly ranked: readonly Recommendation[];
  readonly advice: Advice;
}

const known = new WeakMap<Setup, Map<Id, Recommended>>();
/** Counts what was worked out elsewhere, so that whoever found nothing looks again. */
const arrived = signal(0);

const keep = (setup: Setup, bus: Bus, ranked: readonly Recommendation[], reasons: Reasons): Recommended => {
  const fresh = { ranked, advice: describeAdvice(setup, bus, ranked, reasons) };
  const its = known.get(setup) ?? new Map<Id, Recommended>();
  known.set(setup, its.set(bus.id, fresh));
  return fresh;
};

/** Takes in what was found for a bus off the page's thread. */
export const takeRecommendations = (setup: Setup, bus: Bus, found: FoundRecommendations): void => {
  keep(setup, bus, recommendationsOf(setup, bus, found), found.reasons);
  arrived.value += 1;
};

/**
 * What to do about a bus: worked out once for a setup, whoever asks. Null where that takes too long for the page and
 * nobody has done it yet: `LongSearch` does.
 */
export const recommendedFor = (setup: Setup, bus: Bus): Recommended | null => {
  const seen = known.get(setup)?.get(bus.id);
  if (seen) return seen;
  if (isRecommendationShort(setup, bus)) {
    const ranked = recommend(setup, bus);
    return keep(setup, bus, ranked, reasonsFor(setup, bus, ranked));
  }
  // Read so that it is asked again then.
  arrived.value;
  return null;
};
