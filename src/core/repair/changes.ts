import { usageOf } from "../patch/usage";
import type { Id, Listener, Setup, Sum } from "../setup";
import { called, sourceCalled, sumCalled } from "./names";
import { isOnSum, keyOf } from "./parts";
import { stepMaker } from "./plansteps";
import { freeSlots, partsOfPlan } from "./repairs";
import { sayRepair } from "./say";
import { type Plan, searchBest } from "./search";
import { type Situation, situationOf } from "./situation";

/** A single fact that would make another repair the best. */
export interface Change {
  /** "If Ines faced the other way" */
  readonly fact: string;
  /** What would be best then, in one line. */
  readonly instead: string;
  /** Id of that repair. */
  readonly id: string;
}

/** A single fact that is otherwise, and the setup with it. */
interface Otherwise {
  readonly fact: string;
  readonly setup: Setup;
}

/** Half a turn on, within −180…180. */
const round = (angle: number): number => (angle > 0 ? angle - 180 : angle + 180);

const turned = (setup: Setup, listener: Listener): Setup =>
  listener.kind === "drummer"
    ? { ...setup, kit: { ...setup.kit, yaw: round(setup.kit.yaw) } }
    : {
        ...setup,
        listeners: setup.listeners.map((l) => (l === listener ? { ...l, facing: round(l.facing) } : l)),
      };

const withFirst = (setup: Setup, first: Id): Setup => ({ ...setup, wishes: { ...setup.wishes, first } });

const withSlots = (setup: Setup, more: number): Setup => ({
  ...setup,
  monitor: { ...setup.monitor, slotCount: setup.monitor.slotCount + more },
});

/** Every single fact that may be otherwise and can bear on a sum. */
const otherwise = (setup: Setup, sum: Sum): Otherwise[] => {
  const members = setup.listeners.filter((l) => isOnSum(l, sum));
  const inSum = new Set(sum.sends.map((s) => s.source));
  const keeping = setup.sources.filter((s) => s.keepSides && inSum.has(s.id));
  const { houseFixed, first } = setup.wishes;
  const without = (source: Id): Setup => ({
    ...setup,
    sums: setup.sums.map((s) =>
      s.id === sum.id ? { ...s, sends: s.sends.filter((send) => send.source !== source) } : s,
    ),
  });
  return [
    ...members.map((l) => ({ fact: `If ${called(l)} faced the other way`, setup: turned(setup, l) })),
    ...setup.listeners
      .filter((l) => l.id !== first && (l.kind === "audience" || members.includes(l)))
      .map((l) => ({ fact: `If ${called(l)} mattered most`, setup: withFirst(setup, l.id) })),
    ...keeping.map((s) => ({
      fact: `If ${sourceCalled(setup, s.id)} were not in ${sumCalled(sum)}`,
      setup: without(s.id),
    })),
    {
      fact: houseFixed ? "If the house might change" : "If the house had to stay as it is",
      setup: { ...setup, wishes: { ...setup.wishes, houseFixed: !houseFixed } },
    },
    { fact: "If there were one more slot", setup: withSlots(setup, 1) },
    { fact: "If there were two more slots", setup: withSlots(setup, 2) },
    ...(usageOf(setup).free.length > 0
      ? [{ fact: "If there were one slot less", setup: withSlots(setup, -1) }]
      : []),
  ];
};

/** Every single fact that would make another repair the best, and which. Empty where nothing would. */
export const whatWouldChange = (setup: Setup, sum: Sum): Change[] => {
  const now = situationOf(setup, sum);
  const bestOf = (situation: Situation): Plan | undefined =>
    searchBest(situation, freeSlots(situation.setup));
  const idOf = (situation: Situation, plan: Plan): string => keyOf(partsOfPlan(situation, plan));
  const best = bestOf(now);
  const id = best && idOf(now, best);
  return otherwise(setup, sum).flatMap(({ fact, setup: changed }): Change[] => {
    const itsSum = changed.sums.find((s) => s.id === sum.id);
    if (!itsSum) return [];
    // Only what is in the sum bears on its voices.
    const situation = situationOf(changed, itsSum, itsSum === sum ? now.voices : undefined);
    const plan = bestOf(situation);
    if (!plan || idOf(situation, plan) === id) return [];
    const parts = partsOfPlan(situation, plan);
    const steps = stepMaker(situation)(plan);
    return [{ fact, instead: sayRepair(changed, itsSum, { parts, steps }), id: keyOf(parts) }];
  });
};
