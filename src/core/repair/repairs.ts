import { inputsLeft } from "../inputs/usage";
import { remembered } from "../lib/memo";
import type { Id, Setup } from "../model/setup";
import type { Tally } from "../stereo/placement";
import { type Advice, adviceOf } from "./advice";
import type { RepairNote } from "./mirror";
import { noteMaker } from "./notes";
import { keyOf, type Own, type Parts } from "./parts";
import { stepMaker } from "./plansteps";
import { type Criteria, type Plan, search } from "./search";
import type { Situation } from "./situation";
import { type Step, withStep } from "./steps";

/** What one listener gets once a recommendation is done. */
export interface Outcome {
  readonly listener: Id;
  readonly tally: Tally;
}

/** One way to put a pair right. Print its steps by `sayStep`; apply it by `applyRepair`. */
export interface Repair {
  /** "leave" when nothing is done; the same parts have the same. */
  readonly id: string;
  readonly parts: Parts;
  /** What it was ranked by. */
  readonly criteria: Criteria;
  /** Of every listener, in the setup's order. */
  readonly outcomes: readonly Outcome[];
  readonly steps: readonly Step[];
  /** Channels that FOH hears differently; empty when it notices nothing. */
  readonly foh: readonly Id[];
  /** What is not exactly mirrored, and what else there is to know. */
  readonly notes: readonly RepairNote[];
}

/** Every recommendation worth considering, and which one is best and why. */
export interface Repairs {
  /** None is beaten by another in everything; the best first. Always has one: to leave it. */
  readonly ranked: readonly Repair[];
  readonly advice: Advice;
}

/** What a plan consists of. */
export const partsOfPlan = ({ members }: Situation, { options, picks }: Plan): Parts => ({
  pair: options.pair,
  own: picks.flatMap(({ choice }, at): Own[] =>
    choice === "none" ? [] : [{ listener: members[at]?.listener.id ?? "", choice }],
  ),
});

const outcomesOf = (situation: Situation, plan: Plan): Outcome[] => {
  const tallies = new Map<Id, Tally>([
    ...situation.members.map((m, at) => [m.listener.id, plan.picks[at]?.tally] as [Id, Tally]),
    ...situation.others.map((l, at) => [l.id, plan.options.others[at]] as [Id, Tally]),
  ]);
  return situation.setup.listeners.map(({ id }) => ({ listener: id, tally: tallies.get(id) as Tally }));
};

/** Inputs that a recommendation may still take: none where the user keeps them. */
export const freeInputs = (setup: Setup): number =>
  setup.preferences.inputsFixed ? 0 : inputsLeft(setup.monitor);

/** Every recommendation of a bus that nothing else beats in everything, best first, with advice. */
export const repairsFor = (situation: Situation): Repairs => {
  const { setup } = situation;
  const stepsFor = remembered(stepMaker(situation));
  const notesFor = remembered(noteMaker(situation));
  const ranked = search(situation, freeInputs(setup)).map((plan): Repair => {
    const parts = partsOfPlan(situation, plan);
    const outcomes = outcomesOf(situation, plan);
    const { options, first, others, inputs, moves, residual } = plan;
    return {
      id: keyOf(parts),
      parts,
      criteria: { first, others, inputs, moves, residual },
      outcomes,
      // Of dozens of recommendations a handful is looked into: the rest never is spelt out.
      get steps() {
        return stepsFor(plan);
      },
      foh: situation.voices.filter((_, at) => options.foh?.[at]).map((v) => v.channel.id),
      get notes() {
        return notesFor(plan);
      },
    };
  });
  return { ranked, advice: adviceOf(situation, ranked) };
};

/** The setup with a recommendation done. */
export const applyRepair = (setup: Setup, repair: Pick<Repair, "steps">): Setup =>
  repair.steps.reduce(withStep, setup);
