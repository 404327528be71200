import type { BusFigures } from "../../core/headroom/figures";
import type { Bus } from "../../core/model/setup";
import { ContributionBars } from "./contributions";
import { Sends } from "./sends";
import { SideTable } from "./side-table";

/** What is inside a bus: its sides in figures, which channel takes how much of them, and the sends themselves. */
export const Inside = (props: { bus: Bus; figures: BusFigures }) => (
  <>
    {props.bus.sends.length === 0 ? null : (
      <>
        <SideTable {...props} />
        <ContributionBars {...props} />
      </>
    )}
    <Sends key={props.bus.id} bus={props.bus} />
  </>
);
