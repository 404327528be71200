import { current } from "../../document/store";
import { describeFohPan, describeOverheads } from "../../text/overheads";
import { fohIssues } from "./foh-issues";

/** What does not fit together at FOH itself: overheads against close microphones, pans against places. */
export const Notes = () => {
  const setup = current.value;
  const { overheads, pans, count } = fohIssues.value;
  if (count === 0) return null;
  return (
    <section class="stack" aria-labelledby="house-notes">
      <h2 id="house-notes">Issues at FOH</h2>
      <ul class="stack">
        {overheads.map((flag) => {
          const { says, remedy } = describeOverheads(setup, flag);
          return (
            <li class="notice warn" key={`${flag.where} ${says}`}>
              <p>{says}</p>
              <p class="soft small">{remedy}</p>
            </li>
          );
        })}
        {pans.map((flag) => (
          <li class="notice warn" key={flag.channel}>
            {describeFohPan(setup, flag)}
          </li>
        ))}
      </ul>
    </section>
  );
};
