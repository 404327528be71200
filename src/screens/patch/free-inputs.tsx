import { computed } from "@preact/signals";
import { applyWay, waysToFree } from "../../core/inputs/free";
import { replaceSetup } from "../../document/commands/apply";
import { current } from "../../document/store";
import { describeLosses, describeWay } from "../../text/free-inputs";
import { Explain } from "../../ui/explain";
import { Sentences } from "../../ui/sentences";
import { runPlanChange } from "../act";
import { WaysHelp } from "./help";

const found = computed(() =>
  waysToFree(current.value).map((way) => ({
    way,
    says: describeWay(current.value, way),
    loses: describeLosses(current.value, way),
  })),
);

/** The cheapest ways to free inputs, each with what it loses. Loaded only when something is over. */
export const WaysToFree = () => {
  return (
    <section class="stack" aria-labelledby="ways">
      <h2 id="ways">Ways to free inputs, cheapest first</h2>
      <ol class="stack">
        {found.value.map(({ way, says, loses }, at) => (
          <li class="card stack" key={says}>
            <p>
              <b>{says}</b>
            </p>
            <Sentences says={loses} />
            <button
              type="button"
              class={at === 0 ? "main" : ""}
              onClick={() =>
                runPlanChange(
                  replaceSetup("free inputs", (s) => applyWay(s, way)),
                  `Plan changed. At the desk: ${says}`,
                )
              }
            >
              Apply to plan
            </button>
          </li>
        ))}
      </ol>
      <Explain about="What these lose, and their order">
        <WaysHelp />
      </Explain>
    </section>
  );
};
