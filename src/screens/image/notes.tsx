import { fohPanIssues } from "../../core/stereo/foh-pans";
import { overheadIssues } from "../../core/stereo/overheads";
import { current, figures } from "../../document/store";

/** What does not fit together at FOH itself: overheads against close microphones, pans against places. */
export const Notes = () => {
  const setup = current.value;
  const audience = figures.value.images.find((i) => i.hears === "foh");
  const overheads = overheadIssues(setup);
  const pans = audience ? fohPanIssues(setup, audience) : [];
  if (overheads.length + pans.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="house-notes">
      <h2 id="house-notes">To look at at FOH</h2>
      <ul class="stack">
        {overheads.map((flag) => (
          <li class="notice warn" key={`${flag.where} ${flag.says}`}>
            <p>{flag.says}</p>
            <p class="soft small">{flag.remedy}</p>
          </li>
        ))}
        {pans.map((flag) => (
          <li class="notice warn" key={flag.channel}>
            {flag.says}
          </li>
        ))}
      </ul>
    </section>
  );
};
