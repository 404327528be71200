import { type Image, imagesOf } from "./image";
import { type Part, partsOf } from "./mix";
import type { Id, Setup } from "./setup";

/** Everything that is shown, exported or printed of a setup; computed once, here. */
export interface Figures {
  /** What sounds in each sum, by the sum's id. */
  readonly parts: ReadonlyMap<Id, readonly Part[]>;
  /** What each listener gets, in the order of the setup's listeners. */
  readonly images: readonly Image[];
}

/** The front door of the arithmetic: all figures of a setup. */
export const evaluate = (setup: Setup): Figures => {
  const parts = new Map(setup.sums.map((s) => [s.id, partsOf(setup, s)]));
  return { parts, images: imagesOf(setup) };
};
