import type { Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import { EarPanel } from "./ear";
import { LawTable } from "./law-table";
import { MonoAndOneEar } from "./mono";
import { SumSettings } from "./settings";

/** What of a sum stands behind a tap: other laws, mono and one ear, its settings, the level at the ear. */
export const More = (props: { sum: Sum; figures: SumFigures }) => (
  <>
    <LawTable {...props} />
    <MonoAndOneEar {...props} />
    <SumSettings sum={props.sum} />
    <EarPanel />
  </>
);
