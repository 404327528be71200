import { hearsFoh, sitsAtKit } from "../model/kinds";
import type { Bus, Id, Setup } from "../model/setup";
import { withBus } from "../model/update";
import type { Parts, Premise, Premises, WhatIf } from "./model";
import { keyOf, partsOfPlan } from "./parts";
import { searcher } from "./search";
import { isOnBus, premisesOf, situationOf } from "./situation";

/** So many channels that must keep L/R are taken out of the bus one by one; more all at once, as one fact. */
const ONE_BY_ONE = 3;

const keepersIn = (setup: Setup, bus: Bus): Id[][] => {
  const sent = new Set(bus.sends.map((s) => s.channel));
  const keeping = setup.channels.filter((s) => s.keepSides && sent.has(s.id)).map((s) => s.id);
  return keeping.length > ONE_BY_ONE ? [keeping] : keeping.map((id) => [id]);
};

/** Every single fact that may be otherwise and can bear on a bus. */
const premisesToTry = (setup: Setup, bus: Bus): Premise[] => {
  const { preferences: wishes } = setup;
  const members = setup.listeners.filter((l) => isOnBus(l, bus));
  const now = premisesOf(setup).freeInputs;
  const usable = premisesOf({ ...setup, preferences: { ...wishes, inputsFixed: false } }).freeInputs > 0;
  const inputs = (): Premise[] => {
    if (wishes.inputsFixed) return usable ? [{ if: "free inputs may be used" }] : [];
    const more: Premise[] = [
      { if: "inputs", more: 1 },
      { if: "inputs", more: 2 },
    ];
    return now > 0 ? [...more, { if: "inputs", more: -1 }, { if: "free inputs must not be used" }] : more;
  };
  return [
    ...members.map(({ id }): Premise => ({ if: "turned", listener: id })),
    ...setup.listeners
      .filter((l) => l.id !== wishes.first && (hearsFoh(l) || members.includes(l)))
      .map(({ id }): Premise => ({ if: "first", listener: id })),
    ...keepersIn(setup, bus).map((channels): Premise => ({ if: "without", channels })),
    { if: wishes.fohFixed ? "FOH may change" : "FOH must not change" },
    ...inputs(),
  ];
};

/** For whom the kit stands the other way round once somebody faces the other way: a drummer turns the kit with the throne. */
const turnedBy = ({ listeners }: Setup, id: Id): Id[] => {
  const isDrummer = listeners.find((l) => l.id === id && sitsAtKit(l)) !== undefined;
  return isDrummer ? listeners.filter((l) => !sitsAtKit(l)).map((l) => l.id) : [id];
};

const premisesWith = (setup: Setup, premise: Premise): Premises => {
  const now = premisesOf(setup);
  const taking = premisesOf({
    ...setup,
    preferences: { ...setup.preferences, inputsFixed: false },
  }).freeInputs;
  switch (premise.if) {
    case "turned":
      return { ...now, turned: turnedBy(setup, premise.listener) };
    case "first":
      return { ...now, first: premise.listener };
    case "without":
      return now;
    case "FOH may change":
      return { ...now, fohFixed: false };
    case "FOH must not change":
      return { ...now, fohFixed: true };
    case "inputs": {
      const { monitor, preferences: wishes } = setup;
      const inputCount = monitor.inputCount + premise.more;
      return {
        ...now,
        freeInputs: premisesOf({ ...setup, preferences: wishes, monitor: { ...monitor, inputCount } })
          .freeInputs,
      };
    }
    case "free inputs may be used":
      return { ...now, freeInputs: taking };
    case "free inputs must not be used":
      return { ...now, freeInputs: 0 };
  }
};

/** One fact tried: how many of all are, and what would be best instead where that differs. */
export interface Tried {
  readonly done: number;
  readonly of: number;
  readonly found: WhatIf | null;
}

/**
 * Every single fact that may be otherwise, one after the other, so that whoever asks may stop or let others go first:
 * which recommendation would be the best then, where it is another one than now.
 */
export function* whatIfs(setup: Setup, bus: Bus): Generator<Tried, undefined> {
  const situation = situationOf(setup, bus);
  const search = searcher(situation);
  const bestWith = (premise: Premise | null): Parts | null => {
    const premises = premise ? premisesWith(setup, premise) : premisesOf(setup);
    if (premise?.if !== "without") {
      const [best] = search(premises);
      return best ? partsOfPlan(situation, best) : null;
    }
    const changed = withBus(setup, bus.id, (s) => ({
      ...s,
      sends: s.sends.filter((send) => !premise.channels.includes(send.channel)),
    }));
    const its = situationOf(changed, changed.buses.find((s) => s.id === bus.id) ?? bus);
    const [best] = searcher(its)(premises);
    return best ? partsOfPlan(its, best) : null;
  };
  const now = bestWith(null);
  const key = now && keyOf(now);
  const premises = premisesToTry(setup, bus);
  let done = 0;
  for (const premise of premises) {
    const parts = bestWith(premise);
    done += 1;
    const id = parts && keyOf(parts);
    yield { done, of: premises.length, found: parts && id && id !== key ? { premise, id, parts } : null };
  }
  return undefined;
}
