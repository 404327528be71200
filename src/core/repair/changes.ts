import type { Bus, Id, Listener, Setup } from "../model/setup";
import { withBus } from "../model/update";
import { busName, channelName, listenerName } from "../names";
import { optionsOf, type PairOptions } from "./options";
import { isOnBus, keyOf } from "./parts";
import { stepMaker } from "./plansteps";
import { freeInputs, partsOfPlan } from "./repairs";
import { sayRepair } from "./say";
import { type Plan, searchBest } from "./search";
import { type Situation, situationOf } from "./situation";

/** A single fact that would make another recommendation the best. */
export interface Change {
  /** "If Ines faced the other way" */
  readonly fact: string;
  /** What would be best then, in one line. */
  readonly instead: string;
  /** Id of that recommendation. */
  readonly id: string;
}

/** A single fact that is otherwise, and the setup with it. */
interface Otherwise {
  readonly fact: string;
  readonly setup: Setup;
  /** Only the number of inputs that may be taken differs. */
  readonly onlyInputs?: true;
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

const withFirst = (setup: Setup, first: Id): Setup => ({
  ...setup,
  preferences: { ...setup.preferences, first },
});

const withInputs = (setup: Setup, more: number): Setup => ({
  ...setup,
  monitor: { ...setup.monitor, inputCount: setup.monitor.inputCount + more },
});

/** Inputs more or fewer; where no free one may be taken, that they may. */
const inputFacts = (setup: Setup): Otherwise[] => {
  const { preferences: wishes } = setup;
  if (wishes.inputsFixed) {
    const taking = { ...setup, wishes: { ...wishes, inputsFixed: false } };
    return freeInputs(taking) > 0
      ? [{ fact: "If free inputs might be taken", setup: taking, onlyInputs: true }]
      : [];
  }
  const facts: [string, number][] = [
    ["If there were one more input", 1],
    ["If there were two more inputs", 2],
  ];
  const some = freeInputs(setup) > 0;
  if (some) facts.push(["If there were one input fewer", -1]);
  const numbers = facts.map(([fact, more]) => ({ fact, setup: withInputs(setup, more) }));
  const kept = { ...setup, wishes: { ...wishes, inputsFixed: true } };
  const none = some ? [{ fact: "If no free input might be taken", setup: kept }] : [];
  return [...numbers, ...none].map((other) => ({ ...other, onlyInputs: true }));
};

/** So many channels that must keep their sides are taken out of the bus one by one; more all at once, as one fact. */
const ONE_BY_ONE = 3;

/** Channels that must keep their sides, out of the bus. */
const withoutKeeping = (setup: Setup, bus: Bus): Otherwise[] => {
  const inBus = new Set(bus.sends.map((s) => s.channel));
  const keeping = setup.channels.filter((s) => s.keepSides && inBus.has(s.id)).map((s) => s.id);
  const groups = keeping.length > ONE_BY_ONE ? [keeping] : keeping.map((id) => [id]);
  return groups.map((gone) => ({
    fact: `If ${gone.length === 1 ? channelName(setup, gone[0] as Id) : `the ${gone.length} channels that must keep their sides`} were not in ${busName(bus)}`,
    setup: withBus(setup, bus.id, (s) => ({
      ...s,
      sends: s.sends.filter((send) => !gone.includes(send.channel)),
    })),
  }));
};

/** Every single fact that may be otherwise and can bear on a bus. */
const otherwise = (setup: Setup, bus: Bus): Otherwise[] => {
  const members = setup.listeners.filter((l) => isOnBus(l, bus));
  const { fohFixed, first } = setup.preferences;
  return [
    ...members.map((l) => ({ fact: `If ${listenerName(l)} faced the other way`, setup: turned(setup, l) })),
    ...setup.listeners
      .filter((l) => l.id !== first && (l.kind === "audience" || members.includes(l)))
      .map((l) => ({ fact: `If ${listenerName(l)} mattered most`, setup: withFirst(setup, l.id) })),
    ...withoutKeeping(setup, bus),
    {
      fact: fohFixed ? "If FOH might change" : "If FOH had to stay as it is",
      setup: { ...setup, preferences: { ...setup.preferences, fohFixed: !fohFixed } },
    },
    ...inputFacts(setup),
  ];
};

/** One after the other, so that the first can be had alone. */
function* changesOf(now: Situation): Generator<Change, undefined> {
  const { setup, bus } = now;
  const asNow = optionsOf(now);
  const bestOf = (situation: Situation, options?: readonly PairOptions[]): Plan | undefined =>
    searchBest(situation, freeInputs(situation.setup), options);
  const idOf = (situation: Situation, plan: Plan): string => keyOf(partsOfPlan(situation, plan));
  const best = bestOf(now, asNow);
  const id = best && idOf(now, best);
  for (const { fact, setup: changed, onlyInputs } of otherwise(setup, bus)) {
    const itsBus = changed.buses.find((s) => s.id === bus.id);
    if (!itsBus) continue;
    const situation = situationOf(changed, itsBus, now);
    const plan = bestOf(situation, onlyInputs && asNow);
    if (!plan || idOf(situation, plan) === id) continue;
    const parts = partsOfPlan(situation, plan);
    const steps = stepMaker(situation)(plan);
    yield { fact, instead: sayRepair(changed, itsBus, { parts, steps }), id: keyOf(parts) };
  }
  return undefined;
}

/** Every single fact that would make another recommendation the best, and which. Empty where nothing would. */
export const whatWouldChange = (situation: Situation): Change[] => [...changesOf(situation)];

/** The first of `whatWouldChange` alone, sooner. */
export const firstChange = (situation: Situation): Change | undefined => changesOf(situation).next().value;
