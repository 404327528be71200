import { type DirectOutFigures, directOutFigures } from "./headroom/direct-outs";
import { type EarphoneFigures, earphoneFigures } from "./headroom/earphone";
import { type BusFigures, busFigures } from "./headroom/figures";
import { once } from "./lib/memo";
import { type MixedChannel, mixedChannelsOf } from "./mix/bus";
import type { Id, Setup } from "./model/setup";
import { type Image, imagesOf } from "./stereo/image";

/** Everything that is shown, exported or printed of a setup; each computed once, when somebody looks at it. */
export interface Figures {
  /** What sounds in each bus, by the bus's id. */
  readonly mixed: ReadonlyMap<Id, readonly MixedChannel[]>;
  /** Levels, peaks and headroom of each bus, by its id. */
  readonly buses: ReadonlyMap<Id, BusFigures>;
  /** Headroom of every direct out that an input takes. */
  readonly directOuts: readonly DirectOutFigures[];
  /** What each listener gets, in the order of the setup's listeners. */
  readonly images: readonly Image[];
  /** Estimated level at the ear; null where it is not asked for. */
  readonly earphone: EarphoneFigures | null;
}

/**
 * The front door of the arithmetic: all figures of a setup. What nobody looks at costs nothing, so a drag on one
 * screen does not pay for the others. The monitor inputs (`patchFigures`), recommendations (`recommend`), ways to free
 * inputs (`waysToFree`) and the check at the kit (`checkOf`) have front doors of their own, and are loaded on demand.
 */
export const evaluate = (setup: Setup): Figures => {
  const parts = once(() => new Map(setup.buses.map((s) => [s.id, mixedChannelsOf(setup, s)])));
  const buses = once(() => new Map(setup.buses.map((s) => [s.id, busFigures(setup, s, parts().get(s.id))])));
  const directOuts = once(() => directOutFigures(setup));
  const images = once(() => imagesOf(setup, setup.listeners, parts()));
  const ear = once(() => setup.earphone && earphoneFigures(setup.earphone));
  return {
    get mixed() {
      return parts();
    },
    get buses() {
      return buses();
    },
    get directOuts() {
      return directOuts();
    },
    get images() {
      return images();
    },
    get earphone() {
      return ear();
    },
  };
};
