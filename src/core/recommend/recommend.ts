import { once } from "../lib/memo";
import type { Bus, Id, Setup } from "../model/setup";
import type { Tally } from "../stereo/placement";
import { elsewhere, tallyElsewhere } from "./elsewhere";
import type { Outcome, Plan, Recommendation, Situation } from "./model";
import { hearingsOf, notesOf } from "./notes";
import { keyOf, partsOfPlan } from "./parts";
import { stepsOf } from "./plan-steps";
import { searcher } from "./search";
import { premisesOf, situationOf } from "./situation";
import { entriesFor, tallyOf, viewpoints } from "./tally";

/** Tallies of every listener by a plan, in the setup's order. */
const outcomesOf = (situation: Situation, fohChanges: boolean) => {
  const { setup, voices, members, others } = situation;
  const view = viewpoints(situation);
  const apart = once(() => elsewhere(situation)([], fohChanges));
  return (plan: Plan): Outcome[] => {
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

/** A situation's plans as recommendations; what nobody looks at is not spelt out. */
const spelledOut = (situation: Situation, plans: readonly Plan[]): Recommendation[] => {
  const outcomes = outcomesOf(
    situation,
    plans.some((plan) => plan.change.panning === "foh"),
  );
  return plans.map((plan): Recommendation => {
    const parts = partsOfPlan(situation, plan);
    const { first, others, inputs, moves, residual } = plan;
    const its = once(() => outcomes(plan));
    const steps = once(() => stepsOf(situation, plan));
    const notes = once(() => notesOf(situation, plan));
    return {
      id: keyOf(parts),
      parts,
      criteria: { first, others, inputs, moves, residual },
      foh: parts.panning === "foh" ? parts.mirrored : [],
      get outcomes() {
        return its();
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

/**
 * What to do about the image of a bus: of every combination of leaving it, swapping its L/R, panning, flipping at a
 * mixer, a bus of one's own and mono the best plan, best first; what another is as good as in everything is left out.
 * There always is one: to leave it.
 */
export const recommend = (setup: Setup, bus: Bus): Recommendation[] => {
  const situation = situationOf(setup, bus);
  return spelledOut(situation, searcher(situation)(premisesOf(setup)));
};
