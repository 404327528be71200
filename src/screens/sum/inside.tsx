import type { Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import { ContributionBars } from "./contributions";
import { LegTable } from "./leg-table";
import { Sends } from "./sends";

/** What is inside a sum: its legs in figures, which source takes how much of them, and the sends themselves. */
export const Inside = (props: { sum: Sum; figures: SumFigures }) => (
  <>
    {props.sum.sends.length === 0 ? null : (
      <>
        <LegTable {...props} />
        <ContributionBars {...props} />
      </>
    )}
    <Sends key={props.sum.id} sum={props.sum} />
  </>
);
