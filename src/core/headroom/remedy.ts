import { gainOf } from "../level/decibels";
import { LOWEST_SEND, LOWEST_TRIM } from "../model/limits";
import type { Bus, Id } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { type Ceiling, type CeilingLevel, SLACK, type Stage } from "./ceilings";
import type { Contribution } from "./contributions";
import { loneReason } from "./lone-reason";

/** One send to lower. */
export interface LowerSend {
  readonly channel: Id;
  /** Level of the send then, dB; null is off, where the desk goes no lower. */
  readonly to: Db | null;
}

/** Sends to lower, all of them by as much. */
export interface LowerSends {
  /** How far down, dB, positive. */
  readonly by: Db;
  readonly sends: readonly LowerSend[];
}

/**
 * What a trim of the whole bus can do:
 * "enough": every ceiling has its target then;
 * "bus before trim": the bus itself lacks headroom, and lies before its trim: only lower sends help;
 * "out of range": no trim goes so low.
 */
export type TrimRemedy =
  | { readonly code: "enough"; readonly to: Db; readonly by: Db }
  | { readonly code: "out of range"; readonly to: Db }
  | { readonly code: "bus before trim" };

/**
 * What restores the target headroom, in the desk's steps, never a step short and never one too many. Nothing of it ruins
 * the balance: the whole bus is lowered, or the one source that alone is the reason.
 */
export interface Remedy {
  /** How far the limiting stage is short of the target, dB. */
  readonly short: Db;
  readonly trim: TrimRemedy;
  /** Every send that has a level, also one that is off now: what comes on later is in balance too. */
  readonly all: LowerSends;
  /**
   * The one source that alone is the reason (`loneReason`); null where the sum is, where a peak is not entered (nobody
   * knows then that the others fit), and where there is no other send.
   */
  readonly lone: LowerSends | null;
}

/** So much of the target may be missing by rounding before another whole step is taken, dB. */
const ROUNDING = SLACK / 2;

const lacking = (ceilings: readonly Ceiling[], target: Db, at: (place: Stage) => boolean): Db =>
  Math.max(0, ...ceilings.filter((c) => at(c.place)).map((c) => target - c.headroom));

const trimFor = (bus: Bus, step: Db, short: Db, shortAtBus: Db): TrimRemedy => {
  if (shortAtBus > SLACK) return { code: "bus before trim" };
  const to = Math.floor((bus.trim - short + ROUNDING) / step) * step;
  return to < LOWEST_TRIM ? { code: "out of range", to } : { code: "enough", to, by: bus.trim - to };
};

const allBy = (bus: Bus, by: Db): LowerSends => ({
  by,
  sends: bus.sends.flatMap(({ channel, level }) =>
    level === null ? [] : [{ channel, to: level - by < LOWEST_SEND ? null : level - by }],
  ),
});

const loneFor = (
  arrivals: Sides<readonly Contribution[]>,
  limits: readonly CeilingLevel[],
  target: Db,
  step: Db,
): LowerSends | null => {
  if (arrivals[0].some(({ peak }) => peak === null)) return null;
  const levels = arrivals[0].map(({ part }) => part.send.level ?? LOWEST_SEND);
  const side = (at: 0 | 1) => ({
    peaks: arrivals[at].map((a) => a.peak ?? 0),
    limit: gainOf(Math.min(...limits.map((l) => l.at[at])) - target + ROUNDING),
  });
  const stepsOf = (send: number): number => ((levels[send] as number) - LOWEST_SEND + ROUNDING) / step;
  const found = loneReason([side(0), side(1)], step, stepsOf);
  if (!found) return null;
  const by = found.steps * step;
  const { channel } = (arrivals[0][found.send] as Contribution).part;
  return { by, sends: [{ channel: channel.id, to: (levels[found.send] as number) - by }] };
};

/**
 * What to do about missing headroom.
 * @param arrivals what arrives at each side
 * @param target wanted headroom, dB
 * @param step the desk's level step, dB
 * @returns null where every ceiling has its target
 */
export const remedyOf = (
  bus: Bus,
  arrivals: Sides<readonly Contribution[]>,
  limits: readonly CeilingLevel[],
  ceilings: readonly Ceiling[],
  target: Db,
  step: Db,
): Remedy | null => {
  const short = lacking(ceilings, target, () => true);
  if (short <= SLACK) return null;
  const afterTrim = lacking(ceilings, target, (place) => place !== "bus");
  const atBus = lacking(ceilings, target, (place) => place === "bus");
  const all = allBy(bus, Math.ceil((short - ROUNDING) / step) * step);
  return {
    short,
    trim: trimFor(bus, step, afterTrim, atBus),
    all,
    lone: all.sends.length === 1 ? null : loneFor(arrivals, limits, target, step),
  };
};
