import { computed, signal } from "@preact/signals";
import {
  type FoundWays,
  type FreeingQuestion,
  findWaysToFree,
  type WayToFree,
} from "../../core/allocate/free";
import { arePlansShort } from "../../core/at-once";
import { current } from "../../document/store";
import { describePlanChange } from "../../text/allocate";
import { describeWay, describeWayLosses } from "../../text/free-inputs";
import { formatCount } from "../../text/words";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { applyAs, pins } from "../decide/session";
import { LongSearch } from "../long-search";
import { WaysHelp } from "./help";

/** What is asked, in one object as long as it stays the same. */
const asked = computed(() => ({ setup: current.value, pins: pins.value }));
const searched = signal<{ readonly of: object; readonly found: FoundWays | null } | null>(null);

/** Null where everything has room; undefined while it is searched elsewhere. */
const found = computed((): FoundWays | null | undefined => {
  const { setup, pins: its } = asked.value;
  if (arePlansShort({ channels: setup.channels, inputs: setup.monitor.inputCount }))
    return findWaysToFree(setup, its);
  return searched.value?.of === asked.value ? searched.value.found : undefined;
});

const Way = (props: { question: FreeingQuestion; way: WayToFree; isFirst: boolean }) => {
  const { question, way } = props;
  const moved = way.plan.changes.filter(({ from, to }) => from.length > 0 && to.length > 0);
  return (
    <li class="card stack">
      <h3>Free {formatCount(way.frees, "input")}</h3>
      <p>
        <b>{describeWay(current.value, question, way).join(" ")}</b>
      </p>
      <Sentences says={describeWayLosses(question, way)} />
      {moved.length > 0 ? (
        <Fold title={`New inputs: ${formatCount(moved.length, "channel")}`} look="plain">
          {() => <Sentences says={moved.map((change) => describePlanChange(question.problem, change))} />}
        </Fold>
      ) : null}
      <button
        type="button"
        class={props.isFirst ? "main" : ""}
        onClick={() => applyAs("free inputs", "Plan changed.", question.problem, way.plan)}
      >
        Apply to plan
      </button>
    </li>
  );
};

/** The ways to free inputs, each with what it loses. Loaded only when something is over. */
export const WaysToFree = () => {
  const input = asked.value;
  const its = found.value;
  if (its === null) return null;
  return (
    <section class="stack" aria-labelledby="ways">
      <h2 id="ways">Ways to free inputs</h2>
      {its === undefined ? (
        <LongSearch
          name="ways"
          input={input}
          onFound={(them) => {
            searched.value = { of: input, found: them };
          }}
        />
      ) : null}
      {its?.ways.length === 0 ? (
        <p>
          No plan keeps every pin. <a href="#decide">Change the pins</a>
        </p>
      ) : null}
      <ol class="stack">
        {its?.ways.map((way, at) => (
          <Way key={at} question={its.question} way={way} isFirst={at === 0} />
        ))}
      </ol>
      <Explain about="What these lose, and their order">
        <WaysHelp />
      </Explain>
    </section>
  );
};
