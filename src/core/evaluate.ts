import { type DirectOutFigures, directOutFigures } from "./headroom/direct-outs";
import { type EarphoneFigures, earphoneFigures } from "./headroom/earphone";
import { type BusFigures, busFigures } from "./headroom/figures";
import { type Lookup, lazily, lookup } from "./lib/memo";
import { type MixedChannel, mixedChannelsOf } from "./mix/bus";
import type { Setup } from "./model/setup";

/** What is shown, exported or printed of a setup; each computed once, when somebody looks at it. */
export interface Figures {
  /** What sounds in each bus, by the bus's id. */
  readonly mixed: Lookup<readonly MixedChannel[]>;
  /** Levels, peaks and headroom of each bus, by its id. */
  readonly buses: Lookup<BusFigures>;
  /** Headroom of every direct out that an input takes. */
  readonly directOuts: readonly DirectOutFigures[];
  /** Estimated level at the ear; null where it is not asked for. */
  readonly earphone: EarphoneFigures | null;
}

/**
 * The front door of the arithmetic: the figures of a setup. What nobody looks at costs nothing, so a drag on one
 * screen does not pay for the others. What each listener gets (`listenerImages`), the monitor inputs (`patchFigures`),
 * recommendations (`recommend`), ways to free inputs (`waysToFree`) and the check at the kit (`checkOf`) have front doors
 * of their own, and are loaded on demand.
 * @param before of the setup before a change: figures of what did not change are kept
 */
export const evaluate = (setup: Setup, before?: Figures): Figures => {
  const { kit, desk, channels, monitor, preferences, recording } = setup;
  const mixed = lookup(
    setup.buses,
    (bus) => [bus, desk, channels],
    (bus) => mixedChannelsOf(setup, bus),
    before?.mixed,
  );
  const buses = lookup(
    setup.buses,
    (bus) => [bus, desk, channels, kit, monitor, preferences, recording],
    (bus) => busFigures(setup, bus, mixed.get(bus.id)),
    before?.buses,
  );
  return lazily({
    mixed: () => mixed,
    buses: () => buses,
    directOuts: () => directOutFigures(setup),
    earphone: () => setup.earphone && earphoneFigures(setup.earphone),
  });
};
