import "../paper/paper.css";
import { controlValue } from "../../core/inputs/controls";
import { deskParts } from "../../core/inputs/desk-list";
import { current } from "../../document/store";
import { describeMove, formatSection, namesOfBoth } from "../../text/desk-list";
import { Sheet } from "../paper/sheet";
import { print, usePaper } from "../paper/use-paper";
import { formatWords, wordsOn } from "../ticked";
import { listedMoves, standing, ticked } from "./session";

/** The desk list on paper, behind the patch sheet. */
const DeskSheet = () => {
  const from = standing.value;
  const names = namesOfBoth(from, current.value);
  return (
    <article class="desk-sheet">
      <h1>What to set at the desk</h1>
      {deskParts(from, current.value, listedMoves.value).map(({ section, moves: its }) => (
        <section key={formatSection(section)}>
          <h2>{formatSection(section)}</h2>
          <ul>
            {its.map((move) => {
              const { where, control, value } = describeMove(names, move);
              return (
                <li key={`${where} ${control} ${move.bus}`}>
                  <i class="box">{ticked.value(move) ? "✓" : ""}</i> {where}, {control}: <b>{value}</b>{" "}
                  <small>{formatWords(wordsOn.value({ ...move, value: controlValue(move.to) }))}</small>
                </li>
              );
            })}
          </ul>
        </section>
      ))}
    </article>
  );
};

/** Prints the list as it is chosen, with the patch sheet before it. */
export const DeskOut = () => {
  usePaper(() => (
    <>
      <Sheet today={new Date()} />
      <DeskSheet />
    </>
  ));
  return (
    <>
      <p class="soft small">The patch sheet on the first page, then this list with its ticks.</p>
      <button type="button" onClick={print}>
        Print the sheet and the list
      </button>
    </>
  );
};
