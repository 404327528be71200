import { called, sourceCalled, sumCalled } from "../called";
import type { Id, Listener, Setup, Sum } from "../setup";
import { withSum } from "../withsum";
import { optionsOf, type PairOptions } from "./options";
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
  /** Only the number of slots that may be taken differs. */
  readonly onlySlots?: true;
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

/** Slots more or fewer; where no free one may be taken, that they may. */
const slotFacts = (setup: Setup): Otherwise[] => {
  const { wishes } = setup;
  if (wishes.slotsFixed) {
    const taking = { ...setup, wishes: { ...wishes, slotsFixed: false } };
    return freeSlots(taking) > 0
      ? [{ fact: "If free slots might be taken", setup: taking, onlySlots: true }]
      : [];
  }
  const facts: [string, number][] = [
    ["If there were one more slot", 1],
    ["If there were two more slots", 2],
  ];
  const some = freeSlots(setup) > 0;
  if (some) facts.push(["If there were one slot fewer", -1]);
  const numbers = facts.map(([fact, more]) => ({ fact, setup: withSlots(setup, more) }));
  const kept = { ...setup, wishes: { ...wishes, slotsFixed: true } };
  const none = some ? [{ fact: "If no free slot might be taken", setup: kept }] : [];
  return [...numbers, ...none].map((other) => ({ ...other, onlySlots: true }));
};

/** So many sources that must keep their sides are taken out of the sum one by one; more all at once, as one fact. */
const ONE_BY_ONE = 3;

/** Sources that must keep their sides, out of the sum. */
const withoutKeeping = (setup: Setup, sum: Sum): Otherwise[] => {
  const inSum = new Set(sum.sends.map((s) => s.source));
  const keeping = setup.sources.filter((s) => s.keepSides && inSum.has(s.id)).map((s) => s.id);
  const groups = keeping.length > ONE_BY_ONE ? [keeping] : keeping.map((id) => [id]);
  return groups.map((gone) => ({
    fact: `If ${gone.length === 1 ? sourceCalled(setup, gone[0] as Id) : `the ${gone.length} sources that must keep their sides`} were not in ${sumCalled(sum)}`,
    setup: withSum(setup, sum.id, (s) => ({
      ...s,
      sends: s.sends.filter((send) => !gone.includes(send.source)),
    })),
  }));
};

/** Every single fact that may be otherwise and can bear on a sum. */
const otherwise = (setup: Setup, sum: Sum): Otherwise[] => {
  const members = setup.listeners.filter((l) => isOnSum(l, sum));
  const { houseFixed, first } = setup.wishes;
  return [
    ...members.map((l) => ({ fact: `If ${called(l)} faced the other way`, setup: turned(setup, l) })),
    ...setup.listeners
      .filter((l) => l.id !== first && (l.kind === "audience" || members.includes(l)))
      .map((l) => ({ fact: `If ${called(l)} mattered most`, setup: withFirst(setup, l.id) })),
    ...withoutKeeping(setup, sum),
    {
      fact: houseFixed ? "If the house might change" : "If the house had to stay as it is",
      setup: { ...setup, wishes: { ...setup.wishes, houseFixed: !houseFixed } },
    },
    ...slotFacts(setup),
  ];
};

/** One after the other, so that the first can be had alone. */
function* changesOf(now: Situation): Generator<Change, undefined> {
  const { setup, sum } = now;
  const asNow = optionsOf(now);
  const bestOf = (situation: Situation, options?: readonly PairOptions[]): Plan | undefined =>
    searchBest(situation, freeSlots(situation.setup), options);
  const idOf = (situation: Situation, plan: Plan): string => keyOf(partsOfPlan(situation, plan));
  const best = bestOf(now, asNow);
  const id = best && idOf(now, best);
  for (const { fact, setup: changed, onlySlots } of otherwise(setup, sum)) {
    const itsSum = changed.sums.find((s) => s.id === sum.id);
    if (!itsSum) continue;
    const situation = situationOf(changed, itsSum, now);
    const plan = bestOf(situation, onlySlots && asNow);
    if (!plan || idOf(situation, plan) === id) continue;
    const parts = partsOfPlan(situation, plan);
    const steps = stepMaker(situation)(plan);
    yield { fact, instead: sayRepair(changed, itsSum, { parts, steps }), id: keyOf(parts) };
  }
  return undefined;
}

/** Every single fact that would make another repair the best, and which. Empty where nothing would. */
export const whatWouldChange = (situation: Situation): Change[] => [...changesOf(situation)];

/** The first of `whatWouldChange` alone, sooner. */
export const firstChange = (situation: Situation): Change | undefined => changesOf(situation).next().value;
