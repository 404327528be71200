import { type Image, imagesOf } from "./image";
import { type Part, partsOf } from "./mix";
import { type PatchFigures, patchFigures } from "./patch/figures";
import { once } from "./remember";
import type { Id, Setup } from "./setup";
import { type EarFigures, earFigures } from "./sum/ear";
import { type SumFigures, sumFigures } from "./sum/figures";

/** Everything that is shown, exported or printed of a setup; each computed once, when somebody looks at it. */
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

/**
 * The front door of the arithmetic: all figures of a setup. What nobody looks at costs nothing, so a drag on one
 * screen does not pay for the others. Repairs, ways back under the slot count and the check at the kit have doors of
 * their own (`repairsFor`, `fits`, `checkOf`): they are searches, and are loaded on demand.
 */
export const evaluate = (setup: Setup): Figures => {
  const parts = once(() => new Map(setup.sums.map((s) => [s.id, partsOf(setup, s)])));
  const sums = once(() => new Map(setup.sums.map((s) => [s.id, sumFigures(setup, s)])));
  const images = once(() => imagesOf(setup));
  const ear = once(() => setup.ear && earFigures(setup.ear));
  const patch = once(() => patchFigures(setup));
  return {
    get parts() {
      return parts();
    },
    get sums() {
      return sums();
    },
    get images() {
      return images();
    },
    get ear() {
      return ear();
    },
    get patch() {
      return patch();
    },
  };
};
