import { housePanFlags } from "../../core/housepans";
import { overheadFlags } from "../../core/overheads";
import { current, figures } from "../../document/store";

/** What does not fit together in the house itself: overheads against close microphones, pans against places. */
export const Notes = () => {
  const setup = current.value;
  const audience = figures.value.images.find((i) => i.hears === "house");
  const overheads = overheadFlags(setup);
  const pans = audience ? housePanFlags(setup, audience) : [];
  if (overheads.length + pans.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="house-notes">
      <h2 id="house-notes">To look at in the house</h2>
      <ul class="stack">
        {overheads.map((flag) => (
          <li class="notice warn" key={`${flag.where} ${flag.says}`}>
            <p>{flag.says}</p>
            <p class="soft small">{flag.remedy}</p>
          </li>
        ))}
        {pans.map((flag) => (
          <li class="notice warn" key={flag.source}>
            {flag.says}
          </li>
        ))}
      </ul>
    </section>
  );
};
