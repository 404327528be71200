/** One link of a chain that may be broken. */
export interface SearchLink {
  /** How likely it is the broken one, in any unit; above 0. */
  readonly weight: number;
  /** What it costs to see whether a signal is there behind it; null where nobody can look. */
  readonly lookCost: number | null;
}

/** What to do next on a chain of which one link is broken. */
export interface ChainPlan {
  /** Index of the link behind which to look; null where no look tells more. */
  readonly look: number | null;
  /** Expected cost of all looks from here on, over the weights. */
  readonly cost: number;
}

/**
 * The looks with the least expected cost that find the one broken link of a chain: a look behind link k tells whether
 * it lies up to k or beyond. Exact: the best search tree for weights of links and costs of looks, worked out from
 * short stretches to long ones (textbook dynamic programming). Where looks are missing the stretch that nobody can
 * divide is found as a whole.
 * @param from first and `to` last link that can be the broken one
 */
export const planSearch = (links: readonly SearchLink[], from = 0, to = links.length - 1): ChainPlan => {
  const known = new Map<number, ChainPlan>();
  const total = (first: number, last: number): number =>
    links.slice(first, last + 1).reduce((sum, { weight }) => sum + weight, 0);
  // Costs of a stretch are weighted sums, divided by its weight only at the end.
  const best = (first: number, last: number): ChainPlan => {
    const key = first * links.length + last;
    const seen = known.get(key);
    if (seen) return seen;
    let plan: ChainPlan = { look: null, cost: 0 };
    const weight = total(first, last);
    let least = Number.POSITIVE_INFINITY;
    for (let look = first; look < last; look += 1) {
      const price = links[look]?.lookCost ?? null;
      if (price === null) continue;
      const cost = price * weight + best(first, look).cost + best(look + 1, last).cost;
      if (cost < least) {
        least = cost;
        plan = { look, cost };
      }
    }
    known.set(key, plan);
    return plan;
  };
  const { look, cost } = best(from, to);
  return { look, cost: cost / (total(from, to) || 1) };
};
