import type { Db, Gain } from "../model/units";

/**
 * Level of an amplitude ratio: 20 lg |g|.
 * @param gain amplitude ratio, any sign; 0 gives −∞
 * @example levelOf(0.5) // -6.020599913279624
 */
export const levelOf = (gain: Gain): Db => 20 * Math.log10(Math.abs(gain));

/** Level of a power ratio: 10 lg P. 0 gives −∞. */
export const levelOfPower = (power: number): Db => 10 * Math.log10(power);

/** Amplitude ratio of a level: 10^(L/20). −∞ gives 0. */
export const gainOf = (level: Db): Gain => 10 ** (level / 20);

/** Power ratio of a level: 10^(L/10). −∞ gives 0. */
export const powerOf = (level: Db): number => 10 ** (level / 10);

/**
 * Level of uncorrelated signals together: 10 lg Σ 10^(L/10).
 * −∞ is neutral; none at all is −∞.
 * @example energySum([60, 60]) // 63.01029995663981
 */
export const energySum = (levels: Iterable<Db>): Db => {
  let power = 0;
  for (const level of levels) power += powerOf(level);
  return levelOfPower(power);
};

/** Level of signals that add in phase: 20 lg Σ 10^(L/20). The bound of every sum of theirs. A checked formula: no figure uses it. */
export const coherentSum = (levels: Iterable<Db>): Db => {
  let amplitude = 0;
  for (const level of levels) amplitude += gainOf(level);
  return levelOf(amplitude);
};
