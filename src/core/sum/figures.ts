import { heardInSum } from "../ears";
import { type Part, partsOf } from "../mix";
import { once } from "../remember";
import type { Id, Setup, Sum } from "../setup";
import type { Db, Legs, Outlet } from "../units";
import { arrivalsAt, strengthOf } from "./arrivals";
import { type Ceiling, ceilingsOf, limitsOf, lowestOf, trimsOf } from "./ceilings";
import { type FarSource, type Fold, foldsOf, oneEarOf } from "./folded";
import { type LawFigures, lawFigures } from "./lawfigures";
import { type LegFigures, legFigures } from "./leg";
import { type LevelError, levelErrorOf } from "./levelerror";
import { lossOf, loudestAlone } from "./loss";
import { type Remedy, remedyOf } from "./remedy";

/**
 * Everything about one sum. Levels are dBFS after the trims: rms in the console's convention, peaks as samples.
 * Legs are the console's own, before any reversed patch.
 */
export interface SumFigures {
  readonly sum: Id;
  /** Both alike for a mono sum. */
  readonly legs: Legs<LegFigures>;
  /** The plain sum left + right, source by source; for a mono sum the leg itself. */
  readonly mono: LegFigures;
  /** How good the levels are. */
  readonly levelError: LevelError;
  /** Sources that sound but are left out of the levels, and of the peaks, because nobody knows theirs. */
  readonly unknown: { readonly level: readonly Id[]; readonly peak: readonly Id[] };
  /** In the order of the chain. */
  readonly ceilings: readonly Ceiling[];
  /** The one that rules. */
  readonly lowest: Ceiling;
  /** What to do; null where every ceiling has its margin. */
  readonly remedy: Remedy | null;
  /** Peak of the loudest single source after its send, before pan and trims, dBFS. */
  readonly alone: Db;
  /** Headroom loss against that, by leg, dB; null for a silent leg. */
  readonly loss: Legs<Db | null>;
  /** The same sum by every law. */
  readonly laws: readonly LawFigures[];
  /** What folding to mono does to each source of a pair. */
  readonly folds: readonly Fold[];
  /** By ear, as the pair is patched, with the trims and switches of its slots: what the sources of the other side drop to in that ear alone. */
  readonly oneEar: Legs<readonly FarSource[]>;
}

const OUTLETS: readonly [Outlet, Outlet, Outlet] = ["left", "right", "mono"];
/** A mono sum has one leg, whatever it is asked for. */
const ONE_OUTLET: readonly [Outlet, Outlet, Outlet] = ["left", "left", "left"];

const without = (parts: readonly Part[], what: "level" | "peak"): Id[] =>
  parts.filter((p) => p.source[what] === null).map((p) => p.source.id);

/** All figures of a sum: what it adds up to, whether it fits, what summing cost and what to do. */
export const sumFigures = (setup: Setup, sum: Sum): SumFigures => {
  const { margin } = setup.wishes;
  const parts = partsOf(setup, sum);
  const strengths = parts.map((p) => strengthOf(p.source));
  const pieces = new Map(setup.kit.pieces.map((p) => [p.id, p]));
  const outlets = sum.stereo ? OUTLETS : ONE_OUTLET;
  const left = arrivalsAt(parts, strengths, outlets[0]);
  const right = arrivalsAt(parts, strengths, outlets[1]);
  const fold = arrivalsAt(parts, strengths, outlets[2]);
  const legs: Legs<LegFigures> = [
    legFigures(left, pieces, setup.recording),
    legFigures(right, pieces, setup.recording),
  ];
  const likely: Legs<Db> = [legs[0].likely, legs[1].likely];
  const unknown = { level: without(parts, "level"), peak: without(parts, "peak") };
  const limits = limitsOf(setup, sum);
  const peaksKnown = parts.length === 0 || unknown.peak.length < parts.length;
  const ceilings = ceilingsOf(limits, likely, margin, peaksKnown);
  const alone = loudestAlone(parts, strengths);
  // Half of all the work, and only one table asks for it.
  const laws = once(() => lawFigures(setup, sum, strengths, outlets, limits, alone));
  return {
    sum: sum.id,
    legs,
    mono: legFigures(fold, pieces, setup.recording),
    levelError: levelErrorOf(parts, pieces),
    unknown,
    ceilings,
    lowest: lowestOf(ceilings),
    remedy: remedyOf(sum, [left, right], limits, ceilings, margin, setup.console.levelStep),
    alone,
    loss: lossOf(likely, trimsOf(sum), alone),
    get laws() {
      return laws();
    },
    folds: foldsOf(sum, parts),
    oneEar: oneEarOf(sum, heardInSum(setup, sum)),
  };
};
