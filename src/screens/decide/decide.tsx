import "./decide.css";
import { useSignal } from "@preact/signals";
import { useMemo } from "preact/hooks";
import type { AllocationProblem } from "../../core/allocate/model";
import type { AllocationPlan } from "../../core/allocate/plans";
import { type PlanWhatIf, whatIf } from "../../core/allocate/whatif";
import { arePlansShort } from "../../core/at-once";
import { current } from "../../document/store";
import { describeAllocation, describePlanWhatIf } from "../../text/allocate-why";
import { formatCount } from "../../text/words";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { LongSearch } from "../long-search";
import { DecideHelp } from "./help";
import { Pins } from "./pins";
import { PlanCard } from "./plan-card";
import { allocation, plansAsked, problem, takeAllocation } from "./session";

const ChannelRules = lazy(async () => (await import("./channel-rules")).ChannelRules);

const rulesTitle = (count: number): string =>
  count === 0 ? "Rules" : `Rules · ${formatCount(count, "channel")} changed`;

const WhatIfs = ({ asked, plan }: { asked: AllocationProblem; plan: AllocationPlan }) => {
  const input = useMemo(() => ({ problem: asked, plan }), [asked, plan]);
  const searched = useSignal<{ readonly of: typeof input; readonly it: readonly PlanWhatIf[] } | null>(null);
  const atOnce = useMemo(() => (arePlansShort(asked) ? whatIf(asked, plan) : null), [asked, plan]);
  const found = atOnce ?? (searched.value?.of === input ? searched.value.it : null);
  if (!found)
    return (
      <LongSearch
        name="plans otherwise"
        input={input}
        onFound={(it) => {
          searched.value = { of: input, it };
        }}
      />
    );
  return (
    <ul>
      {found.map((other) => (
        <li key={other.code}>{describePlanWhatIf(other)}</li>
      ))}
    </ul>
  );
};

/** The place for what goes into the monitor inputs: plans side by side, what cannot be had, pins, and what if. */
export const DecideScreen = () => {
  const asked = problem.value;
  const input = plansAsked.value;
  const found = allocation.value;
  const { tone, says, more } = describeAllocation(asked, found);
  const [first] = found?.plans ?? [];
  return (
    <>
      <Verdict tone={tone} says={says}>
        {more}
      </Verdict>
      <p>
        <a href="#patch">Back to Patch</a>
      </p>
      {asked.channels.length > 0 ? (
        <>
          <Fold title={rulesTitle(current.value.channels.filter(({ rule }) => rule).length)}>
            {() => <ChannelRules problem={asked} />}
          </Fold>
          {found ? (
            <div class="plans">
              {found.plans.map((plan) => (
                <PlanCard key={plan.style} problem={asked} plan={plan} isFirst={plan === first} />
              ))}
            </div>
          ) : (
            <LongSearch name="plans" input={input} onFound={(it) => takeAllocation(input.problem, it)} />
          )}
          <Fold title="Pins" open={found !== null && !first}>
            {() => <Pins problem={asked} />}
          </Fold>
          {first ? <Fold title="What if">{() => <WhatIfs asked={asked} plan={first} />}</Fold> : null}
          <Explain about="What each channel asks for">
            <DecideHelp />
          </Explain>
        </>
      ) : null}
    </>
  );
};
