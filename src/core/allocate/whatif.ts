import { keysOf } from "../lib/keys";
import type { Tell } from "../lib/tell";
import type { PlanLoss } from "./explain";
import type { AllocationChannel, AllocationMusician, AllocationProblem } from "./model";
import { type AllocationPlan, bestPlan } from "./plans";
import { KIND_RULES } from "./rules";

/** What could be otherwise. */
export type WhatIfCode = "one-more" | "one-less" | "second-system" | "two-drummers" | "mono-packs";

/** What would be otherwise then. */
export interface PlanWhatIf {
  readonly code: WhatIfCode;
  /** The problem as it would be. */
  readonly problem: AllocationProblem;
  /** Null where what is pinned would be impossible. */
  readonly plan: AllocationPlan | null;
  /** What would no longer be lost. */
  readonly gained: readonly PlanLoss[];
  /** What would be lost besides. */
  readonly lost: readonly PlanLoss[];
}

const isOfKit = ({ kind }: AllocationChannel): boolean =>
  KIND_RULES[kind].family === "drums" && KIND_RULES[kind].section === null;

/** An id that nothing has yet. */
const freeId = (id: string, taken: readonly { readonly id: string }[]): string =>
  taken.some((t) => t.id === id) ? freeId(`${id}′`, taken) : id;

const FIRST_KIT = "Kit 1";
const SECOND_KIT = "Kit 2";

/** The same kit once more, each in a section of its own, and somebody at it. */
const withSecondDrummer = (problem: AllocationProblem): AllocationProblem => {
  const { channels, musicians } = problem;
  const kit = channels.filter(isOfKit);
  const players = musicians.filter(({ id }) => kit.some(({ player }) => player === id));
  const [first] = players.length > 0 ? players : musicians;
  const second: AllocationMusician = {
    id: freeId("second-drummer", musicians),
    name: "Drummer 2",
    mono: first?.mono ?? false,
  };
  const once = channels.map((c) => (isOfKit(c) ? { ...c, section: c.section ?? FIRST_KIT } : c));
  const again = kit.map(
    (c): AllocationChannel => ({
      ...c,
      id: freeId(`${c.id}-2`, channels),
      name: `${c.name} (kit 2)`,
      number: null,
      section: SECOND_KIT,
      player: second.id,
      currentInputs: [],
      current: null,
      pin: null,
    }),
  );
  return { ...problem, channels: [...once, ...again], musicians: [...musicians, second] };
};

/** What each case makes of the problem; null where it says nothing. */
const CASES: { readonly [code in WhatIfCode]: (problem: AllocationProblem) => AllocationProblem | null } = {
  "one-more": (p) => ({ ...p, inputs: p.inputs + 1 }),
  "one-less": (p) => (p.inputs > 0 ? { ...p, inputs: p.inputs - 1 } : null),
  "second-system": (p) => ({ ...p, inputs: 2 * p.inputs }),
  "two-drummers": (p) =>
    p.channels.some(isOfKit) && !p.channels.some((c) => isOfKit(c) && c.section)
      ? withSecondDrummer(p)
      : null,
  "mono-packs": (p) =>
    p.musicians.some((m) => !m.mono)
      ? { ...p, musicians: p.musicians.map((m) => ({ ...m, mono: true })) }
      : null,
};

const isSame = (a: PlanLoss, b: PlanLoss): boolean => a.code === b.code && a.channel === b.channel;
const besides = (these: readonly PlanLoss[], those: readonly PlanLoss[]): PlanLoss[] =>
  these.filter((loss) => !those.some((other) => isSame(loss, other)));

/**
 * What would change against the best plan, case by case.
 * @param tell hears how far it has come
 */
export const whatIf = (
  problem: AllocationProblem,
  now: AllocationPlan,
  tell: Tell = () => {},
): PlanWhatIf[] => {
  const codes = keysOf(CASES);
  return codes.flatMap((code, at) => {
    tell(at / codes.length);
    const other = CASES[code](problem);
    if (!other) return [];
    const plan = bestPlan(other);
    return [
      {
        code,
        problem: other,
        plan,
        gained: plan ? besides(now.losses, plan.losses) : [],
        lost: plan ? besides(plan.losses, now.losses) : [],
      },
    ];
  });
};
