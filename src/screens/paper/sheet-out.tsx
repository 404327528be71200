import { RANGES } from "../../document/limits";
import { current } from "../../document/store";
import { csvStyle, sheetToCsv } from "../../shelf/csv-write";
import { patchNow } from "../patch-figures";
import { sendCsv } from "./csv-out";
import { Sheet } from "./sheet";
import { print, usePaper } from "./use-paper";

/** So many inputs fit on one page; more there are only with some beyond the largest count. */
const ONE_PAGE = RANGES.inputCount.max;

/** The patch sheet: put beside the app as long as this is open, so that printing prints it and nothing else. */
export const SheetOut = () => {
  usePaper(() => <Sheet today={new Date()} />);
  const count = patchNow.value.rows.length;
  return (
    <>
      <p class="soft small">
        {count > ONE_PAGE
          ? `A4 or Letter, for taping to the desk; up to ${ONE_PAGE} inputs fit on one page, these ${count} may take more:`
          : "One page, A4 or Letter, for taping to the desk:"}{" "}
        every input with what it takes, tick boxes for desk and stage.
      </p>
      <div class="row">
        <button type="button" class="main" onClick={print}>
          Print the sheet
        </button>
        <button
          type="button"
          onClick={() =>
            sendCsv(
              current.value.name,
              "patch sheet",
              sheetToCsv(current.value, patchNow.value.rows, csvStyle(navigator.language)),
            )
          }
        >
          Sheet as CSV
        </button>
      </div>
    </>
  );
};
