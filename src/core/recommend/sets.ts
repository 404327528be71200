import { type Buses, badnessOf, compareBadness, NO_BADNESS, plus } from "./badness";
import { busesWith, type Effect, toggled } from "./effects";
import { crowdsOf, type Frame, type Hearer, hearersOf, type MeansSet, wayOf } from "./frame";
import type { ListenerChoice, Mirrored, RankedPlan } from "./model";
import { bestMirrored, crowdOf, isOpen } from "./pans";

/** The pans that are best where each member does what a way says. */
export const fitted = (frame: Frame, way: MeansSet): Mirrored =>
  bestMirrored(frame.situation.voices.length, ...crowdsOf(hearersOf(frame, way)));

/** Every way of sharing a bus: who does nothing, who flips, who has a bus of their own. */
export const everyWay = ({ seats, freeInputs }: Frame): MeansSet[] =>
  seats.reduce<MeansSet[]>(
    (ways, { flip }) =>
      ways.flatMap((way) => {
        const taken = 2 * way.filter((does) => does === "own bus").length;
        const does: ListenerChoice["does"][] = ["nothing"];
        if (flip) does.push("flip");
        if (taken + 2 <= freeInputs) does.push("own bus");
        return does.map((d) => [...way, d]);
      }),
    [[]],
  );

/** Most work of going through the deciders: for each, every channel of every listener, and who does what then. */
const MOST_WORK = 2 ** 16;
/** What is done for each listener beside the channels, as so many channels. */
const BESIDE_CHANNELS = 100;

/**
 * The set that each listener would choose alone, before and after a flip at their own mixer; who matters most first.
 * Of a crowd that faces every way and hundreds of channels the first few decide: the rest fits the set to all.
 */
export const decided = ({ situation, seats, elsewhere, change }: Frame): Mirrored[] => {
  const effects = new Set<Effect>(seats.filter((s) => s.isFirst).map((s) => s.nothing));
  for (const { nothing, flip } of seats)
    for (const effect of [nothing, flip]) if (effect) effects.add(effect);
  if (change.panning === "foh") for (const { effect } of elsewhere) effects.add(effect);
  const most = Math.ceil(MOST_WORK / ((situation.voices.length + BESIDE_CHANNELS) * (seats.length + 1)));
  return [...effects]
    .slice(0, most)
    .map((effect) => bestMirrored(situation.voices.length, crowdOf([effect]), []));
};

const bothBadness = (buses: readonly Buses[], hearers: readonly Hearer[]) => {
  let [first, others] = [NO_BADNESS, NO_BADNESS];
  buses.forEach((its, at) => {
    if (hearers[at]?.isFirst) first = plus(first, badnessOf(its));
    else others = plus(others, badnessOf(its));
  });
  return { first, others };
};

/** A plan's pans with each turned over where that is better or one move less: what the rounding of the score leaves open. */
export const polished = (frame: Frame, plan: RankedPlan): Mirrored => {
  const hearers = hearersOf(frame, wayOf(plan));
  const [first, others] = crowdsOf(hearers);
  const mirrored = new Set(plan.change.mirrored);
  let buses = hearers.map(({ effect }) => busesWith(effect, plan.change.mirrored));
  let now = bothBadness(buses, hearers);
  for (let voice = 0; voice < frame.situation.voices.length; voice += 1) {
    if (!isOpen(first, others, voice)) continue;
    const isMirrored = mirrored.has(voice);
    const tried = hearers.map(({ effect }, at) => toggled(buses[at] as Buses, effect, voice, isMirrored));
    const then = bothBadness(tried, hearers);
    const worse =
      compareBadness(then.first, now.first) ||
      compareBadness(then.others, now.others) ||
      (isMirrored ? -1 : 1);
    if (worse > 0) continue;
    if (isMirrored) mirrored.delete(voice);
    else mirrored.add(voice);
    [buses, now] = [tried, then];
  }
  return [...mirrored].sort((a, b) => a - b);
};
