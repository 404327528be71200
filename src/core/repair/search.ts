import type { Id } from "../model/setup";
import { badnessOf, movesOf, weightOf } from "./badness";
import { type Option, optionsOf, type PairOptions } from "./options";
import type { Situation } from "./situation";

/** What is weighed, smaller is better, in the order of weight. */
export interface Criteria {
  /** Badness for the listener who matters most, as one number (`weightOf`). */
  readonly first: number;
  /** Badness of all others together. */
  readonly others: number;
  readonly inputs: number;
  readonly moves: number;
  readonly residual: number;
}

/** One way to do it: a state of the pair, and an option for each who hears it, in the order of the situation's members. */
export interface Plan extends Criteria {
  readonly options: PairOptions;
  readonly picks: readonly Option[];
}

/** The order of weight: who matters most, the others, inputs, moves, exactness. Negative when the former is better. */
export const compare = (a: Criteria, b: Criteria): number =>
  a.first - b.first ||
  a.others - b.others ||
  a.inputs - b.inputs ||
  a.moves - b.moves ||
  a.residual - b.residual;

/** Whether nothing speaks for the latter, which does not come before the former: that is as good in all but who matters most. */
const isAsGood = (a: Criteria, b: Criteria): boolean =>
  a.others <= b.others && a.moves <= b.moves && a.inputs <= b.inputs && a.residual <= b.residual;

/**
 * Keeps what nothing else is as good as in everything, best first; of equals the earliest.
 * In the order of weight nothing is beaten by what comes after it, so one pass over what is kept will do.
 */
const best = <T extends Criteria>(all: T[]): T[] => {
  const kept: T[] = [];
  for (const one of all.sort(compare)) if (!kept.some((k) => isAsGood(k, one))) kept.push(one);
  return kept;
};

/** A plan for the first so many listeners: the last of its picks, and the plan before it. */
interface PartPlan extends Criteria {
  readonly pick: Option | null;
  readonly before: PartPlan | null;
}

const NOTHING: PartPlan = {
  first: 0,
  others: 0,
  inputs: 0,
  moves: 0,
  residual: 0,
  pick: null,
  before: null,
};

const withPick = (plan: PartPlan, pick: Option, isFirst: boolean): PartPlan => ({
  first: isFirst ? plan.first + pick.weight : plan.first,
  others: isFirst ? plan.others : plan.others + pick.weight,
  inputs: plan.inputs + pick.cost.inputs,
  moves: plan.moves + movesOf(pick.cost),
  residual: Math.max(plan.residual, pick.cost.residual),
  pick,
  before: plan,
});

const picksOf = (plan: PartPlan): Option[] => {
  const picks: Option[] = [];
  for (let at: PartPlan | null = plan; at?.pick; at = at.before) picks.push(at.pick);
  return picks.reverse();
};

/** What comes of a state of the pair for those who do not hear the bus, whatever is picked for the rest. */
const startOf = ({ others }: Situation, options: PairOptions, first: Id): PartPlan => {
  const weights = options.others.map((tally) => weightOf(badnessOf(tally)));
  const sum = (isFirst: boolean): number =>
    weights.reduce((all, weight, at) => ((others[at]?.id === first) === isFirst ? all + weight : all), 0);
  const { inputs, residual } = options.cost;
  const moves = movesOf(options.cost);
  return { ...NOTHING, first: sum(true), others: sum(false), inputs, moves, residual };
};

const finished = (plan: PartPlan, options: PairOptions): Plan => {
  const { first, others, inputs, moves, residual } = plan;
  return { options, picks: picksOf(plan), first, others, inputs, moves, residual };
};

/** Each choice for one listener, weighed by itself: among these it is the same who matters most. */
const alone = (options: PairOptions, at: number): PartPlan[] =>
  (options.members[at] as readonly Option[]).map((o) => withPick(NOTHING, o, false));

const plansOf = (situation: Situation, options: PairOptions, free: number): Plan[] => {
  const { first } = situation.setup.preferences;
  let plans = [startOf(situation, options, first)];
  situation.members.forEach(({ listener }, at) => {
    const isFirst = listener.id === first;
    const picks = best(alone(options, at)).map((p) => p.pick as Option);
    plans = best(
      plans
        .flatMap((plan) => picks.map((pick) => withPick(plan, pick, isFirst)))
        .filter((plan) => plan.inputs <= free),
    );
  });
  return plans.map((plan) => finished(plan, options));
};

/**
 * The best of all combinations of a state of the pair and a choice for each who hears it, best first: every one that no
 * other is as good as in everything. All criteria add up listener by listener (of residuals the largest counts), and
 * what is beaten for some listeners stays beaten whatever is done for the rest; so it is dropped on the way and the
 * result is that of trying everything.
 * @param free inputs that are free
 */
export const search = (situation: Situation, free: number): Plan[] =>
  best(optionsOf(situation).flatMap((options) => plansOf(situation, options, free)));

/**
 * The first of `search` alone, sooner: the order of weight adds up too, so what is best for each listener by itself is
 * best together, unless it takes more inputs than are free.
 * @param all what there is to choose from, where that is known
 */
export const searchBest = (
  situation: Situation,
  free: number,
  all: readonly PairOptions[] = optionsOf(situation),
): Plan | undefined => {
  const { first } = situation.setup.preferences;
  const plans = all.flatMap((options): Plan[] => {
    let plan = startOf(situation, options, first);
    situation.members.forEach(({ listener }, at) => {
      const least = alone(options, at).reduce((a, b) => (compare(b, a) < 0 ? b : a));
      plan = withPick(plan, least.pick as Option, listener.id === first);
    });
    return plan.inputs <= free ? [finished(plan, options)] : plansOf(situation, options, free).slice(0, 1);
  });
  return plans.sort(compare)[0];
};
