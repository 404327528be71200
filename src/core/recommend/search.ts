import { once } from "../lib/memo";
import { PERMITS, plansWith } from "./assign";
import { compare, isAsGood } from "./badness";
import { type Frame, frameOf, wayOf } from "./frame";
import type { Mirrored, Panning, Premises, RankedPlan, Situation } from "./model";
import { type Outlook, outlookOf } from "./options";
import { decided, everyWay, fitted, polished } from "./sets";
import { hasSides } from "./situation";

/** Up to so many members every way of sharing the bus is gone through: 3 to the fourth. */
const EVERY_WAY = 4;
/** How often a set of pans is fitted to what each listener does, and that to the set, where there are more. */
const ROUNDS = 3;

/** The best plans of one frame, one for each permit; none where no pan is worth to be set. */
const plansIn = (frame: Frame): RankedPlan[] => {
  const best: (RankedPlan | undefined)[] = PERMITS.map(() => undefined);
  const found = (): RankedPlan[] => best.filter((plan) => plan !== undefined);
  const tried = new Set<string>();
  const attempt = (mirrored: Mirrored): boolean => {
    const key = mirrored.join();
    if (mirrored.length === 0 || tried.has(key)) return false;
    tried.add(key);
    plansWith(frame, mirrored).forEach((plan, at) => {
      const kept = best[at];
      if (!kept || compare(plan, kept) < 0) best[at] = plan;
    });
    return true;
  };
  for (const mirrored of decided(frame)) attempt(mirrored);
  if (frame.seats.length <= EVERY_WAY) for (const way of everyWay(frame)) attempt(fitted(frame, way));
  else
    for (let round = 0; round < ROUNDS; round += 1) {
      const news = found().map((plan) => attempt(fitted(frame, wayOf(plan))));
      if (!news.includes(true)) break;
    }
  for (const plan of found()) attempt(polished(frame, plan));
  return found();
};

/** Every plan that may be the best of its kind, in the order in which equals are preferred: what is done once at the desk first. */
const everyKind = (situation: Situation, premises: Premises, outlook: Outlook): RankedPlan[] => {
  const sides = hasSides(situation.bus);
  const frame = (swap: boolean, fold: boolean, panning: Panning): Frame =>
    frameOf(situation, premises, outlook, { swap, fold, panning });
  const pannings: Panning[] = [
    ...(sides ? ["bus" as const] : []),
    ...(premises.fohFixed ? [] : ["foh" as const]),
  ];
  return [
    ...(sides ? [true, false] : [false]).flatMap((swap) => [
      ...plansWith(frame(swap, false, "keep"), []),
      ...pannings.flatMap((panning) => plansIn(frame(swap, false, panning))),
    ]),
    ...(sides ? plansWith(frame(false, true, "keep"), []) : []),
  ];
};

/** Searches a situation: for premises, the best plan of each kind that no other is as good as in everything, best first. */
export const searcher = (situation: Situation): ((premises: Premises) => RankedPlan[]) => {
  const outlook = once(() => outlookOf(situation));
  return (premises) => {
    const kept: RankedPlan[] = [];
    // In the order of weight nothing is beaten by what comes after it, so one pass over what is kept will do.
    for (const plan of everyKind(situation, premises, outlook()).sort(compare))
      if (!kept.some((k) => isAsGood(k, plan))) kept.push(plan);
    return kept;
  };
};
