import type { BusFigures } from "../../core/headroom/figures";
import type { Bus } from "../../core/model/setup";
import { EarPanel } from "./earphone";
import { LawTable } from "./law-table";
import { MonoAndOneEar } from "./mono";
import { BusSettings } from "./settings";

/** What of a bus stands behind a tap: other laws, mono and one ear, its settings, the level at the ear. */
export const More = (props: { bus: Bus; figures: BusFigures }) => (
  <>
    <LawTable {...props} />
    <MonoAndOneEar {...props} />
    <BusSettings bus={props.bus} />
    <EarPanel />
  </>
);
