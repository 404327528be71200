import { type Badness, badnessOf } from "./badness";
import { badOf, busesWith, type Effect, effectFrom, FIGURES, flatOf, ROUNDING, toggled } from "./effects";
import type { Mirrored, Situation } from "./model";
import { entriesFor, type Hearing, type TallyEntry, type Viewpoint } from "./tally";

/** Effects for several listeners, each with how many of them there are. */
export type Crowd = readonly { readonly effect: Effect; readonly count: number }[];

/** Effects as a crowd: equal ones counted together. */
export const crowdOf = (effects: readonly Effect[]): Crowd => {
  const counts = new Map<Effect, number>();
  for (const effect of effects) counts.set(effect, (counts.get(effect) ?? 0) + 1);
  return Array.from(counts, ([effect, count]) => ({ effect, count }));
};

/**
 * What mirroring a voice does for a crowd, below 0 where it is better: by sides, where they stay by flat, where that
 * stays by score, in parts of one.
 */
const leaning = (crowd: Crowd, voice: number): { readonly sides: number; readonly score: number } => {
  const at = voice * FIGURES;
  let [bad, flat, score] = [0, 0, 0];
  for (const { effect, count } of crowd) {
    const { changes } = effect;
    bad += count * (changes[at] as number);
    flat += count * (changes[at + 1] as number);
    score -= count * (changes[at + 4] as number);
  }
  return { sides: bad || flat, score: Math.abs(score) > ROUNDING ? score : 0 };
};

/**
 * The voices whose mirrored pan is better: for the first crowd, and where it does not matter to them for the second.
 * Exact but for the rounding of the score: wrong sides and flats add up voice by voice.
 */
export const bestMirrored = (size: number, first: Crowd, others: Crowd): Mirrored => {
  const mirrored: number[] = [];
  for (let voice = 0; voice < size; voice += 1) {
    const its = leaning(first, voice);
    const leans = its.sides || its.score;
    const rest = leans === 0 ? leaning(others, voice) : its;
    if ((leans || rest.sides || rest.score) < 0) mirrored.push(voice);
  }
  return mirrored;
};

/** Whether only the score of the first crowd, or of both, is at stake in a voice: then its rounding may leave a choice. */
export const isOpen = (first: Crowd, others: Crowd, voice: number): boolean => {
  const its = leaning(first, voice);
  return its.sides === 0 && (its.score !== 0 || leaning(others, voice).sides === 0);
};

/** The fewest of some mirrored pans that come to the same badness for one listener: what gains least is left as it is. */
export const fewest = (
  effect: Effect,
  mirrored: Mirrored,
): { readonly mirrored: Mirrored; readonly badness: Badness } => {
  const { changes } = effect;
  const figure = (voice: number, which: number): number => changes[voice * FIGURES + which] as number;
  let buses = busesWith(effect, mirrored);
  const badness = badnessOf(buses);
  const optional = mirrored
    .filter((v) => figure(v, 0) === 0 && figure(v, 1) === 0)
    .sort((a, b) => figure(a, 4) - figure(b, 4));
  const back = new Set<number>();
  for (const voice of optional) {
    const without = toggled(buses, effect, voice, true);
    if (badnessOf(without)[2] > badness[2]) break;
    buses = without;
    back.add(voice);
  }
  return { mirrored: mirrored.filter((v) => !back.has(v)), badness };
};

/**
 * What mirrored channel pans do to a bus of one's own, which does not follow them: only the L/R that must be kept is
 * another then, and with it which pan is better.
 * @param alone the pans mirrored in it with no channel pan mirrored
 * @returns the effect, and for each voice how many pans more are set then: 1, −1 or 0
 */
export const besideOwn = (
  situation: Situation,
  view: Viewpoint,
  hearing: Hearing,
  effect: Effect,
  alone: Mirrored,
): { readonly effect: Effect; readonly turns: readonly number[] } => {
  const entry = entriesFor(situation, view, hearing);
  const mirrored = new Set(alone);
  const pairs = situation.voices.map((_, at) => {
    const is = mirrored.has(at);
    const of = (inBus: boolean): TallyEntry => entry(at, { inBus, channel: true });
    const [same, other] = [of(is), of(!is)];
    const better = badOf(other) - badOf(same) || flatOf(other) - flatOf(same) || same.heard - other.heard;
    return {
      now: entry(at, { inBus: is, channel: false }),
      best: better < 0 ? other : same,
      turns: better >= 0 ? 0 : is ? -1 : 1,
    };
  });
  const { changes } = effectFrom(
    [],
    pairs.map(({ now, best }) => [now, best]),
  );
  return { effect: { base: busesWith(effect, alone), changes }, turns: pairs.map((p) => p.turns) };
};
