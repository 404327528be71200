import { type Image, imagesOf } from "./image";
import { type Part, partsOf } from "./mix";
import { type PatchFigures, patchFigures } from "./patch/figures";
import type { Id, Setup } from "./setup";
import { type EarFigures, earFigures } from "./sum/ear";
import { type SumFigures, sumFigures } from "./sum/figures";

/** Everything that is shown, exported or printed of a setup; computed once, here. */
export interface Figures {
  /** What sounds in each sum, by the sum's id. */
  readonly parts: ReadonlyMap<Id, readonly Part[]>;
  /** Levels, peaks and headroom of each sum, by its id. */
  readonly sums: ReadonlyMap<Id, SumFigures>;
  /** What each listener gets, in the order of the setup's listeners. */
  readonly images: readonly Image[];
  /** Estimated level at the ear; null where it is not asked for. */
  readonly ear: EarFigures | null;
  /** The slots. */
  readonly patch: PatchFigures;
}

/** The front door of the arithmetic: all figures of a setup. */
export const evaluate = (setup: Setup): Figures => {
  const parts = new Map(setup.sums.map((s) => [s.id, partsOf(setup, s)]));
  return {
    parts,
    sums: new Map(setup.sums.map((s) => [s.id, sumFigures(setup, s)])),
    images: imagesOf(setup),
    ear: setup.ear && earFigures(setup.ear),
    patch: patchFigures(setup),
  };
};
