import { formatEntry } from "../lib/number";
import type { RmsConvention } from "../model/setup";
import type { Db } from "../model/units";
import { gainOf, levelOf, levelOfPower } from "./decibels";

/** Volts rms of 0 dBu: 1 mW in 600 Ω. */
const DBU_VOLTS = Math.sqrt(0.6);

/** Rms of a full-scale sine against its peak, dB (negative). */
const SINE: Db = levelOfPower(1 / 2);

/** Volts rms of a level in dBu. */
export const voltsOfDbu = (level: Db): number => DBU_VOLTS * gainOf(level);

/** Level in dBu of volts rms. */
export const dbuOfVolts = (volts: number): Db => levelOf(volts / DBU_VOLTS);

/** Volts rms of a level in dBV. */
export const voltsOfDbv = gainOf;

/** Level in dBV of volts rms. */
export const dbvOfVolts = levelOf;

/** dBV of the same voltage in dBu. */
export const dbvOfDbu = (level: Db): Db => level + levelOf(DBU_VOLTS);

/** dBu of the same voltage in dBV. */
export const dbuOfDbv = (level: Db): Db => level - levelOf(DBU_VOLTS);

/** Peak volts of a sine of so many volts rms. */
export const peakOfSine = (voltsRms: number): number => voltsRms * Math.SQRT2;

/** What a full-scale sine reads, dBFS rms: −3.01 by samples, 0 by AES17 and IEC 61606. */
export const fullScaleSine = (convention: RmsConvention): Db => (convention === "sample" ? SINE : 0);

/** An rms convention in words: what a full-scale sine reads by it, "−3.01 dBFS", and whose it is. */
export const rmsBy = (convention: RmsConvention): { readonly sine: string; readonly by: string } => ({
  sine: `${formatEntry(Math.round(100 * fullScaleSine(convention)) / 100)} dBFS`,
  by: convention === "aes17" ? "AES17 and IEC 61606" : "samples",
});

/** A dBFS rms level of one convention in the other. Peaks are the same in both: never convert them. */
export const convertRms = (level: Db, from: RmsConvention, to: RmsConvention): Db =>
  level + (fullScaleSine(to) - fullScaleSine(from));

/**
 * Level at an analogue output, dBu rms, of a dBFS rms level.
 * @param atFullScale dBu of a full-scale sine at that output
 */
export const outputDbuOf = (level: Db, convention: RmsConvention, atFullScale: Db): Db =>
  convertRms(level, convention, "aes17") + atFullScale;
