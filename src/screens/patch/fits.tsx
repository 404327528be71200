import { applyFit, type Fit } from "../../core/patch/fit";
import { replaceSetup } from "../../document/commands/apply";
import { runWithWord } from "../act";

/** The cheapest ways back under the slot count, each with what it loses. */
export const Fits = ({ fits }: { fits: readonly Fit[] }) => {
  if (fits.length === 0) return null;
  return (
    <section class="stack" aria-labelledby="fits">
      <h2 id="fits">Ways back under the count, cheapest first</h2>
      <ol class="stack">
        {fits.map((fit, at) => (
          <li class="card stack" key={fit.says}>
            <p>
              <b>{fit.says}</b>
            </p>
            <ul class="small soft">
              {fit.loses.map((loss) => (
                <li key={loss}>{loss}</li>
              ))}
            </ul>
            <button
              type="button"
              class={at === 0 ? "main" : ""}
              onClick={() =>
                runWithWord(
                  replaceSetup("make room", (s) => applyFit(s, fit)),
                  "Room made",
                )
              }
            >
              Do this
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
};
