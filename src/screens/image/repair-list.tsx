import { computed, useSignal } from "@preact/signals";
import type { Bus } from "../../core/model/setup";
import type { Recommendation } from "../../core/recommend/model";
import { applyRecommendation } from "../../core/recommend/steps";
import { imagesOf } from "../../core/stereo/image";
import { replaceSetup } from "../../document/commands/apply";
import { current } from "../../document/store";
import { describeImage } from "../../text/image";
import { describeNote, describeParts, describeStep, describeToDo } from "../../text/recommend";
import { describeCost } from "../../text/recommend-why";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { Table } from "../../ui/table";
import { runPlanChange } from "../act";
import { LongSearch } from "../long-search";
import { recommendedFor, takeRecommendations } from "../recommended";
import { listenerTitle } from "../shown-names";
import { chosenListener } from "../state";
import { chosenImage, heardBus } from "./heard";
import { RankHelp } from "./help";
import { RepairWishes } from "./repair-wishes";
import { ThreadView } from "./thread-view";
import { WhatIfs } from "./what-if";

/** What is asked for, in one object as long as it stays the same. */
const asked = computed(() => heardBus.value && { setup: current.value, bus: heardBus.value.id });

/** What the chosen listener hears as it is, and under it once a recommendation is applied. */
const Preview = ({ of }: { of: Recommendation }) => {
  const listener = chosenListener.value;
  const after = applyRecommendation(current.value, of);
  const image = imagesOf(after).find((i) => i.listener === listener?.id);
  const now = chosenImage.value;
  if (!listener || !image || !now) return null;
  const before = describeImage(current.value, listener, now).says;
  const { says } = describeImage(after, listener, image);
  return (
    <>
      <p class="soft small">Now: {before}.</p>
      <ThreadView image={now} listener={listener} says={`Now: ${before}`} turn="now" />
      <p class="soft small">Preview: {says}.</p>
      <ThreadView image={image} listener={listener} says={`Preview: ${says}`} turn="after" />
    </>
  );
};

const Details = ({ bus, of }: { bus: Bus; of: Recommendation }) => (
  <>
    <p>{describeCost(of)}</p>
    <ol class="steps">
      {of.steps.map((step) => {
        const says = describeStep(current.value, step);
        return <li key={says}>{says}</li>;
      })}
    </ol>
    <Table
      caption="Channels, once applied"
      heads={["Listener", "Right side", "Wrong side", "Centred", "Not placed", "L/R lost"]}
    >
      <tbody>
        {of.outcomes.map(({ listener, tally }) => (
          <tr key={listener}>
            <th scope="row">{listenerTitle(listener)}</th>
            <td>{tally.right}</td>
            <td>{tally.wrong}</td>
            <td>{tally.centred}</td>
            <td>{tally.unplaced}</td>
            <td>{tally.sidesLost}</td>
          </tr>
        ))}
      </tbody>
    </Table>
    <Sentences says={of.notes.map((note) => describeNote(current.value, bus, note))} />
  </>
);

const Buttons = ({ of, main }: { of: Recommendation; main: boolean }) => {
  const preview = useSignal(false);
  if (of.steps.length === 0) return null;
  return (
    <>
      <div class="row">
        <button
          type="button"
          class={main ? "main" : ""}
          onClick={() =>
            runPlanChange(
              replaceSetup("apply recommendation", (s) => applyRecommendation(s, of)),
              describeToDo(current.value, of.steps),
            )
          }
        >
          Apply to plan
        </button>
        <button
          type="button"
          aria-pressed={preview.value}
          onClick={() => {
            preview.value = !preview.value;
          }}
        >
          Preview
        </button>
      </div>
      {preview.value ? <Preview of={of} /> : null}
    </>
  );
};

const Others = ({ bus, others }: { bus: Bus; others: readonly Recommendation[] }) => (
  <ul class="stack">
    {others.map((other) => (
      <li key={other.id} class="stack">
        <Fold look="plain" title={describeParts(current.value, bus, other.parts)}>
          {() => <Details bus={bus} of={other} />}
        </Fold>
        <Buttons of={other} main={false} />
      </li>
    ))}
  </ul>
);

/** What to do about the bus and why, what would change that, and the other ways. */
export const RepairList = () => {
  const bus = heardBus.value;
  const input = asked.value;
  if (!bus || !input) return null;
  const found = recommendedFor(input.setup, bus);
  if (!found)
    return (
      <section class="card stack" aria-label="Recommendation">
        <LongSearch
          name="recommendation"
          input={input}
          onFound={(them) => them && takeRecommendations(input.setup, bus, them)}
        />
      </section>
    );
  const [best, ...others] = found.ranked;
  if (!best) return null;
  return (
    <section class="card stack" aria-labelledby="recommendation">
      <h2 id="recommendation">{found.advice.headline}</h2>
      <Buttons key={best.id} of={best} main={true} />
      <p>{found.advice.why}</p>
      {best.steps.length > 0 ? (
        <Fold look="plain" title="Step by step, and who hears what">
          {() => <Details bus={bus} of={best} />}
        </Fold>
      ) : null}
      <Fold look="plain" title="What would change this">
        {() => <WhatIfs setup={current.value} bus={bus} />}
      </Fold>
      <Explain about="How recommendations are ranked">
        <RankHelp />
      </Explain>
      <RepairWishes />
      {others.length > 0 ? (
        <Fold look="plain" title={`Other ways: ${others.length}`}>
          {() => <Others bus={bus} others={others} />}
        </Fold>
      ) : null}
    </section>
  );
};
