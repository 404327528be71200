import { lazily, once } from "../lib/memo";
import { type MixedChannel, mixedChannelsOf } from "../mix/bus";
import { heardInBus } from "../mix/ear-gains";
import { isStruck } from "../model/kinds";
import type { Bus, Id, Setup } from "../model/setup";
import type { Db, Outlet, Sides } from "../model/units";
import { activityIn } from "./activity";
import { type LawFigures, lawFigures } from "./by-law";
import { type Ceiling, ceilingLevelsOf, ceilingsOf, limitingStageOf, trimsOf } from "./ceilings";
import { channelLevelsOf, contributionsAt } from "./contributions";
import { type FarChannel, foldsOf, type MonoFold, oneEarOf } from "./fold";
import { headroomLossOf, loudestAlone } from "./loss";
import { type Remedy, remedyOf } from "./remedy";
import { type SideFigures, sideFigures } from "./side";

/**
 * Everything about one bus. Levels are dBFS after the trims: rms in the console's convention, peaks as samples.
 * Sides are the console's own, before any reversed patch.
 */
export interface BusFigures {
  readonly bus: Id;
  /** Both alike for a mono bus. */
  readonly sides: Sides<SideFigures>;
  /** The plain sum left + right, channel by channel; for a mono bus the side itself. */
  readonly mono: SideFigures;
  /** Channels that sound but are left out of the levels, and of the peaks, because nobody knows theirs. */
  readonly unknown: { readonly level: readonly Id[]; readonly peak: readonly Id[] };
  /** In the order of the chain. */
  readonly ceilings: readonly Ceiling[];
  /** The one that rules. */
  readonly lowest: Ceiling;
  /** The ceiling that the loudest playable peak comes closest to, or clips. */
  readonly hardFill: Ceiling;
  /** Whether something that is struck sounds in it: only then is the loudest playable peak a fill. */
  readonly hasDrums: boolean;
  /** What to do; null where every ceiling has its margin. */
  readonly remedy: Remedy | null;
  /** Peak of the loudest single channel after its send, before pan and trims, dBFS. */
  readonly alone: Db;
  /** Headroom loss against that, by side, dB; null for a silent side. */
  readonly loss: Sides<Db | null>;
  /** The same bus by every law. */
  readonly laws: readonly LawFigures[];
  /** What folding to mono does to each channel of a pair. */
  readonly folds: readonly MonoFold[];
  /** By ear, as the pair is patched, with the trims and switches of its inputs: what the channels of the other side drop to in that ear alone. */
  readonly oneEar: Sides<readonly FarChannel[]>;
}

const OUTLETS: readonly [Outlet, Outlet, Outlet] = ["left", "right", "mono"];
/** A mono bus has one side, whatever it is asked for. */
const ONE_OUTLET: readonly [Outlet, Outlet, Outlet] = ["left", "left", "left"];

const without = (parts: readonly MixedChannel[], what: "gatedRms" | "peak"): Id[] =>
  parts.filter((p) => p.channel[what] === null).map((p) => p.channel.id);

/**
 * All figures of a bus: what it adds up to, whether it fits, what summing cost and what to do.
 * @param parts what sounds in it, where that is known already
 */
export const busFigures = (
  setup: Setup,
  bus: Bus,
  parts: readonly MixedChannel[] = mixedChannelsOf(setup, bus),
): BusFigures => {
  const { targetHeadroom: margin } = setup.preferences;
  const activityOf = activityIn(setup);
  const strengths = parts.map((p) => channelLevelsOf(p.channel, activityOf(p.channel)));
  const pieces = new Map(setup.kit.pieces.map((p) => [p.id, p]));
  const outlets = bus.stereo ? OUTLETS : ONE_OUTLET;
  const left = contributionsAt(parts, strengths, outlets[0]);
  const right = contributionsAt(parts, strengths, outlets[1]);
  const sides: Sides<SideFigures> = [
    sideFigures(left, pieces, setup.recording),
    sideFigures(right, pieces, setup.recording),
  ];
  const likely: Sides<Db> = [sides[0].likely, sides[1].likely];
  const unknown = { level: without(parts, "gatedRms"), peak: without(parts, "peak") };
  const limits = ceilingLevelsOf(setup, bus);
  const peaksKnown = parts.length === 0 || unknown.peak.length < parts.length;
  const ceilings = ceilingsOf(limits, likely, margin, peaksKnown);
  const alone = once(() => loudestAlone(parts, strengths));
  const hardFill = (): Ceiling => {
    const playable: Sides<Db> = [sides[0].playable, sides[1].playable];
    return limitingStageOf(ceilingsOf(limits, playable, margin, peaksKnown));
  };
  // Of all buses a screen looks at no more than their headroom; the rest, most of the work, it asks of one.
  return lazily<BusFigures>({
    bus: () => bus.id,
    sides: () => sides,
    mono: () => sideFigures(contributionsAt(parts, strengths, outlets[2]), pieces, setup.recording),
    unknown: () => unknown,
    ceilings: () => ceilings,
    lowest: () => limitingStageOf(ceilings),
    hardFill,
    hasDrums: () => parts.some(({ channel }) => isStruck(pieces.get(channel.piece ?? ""))),
    remedy: () => remedyOf(bus, [left, right], limits, ceilings, margin, setup.desk.levelStep),
    alone,
    loss: () => headroomLossOf(likely, trimsOf(bus), alone()),
    laws: () => lawFigures(setup, bus, strengths, outlets, limits, alone()),
    folds: () => foldsOf(bus, parts),
    oneEar: () => oneEarOf(bus, heardInBus(setup, bus, parts)),
  });
};
