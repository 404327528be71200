import { current } from "../../document/store";
import { lineSubject } from "../../document/tick-log";
import { mixerName } from "../../text/names";
import { formatRowName } from "../../text/sheet";
import { print, usePaper } from "../paper/use-paper";
import { setupName } from "../shown-names";
import { formatWords, wordsOn } from "../ticked";
import { checkedAt, describeInside, linesToCheck, placeNow, SAID, saidNow } from "./lines";

/** The line check on paper: each input with what was said, by whom and when. */
export const LineSheet = () => {
  const at = checkedAt.value;
  return (
    <article class="line-sheet">
      <h1>
        Line check{at ? ` at ${mixerName(at)}` : ""}: {setupName(current.value)}
      </h1>
      <table>
        <thead>
          <tr>
            <th scope="col">In</th>
            <th scope="col">Name</th>
            <th scope="col">OK</th>
            <th scope="col">No signal</th>
            <th scope="col">Who, when</th>
          </tr>
        </thead>
        <tbody>
          {linesToCheck.value.map((row) => {
            const inside = describeInside(row);
            return (
              <tr key={row.input}>
                <th scope="row">{row.input}</th>
                <td>
                  {formatRowName(current.value, row)}
                  {inside ? <small> {inside}</small> : null}
                </td>
                {SAID.map(([heard]) => (
                  <td key={String(heard)}>
                    <i class="box">{saidNow(row) === heard ? "✓" : ""}</i>
                  </td>
                ))}
                <td>{formatWords(wordsOn.value(lineSubject(current.value, placeNow(row))))}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </article>
  );
};

/** Prints the line check as it stands. */
export const LineOut = () => {
  usePaper(() => <LineSheet />);
  return (
    <button type="button" onClick={print}>
      Print the line check
    </button>
  );
};
