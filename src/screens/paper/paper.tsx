import "./paper.css";
import { Fold } from "../../ui/fold";
import { lazy } from "../../ui/lazy";
import { arrivedList } from "./arrived-list";

const SheetOut = lazy(async () => (await import("./sheet-out")).SheetOut);
const ListInOut = lazy(async () => (await import("./list")).ListInOut);
const Share = lazy(async () => (await import("../setups/share")).ShareSetup);

/** The patch on paper, the input list as CSV in and out, the setup to another phone. */
export const Papers = () => (
  <section class="stack" aria-labelledby="papers">
    <h2 id="papers">Paper, lists, links</h2>
    <Fold title="Patch sheet for the desk">{() => <SheetOut />}</Fold>
    <Fold title="Input list from or to a spreadsheet" open={arrivedList.value !== null}>
      {() => <ListInOut />}
    </Fold>
    <Fold title="Send this setup to another phone">{() => <Share />}</Fold>
  </section>
);
