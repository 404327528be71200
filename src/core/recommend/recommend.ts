import { once } from "../lib/memo";
import type { Bus, Id, Setup } from "../model/setup";
import type { Tally } from "../stereo/placement";
import { elsewhere, tallyElsewhere } from "./elsewhere";
import type { ListenerOutcome, Parts, RankedPlan, Recommendation, Situation } from "./model";
import { hearingsOf, notesOf } from "./notes";
import { keyOf, partsOfPlan } from "./parts";
import { stepsOf } from "./plan-steps";
import { type Reasons, reasonsFor } from "./reasons";
import { searcher } from "./search";
import { premisesOf, situationOf } from "./situation";
import { entriesFor, tallyOf, viewpoints } from "./tally";

/** Tallies of every listener by a plan, in the setup's order. */
const outcomesOf = (situation: Situation, fohChanges: boolean) => {
  const { setup, voices, members, others } = situation;
  const view = viewpoints(situation);
  const apart = once(() => elsewhere(situation)([], fohChanges));
  return (plan: RankedPlan): ListenerOutcome[] => {
    const channels = plan.change.panning === "foh" ? plan.change.mirrored : [];
    const hearings = hearingsOf(situation, plan);
    const tallies = new Map<Id, Tally>();
    members.forEach((member, m) => {
      const { hearing, pan } = hearings[m] as (typeof hearings)[number];
      const entry = entriesFor(situation, view(member, false), hearing);
      tallies.set(member.id, tallyOf(voices.map((_, at) => entry(at, pan(at)))));
    });
    apart().forEach((its, at) => {
      tallies.set(others[at]?.id ?? "", tallyElsewhere(its, channels));
    });
    return setup.listeners.map(({ id }) => ({ listener: id, tally: tallies.get(id) as Tally }));
  };
};

/** What of a recommendation is spelt out only when somebody looks. */
type Spelt = Pick<Recommendation, "outcomes" | "steps" | "notes">;

/** A situation's plans as recommendations; what nobody looks at is not spelt out. */
const spelledOut = (
  situation: () => Situation,
  plans: readonly RankedPlan[],
  parts: readonly Parts[],
  best: Spelt | null = null,
): Recommendation[] => {
  const outcomes = once(() =>
    outcomesOf(
      situation(),
      plans.some((plan) => plan.change.panning === "foh"),
    ),
  );
  return plans.map((plan, at): Recommendation => {
    const known = at === 0 ? best : null;
    const its = parts[at] as Parts;
    const { first, others, inputs, moves, residual } = plan;
    const itsOutcomes = once(() => known?.outcomes ?? outcomes()(plan));
    const steps = once(() => known?.steps ?? stepsOf(situation(), plan));
    const notes = once(() => known?.notes ?? notesOf(situation(), plan));
    return {
      id: keyOf(its),
      parts: its,
      criteria: { first, others, inputs, moves, residual },
      foh: its.panning === "foh" ? its.mirrored : [],
      get outcomes() {
        return itsOutcomes();
      },
      get steps() {
        return steps();
      },
      get notes() {
        return notes();
      },
    };
  });
};

const searched = (setup: Setup, bus: Bus) => {
  const situation = situationOf(setup, bus);
  const plans = searcher(situation)(premisesOf(setup));
  return { situation, plans, parts: plans.map((plan) => partsOfPlan(situation, plan)) };
};

/**
 * What to do about the image of a bus: of every combination of leaving it, swapping its L/R, panning, flipping at a
 * mixer, a bus of one's own and mono the best plan, best first; what another is as good as in everything is left out.
 * There always is one: to leave it.
 */
export const recommend = (setup: Setup, bus: Bus): Recommendation[] => {
  const { situation, plans, parts } = searched(setup, bus);
  return spelledOut(() => situation, plans, parts);
};

/** Recommendations for a bus with their reasons, as plain data that can be sent on; the best one is spelt out. */
export interface FoundRecommendations {
  readonly plans: readonly RankedPlan[];
  /** Of each plan. */
  readonly parts: readonly Parts[];
  readonly best: Spelt | null;
  readonly reasons: Reasons;
}

/** Searches what `recommend` does, and spells out all that is shown first. */
export const findRecommendations = (setup: Setup, bus: Bus): FoundRecommendations => {
  const { situation, plans, parts } = searched(setup, bus);
  const ranked = spelledOut(() => situation, plans, parts);
  const [first] = ranked;
  return {
    plans,
    parts,
    best: first ? { outcomes: first.outcomes, steps: first.steps, notes: first.notes } : null,
    reasons: reasonsFor(setup, bus, ranked),
  };
};

/** The recommendations that were found for the same setup and bus. */
export const recommendationsOf = (
  setup: Setup,
  bus: Bus,
  { plans, parts, best }: FoundRecommendations,
): Recommendation[] =>
  spelledOut(
    once(() => situationOf(setup, bus)),
    plans,
    parts,
    best,
  );
