import { levelOf } from "../level/decibels";
import type { Db, Pan, Side } from "../model/units";
import { type PanSettings, panGains } from "./laws";

/** Where the meter of one steady channel is read: before its pan, or at one side of the bus with the pan set so. */
export type ReadingPoint = "before pan" | { readonly pan: Pan; readonly side: Side };

/** What a meter showed. */
export interface Reading {
  readonly at: ReadingPoint;
  readonly level: Db;
  /** Step of the meter, dB, positive: what it shows is the true level to the nearest or the last step. */
  readonly resolution: Db;
}

/** Levels before the pan, dB; empty where high is below low. */
export interface SourceLevels {
  readonly low: Db;
  readonly high: Db;
}

/** Level at a point of a channel that has 0 dB before its pan. */
export const levelAt = (settings: PanSettings, at: ReadingPoint): Db =>
  at === "before pan" ? 0 : levelOf(panGains(settings, at.pan)[at.side === "left" ? 0 : 1]);

/** Whether something is heard at a point: a hard-panned channel's other side is silent by every law. */
export const isHeard = (at: ReadingPoint): boolean =>
  at === "before pan" || (at.side === "left" ? at.pan < 1 : at.pan > -1);

/**
 * The levels before the pan by which all readings agree with a law. Where there are none, high is as far below low as
 * two readings are from each other beyond the meter's step.
 * @param readings each at a point where something is heard
 */
export const sourceLevels = (settings: PanSettings, readings: readonly Reading[]): SourceLevels => {
  const spans = readings.map(({ at, level, resolution }) => {
    const source = level - levelAt(settings, at);
    return { low: source - resolution / 2, high: source + resolution / 2 };
  });
  return {
    low: Math.max(...spans.map(({ low }) => low)),
    high: Math.min(...spans.map(({ high }) => high)),
  };
};
