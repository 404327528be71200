import { computed } from "@preact/signals";
import { applyWay, waysToFree } from "../../core/inputs/free";
import { replaceSetup } from "../../document/commands/apply";
import { current } from "../../document/store";
import { Explain } from "../../ui/explain";
import { Sentences } from "../../ui/sentences";
import { runWithWord } from "../act";
import { FitsHelp } from "./help";

const found = computed(() => waysToFree(current.value));

/** The cheapest ways back under the input count, each with what it loses. Loaded only when something is over. */
export const Fits = () => {
  return (
    <section class="stack" aria-labelledby="fits">
      <h2 id="fits">Ways back under the count, cheapest first</h2>
      <ol class="stack">
        {found.value.map((fit, at) => (
          <li class="card stack" key={fit.says}>
            <p>
              <b>{fit.says}</b>
            </p>
            <Sentences says={fit.loses} />
            <button
              type="button"
              class={at === 0 ? "main" : ""}
              onClick={() =>
                runWithWord(
                  replaceSetup("make room", (s) => applyWay(s, fit)),
                  "Room made",
                )
              }
            >
              Do this
            </button>
          </li>
        ))}
      </ol>
      <Explain about="What these lose, and their order">
        <FitsHelp />
      </Explain>
    </section>
  );
};
