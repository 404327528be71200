import { energySum, levelOf, levelOfPower } from "../level/decibels";
import type { Earphone } from "../model/setup";
import type { Db, Seconds } from "../model/units";

/** A rule that trades level against time. */
export interface ExposureRule {
  readonly id: "niosh" | "osha";
  /** Level allowed for the reference time, dBA. */
  readonly level: Db;
  readonly time: Seconds;
  /** Louder by this much halves the time, dB. */
  readonly exchange: Db;
}

const HOUR: Seconds = 3600;

/** NIOSH publication 98-126 (1998): 85 dBA for 8 h, 3 dB exchange. */
export const NIOSH: ExposureRule = {
  id: "niosh",
  level: 85,
  time: 8 * HOUR,
  exchange: 3,
};

/** OSHA 29 CFR 1910.95, Table G-16: 90 dBA for 8 h, 5 dB exchange. The contrast: eight times NIOSH's time at 100 dBA. */
export const OSHA: ExposureRule = {
  id: "osha",
  level: 90,
  time: 8 * HOUR,
  exchange: 5,
};

/** Sound pressure of 0 dB, Pa. */
const QUIETEST = 20e-6;

/** What the directive sets a value for: the limit, and two above which something is to be done. */
export type ExposureValue = "limit" | "upper" | "lower";

const exposure = (id: ExposureValue, daily: Db, pascals: number) => ({
  id,
  /** Daily noise exposure level LEX,8h, dBA. */
  daily,
  /** Peak sound pressure, Pa and dB(C). */
  pascals,
  peak: levelOf(pascals / QUIETEST),
});

/** Exposure limit and action values of Directive 2003/10/EC, Article 3. */
export const EU_VALUES = [
  exposure("limit", 87, 200),
  exposure("upper", 85, 140),
  exposure("lower", 80, 112),
] as const;

/** Time at a level that a rule allows in a day, seconds; +∞ for silence. */
export const allowedTime = (rule: ExposureRule, level: Db): Seconds =>
  rule.time / 2 ** ((level - rule.level) / rule.exchange);

/** Error of the estimate, ± dB, or worse: seal, insertion and response move it. From memory, no source. */
export const EARPHONE_ERROR: Db = 5;

/** What a rule allows at an estimated level. */
export interface Allowed {
  readonly rule: ExposureRule;
  readonly time: Seconds;
  /** By the error: the time if it is louder than estimated, and if it is softer. */
  readonly shortest: Seconds;
  readonly longest: Seconds;
}

/** Estimate of the level at the ear. Not a measurement. */
export interface EarphoneFigures {
  /** From the earphone, dB of sound pressure, ± `EAR_ERROR` or worse; taken as dBA for the times. */
  readonly level: Db;
  /** From the stage through the isolation, dBA. */
  readonly leak: Db;
  /** Both together. */
  readonly total: Db;
  readonly niosh: Allowed;
  readonly osha: Allowed;
}

const allowed = (rule: ExposureRule, level: Db): Allowed => ({
  rule,
  time: allowedTime(rule, level),
  shortest: allowedTime(rule, level + EARPHONE_ERROR),
  longest: allowedTime(rule, level - EARPHONE_ERROR),
});

/** dB/V of a sensitivity in dB/mW at an impedance: + 10 lg(1000/Z). The two units never compare as they stand. */
export const perVolt = (perMilliwatt: Db, impedance: number): Db =>
  perMilliwatt + levelOfPower(1000 / impedance);

/** Level at the ear from an earphone's data and its drive, with the leak from the stage. Impedances in Ω, above 0. */
export const earphoneFigures = (ear: Earphone): EarphoneFigures => {
  // At the earphone, behind the channel impedance.
  const volts = (ear.drive * ear.impedance) / (ear.impedance + ear.sourceImpedance);
  const atOneVolt = ear.unit === "dB/mW" ? perVolt(ear.sensitivity, ear.impedance) : ear.sensitivity;
  const level = atOneVolt + levelOf(volts);
  const leak = ear.stage - ear.isolation;
  const total = energySum([level, leak]);
  return { level, leak, total, niosh: allowed(NIOSH, total), osha: allowed(OSHA, total) };
};
