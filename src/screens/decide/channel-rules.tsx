import { useSignal } from "@preact/signals";
import type { AllocationProblem } from "../../core/allocate/model";
import type { Id } from "../../core/model/setup";
import { resetRules } from "../../document/commands/rules";
import { current, run } from "../../document/store";
import { ALLOCATION_KINDS, formatRule, KIND_REASONS } from "../../text/rules";
import { formatCount } from "../../text/words";
import { Pick, Tick } from "../../ui/choice";
import { runWithWord } from "../act";
import { channelTitle } from "../shown-names";
import { RuleFields } from "./rule-fields";
import { type Chosen, chosenOf, common, type Ruled, ruledOf, sharedKinds } from "./ruled";

const optionsOf = (all: readonly Ruled[]): (readonly [Chosen, string])[] => [
  ...all.map(({ channel }) => [`channel ${channel.id}`, channelTitle(channel.id)] as const),
  ...(all.length > 1
    ? [
        ...sharedKinds(all).map(
          ({ kind, count }) => [`kind ${kind}`, `Kind: ${ALLOCATION_KINDS[kind]} (${count})`] as const,
        ),
        ["all", `All channels (${all.length})`] as const,
        ["ticked", "Channels to tick"] as const,
      ]
    : []),
];

/** Why these channels ask for what they do; nothing where they are of several kinds. */
const Why = ({ some }: { some: readonly Ruled[] }) => {
  const of = common(some.map(({ kind }) => kind));
  if (!of) return null;
  return (
    <p class="small soft">
      {ALLOCATION_KINDS[of.value]}: {KIND_REASONS[of.value]} Common practice, no source.
    </p>
  );
};

const ChangedRules = ({ changed }: { changed: readonly Ruled[] }) => (
  <>
    <h2>Changed</h2>
    <ul class="stack">
      {changed.map(({ channel: { id, rule } }) => (
        <li class="row apart" key={id}>
          <span class="changed">
            <b>{channelTitle(id)}</b>: {formatRule(rule, current.value.listeners)}
          </span>
          <button
            type="button"
            aria-label={`Back to default: ${channelTitle(id)}`}
            onClick={() => run(resetRules([id]))}
          >
            Back to default
          </button>
        </li>
      ))}
    </ul>
    {changed.length > 1 ? (
      <button
        type="button"
        onClick={() =>
          runWithWord(
            resetRules(changed.map(({ channel }) => channel.id)),
            `Rules of ${formatCount(changed.length, "channel")} are back to default`,
          )
        }
      >
        All back to default
      </button>
    ) : null}
  </>
);

/** What channels ask for, changed for one of them or for several at once, and what was changed. */
export const ChannelRules = ({ problem }: { problem: AllocationProblem }) => {
  const all = ruledOf(current.value, problem);
  const chosen = useSignal<Chosen>(`channel ${all[0]?.channel.id ?? ""}`);
  const ticked = useSignal<readonly Id[]>([]);
  const wanted = chosenOf(all, chosen.value, ticked.value);
  const isGone = wanted.length === 0 && chosen.value !== "ticked";
  const some = isGone ? all.slice(0, 1) : wanted;
  const shown: Chosen = isGone ? `channel ${all[0]?.channel.id ?? ""}` : chosen.value;
  const changed = all.filter(({ channel }) => channel.rule);
  return (
    <>
      <Pick
        label="Rules for"
        value={shown}
        options={optionsOf(all)}
        onValue={(next) => {
          // To tick begins with those that were shown.
          ticked.value = some.map(({ channel }) => channel.id);
          chosen.value = next;
        }}
      />
      {shown === "ticked" ? (
        <fieldset class="fields">
          <legend class="hidden-visually">Channels</legend>
          {all.map(({ channel: { id } }) => (
            <Tick
              key={id}
              label={channelTitle(id)}
              value={ticked.value.includes(id)}
              onValue={(on) => {
                ticked.value = on ? [...ticked.value, id] : ticked.value.filter((other) => other !== id);
              }}
            />
          ))}
        </fieldset>
      ) : null}
      {some.length > 0 ? (
        <>
          <Why some={some} />
          <RuleFields some={some} />
        </>
      ) : (
        <p class="soft">No channel ticked.</p>
      )}
      {changed.length > 0 ? <ChangedRules changed={changed} /> : null}
    </>
  );
};
