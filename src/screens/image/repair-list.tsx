import { computed, useSignal } from "@preact/signals";
import type { Bus } from "../../core/model/setup";
import { costSaid } from "../../core/repair/advice";
import { firstChange, whatWouldChange } from "../../core/repair/changes";
import { applyRepair, type Repair, repairsFor } from "../../core/repair/repairs";
import { sayRepair, sayStep } from "../../core/repair/say";
import { type Situation, situationOf } from "../../core/repair/situation";
import { imagesOf } from "../../core/stereo/image";
import { replaceSetup } from "../../document/commands/apply";
import { current } from "../../document/store";
import { describeImage } from "../../text/image";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { Table } from "../../ui/table";
import { runWithWord } from "../act";
import { listenerName } from "../shown-names";
import { chosenListener } from "../state";
import { chosenImage, heardBus } from "./heard";
import { RankHelp } from "./help";
import { RepairWishes } from "./repair-wishes";
import { ThreadView } from "./thread-view";

/** The pair that the chosen listener hears, with what its recommendations are reckoned from. */
const situation = computed(() => heardBus.value && situationOf(current.value, heardBus.value));

/** Every recommendation of it. */
const repairs = computed(() => situation.value && repairsFor(situation.value));

/** The first fact that would make another recommendation the best. */
const change = computed(() => situation.value && firstChange(situation.value));

/** The threads of the chosen listener as they are, and under them once a recommendation is done. */
const After = ({ repair }: { repair: Repair }) => {
  const listener = chosenListener.value;
  const after = applyRepair(current.value, repair);
  const image = imagesOf(after).find((i) => i.listener === listener?.id);
  const now = chosenImage.value;
  if (!listener || !image || !now) return null;
  const before = describeImage(current.value, listener, now).says;
  const { says } = describeImage(after, listener, image);
  return (
    <>
      <p class="soft small">Now: {before}.</p>
      <ThreadView image={now} listener={listener} says={`Now: ${before}`} turn="now" />
      <p class="soft small">Afterwards: {says}.</p>
      <ThreadView image={image} listener={listener} says={`Afterwards: ${says}`} turn="after" />
    </>
  );
};

const Details = ({ repair }: { repair: Repair }) => (
  <>
    <p>{costSaid(repair)}</p>
    <ol class="steps">
      {repair.steps.map((step) => {
        const said = sayStep(current.value, step);
        return <li key={said}>{said}</li>;
      })}
    </ol>
    <Table
      caption="Sides afterwards"
      heads={["Listener", "Correct", "Wrong", "Flat", "No side", "Sides lost"]}
    >
      <tbody>
        {repair.outcomes.map(({ listener, tally }) => (
          <tr key={listener}>
            <th scope="row">{listenerName(listener)}</th>
            <td>{tally.right}</td>
            <td>{tally.wrong}</td>
            <td>{tally.centred}</td>
            <td>{tally.unplaced}</td>
            <td>{tally.sidesLost}</td>
          </tr>
        ))}
      </tbody>
    </Table>
    <Sentences says={repair.notes.map((note) => note.says)} />
  </>
);

const Buttons = ({ repair, says, main }: { repair: Repair; says: string; main: boolean }) => {
  const after = useSignal(false);
  if (repair.steps.length === 0) return null;
  return (
    <>
      <div class="row">
        <button
          type="button"
          class={main ? "main" : ""}
          onClick={() =>
            runWithWord(
              replaceSetup("repair", (s) => applyRepair(s, repair)),
              `Done: ${says}`,
            )
          }
        >
          Put it in the plan
        </button>
        <button
          type="button"
          aria-pressed={after.value}
          onClick={() => {
            after.value = !after.value;
          }}
        >
          Show afterwards
        </button>
      </div>
      {after.value ? <After repair={repair} /> : null}
    </>
  );
};

const Others = ({ bus, others }: { bus: Bus; others: readonly Repair[] }) => (
  <ul class="stack">
    {others.map((repair) => {
      const says = sayRepair(current.value, bus, repair);
      return (
        <li key={repair.id} class="stack">
          <Fold look="plain" title={says}>
            {() => <Details repair={repair} />}
          </Fold>
          <Buttons repair={repair} says={says} main={false} />
        </li>
      );
    })}
  </ul>
);

const Changes = ({ from }: { from: Situation }) => {
  const changes = whatWouldChange(from);
  if (changes.length === 0) return <p>No single fact that is known here.</p>;
  return (
    <ul class="stack">
      {changes.map((c) => (
        <li key={c.fact}>
          {c.fact}: <b>{c.instead}</b>.
        </li>
      ))}
    </ul>
  );
};

/** The recommended recommendation, why it is first, what would change that, and the other ways. */
export const RepairList = () => {
  const found = repairs.value;
  const from = situation.value;
  const [best, ...others] = found?.ranked ?? [];
  if (!found || !from || !best) return null;
  return (
    <section class="card stack" aria-labelledby="repair">
      <h2 id="repair">{found.advice.headline}</h2>
      <Buttons key={best.id} repair={best} says={found.advice.headline} main={true} />
      <p>{found.advice.why}</p>
      {change.value ? (
        <p>
          {change.value.fact}, this would be best instead: {change.value.instead}.
        </p>
      ) : null}
      {best.steps.length > 0 ? (
        <Fold look="plain" title="Step by step, and who hears what">
          {() => <Details repair={best} />}
        </Fold>
      ) : null}
      <Fold look="plain" title="What would change this">
        {() => <Changes from={from} />}
      </Fold>
      <Explain about="How the ways are ranked">
        <RankHelp />
      </Explain>
      <RepairWishes />
      {others.length > 0 ? (
        <Fold look="plain" title={`Other ways: ${others.length}`}>
          {() => <Others bus={from.bus} others={others} />}
        </Fold>
      ) : null}
    </section>
  );
};
