import { computed, signal } from "@preact/signals";
import { areWaysShort } from "../../core/at-once";
import { applyWay, type WayToFree, waysToFree } from "../../core/inputs/free";
import type { Setup } from "../../core/model/setup";
import { replaceSetup } from "../../document/commands/apply";
import { current } from "../../document/store";
import { describeLosses, describeWay } from "../../text/free-inputs";
import { Explain } from "../../ui/explain";
import { Sentences } from "../../ui/sentences";
import { runPlanChange } from "../act";
import { LongSearch } from "../long-search";
import { WaysHelp } from "./help";

const asked = computed(() => ({ setup: current.value }));
const searched = signal<{ readonly of: Setup; readonly ways: readonly WayToFree[] } | null>(null);

/** Null while it is searched elsewhere. */
const found = computed(() => {
  const { setup } = asked.value;
  const ways = areWaysShort(setup)
    ? waysToFree(setup)
    : searched.value?.of === setup
      ? searched.value.ways
      : null;
  return (
    ways?.map((way) => ({
      way,
      says: describeWay(setup, way),
      loses: describeLosses(setup, way),
    })) ?? null
  );
});

/** The cheapest ways to free inputs, each with what it loses. Loaded only when something is over. */
export const WaysToFree = () => {
  const input = asked.value;
  const ways = found.value;
  return (
    <section class="stack" aria-labelledby="ways">
      <h2 id="ways">Ways to free inputs, cheapest first</h2>
      {ways === null ? (
        <LongSearch
          label="Working out ways to free inputs"
          name="ways"
          input={input}
          onFound={(them) => {
            searched.value = { of: input.setup, ways: them };
          }}
        />
      ) : null}
      <ol class="stack">
        {ways?.map(({ way, says, loses }, at) => (
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
