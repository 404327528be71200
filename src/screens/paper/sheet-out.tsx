import { busContents } from "../../core/inputs/bus-contents";
import { RANGES } from "../../document/limits";
import { current } from "../../document/store";
import { contentsToCsv, csvStyle, sheetToCsv } from "../../shelf/csv-write";
import { CONTENT_COLUMNS, describeMixers } from "../../text/bus-sheet";
import { Fold } from "../../ui/fold";
import { Table } from "../../ui/table";
import { patchNow } from "../patch-figures";
import { sendCsv } from "./csv-out";
import { fitsOnePage, Sheet } from "./sheet";
import { print, usePaper } from "./use-paper";

/** So many inputs fit on one page; more there are only with some beyond the largest count. */
const ONE_PAGE = RANGES.inputCount.max;

/** What stands under the sheet, on the screen: one line a send, then the mixers. */
const OnScreen = () => {
  const setup = current.value;
  return (
    <>
      <Table caption="What is in each bus" heads={CONTENT_COLUMNS.map(({ head }) => head)}>
        <tbody>
          {busContents(setup)
            .flatMap(({ contents }) => contents)
            .map((content) => (
              <tr key={`${content.bus.id} ${content.channel.id}`}>
                {CONTENT_COLUMNS.map(({ head, cell }) => (
                  <td key={head}>{cell(content, setup)}</td>
                ))}
              </tr>
            ))}
        </tbody>
      </Table>
      {describeMixers(setup).map((says) => (
        <p key={says}>{says}</p>
      ))}
    </>
  );
};

/** The patch sheet: put beside the app as long as this is open, so that printing prints it and nothing else. */
export const SheetOut = () => {
  usePaper(() => <Sheet today={new Date()} />);
  const count = patchNow.value.rows.length;
  const hasBuses = current.value.buses.length > 0;
  return (
    <>
      <p class="soft small">
        {count > ONE_PAGE
          ? `A4 or Letter, for taping to the desk; up to ${ONE_PAGE} inputs fit on one page, these ${count} may take more:`
          : fitsOnePage.value
            ? "One page, A4 or Letter, for taping to the desk:"
            : "Two pages, A4 or Letter, for taping to the desk:"}{" "}
        every input and what feeds it, tick boxes for desk and stage, what is in each bus, what the musicians
        set at their own mixers.
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
        {hasBuses ? (
          <button
            type="button"
            onClick={() =>
              sendCsv(
                current.value.name,
                "bus sends",
                contentsToCsv(current.value, csvStyle(navigator.language)),
              )
            }
          >
            Bus sends as CSV
          </button>
        ) : null}
      </div>
      {hasBuses ? (
        <Fold title="Buses and musicians’ mixers" look="plain">
          {() => <OnScreen />}
        </Fold>
      ) : null}
    </>
  );
};
