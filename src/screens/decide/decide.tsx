import "./decide.css";
import type { AllocationProblem } from "../../core/allocate/model";
import type { Plan } from "../../core/allocate/plans";
import { whatIf } from "../../core/allocate/whatif";
import { current } from "../../document/store";
import { describeContradiction, describePlanWhatIf } from "../../text/allocate-why";
import type { Statement } from "../../text/statement";
import { formatCount } from "../../text/words";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { DecideHelp } from "./help";
import { Pins } from "./pins";
import { PlanCard } from "./plan-card";
import { allocation, problem } from "./session";

const ChannelRules = lazy(async () => (await import("./channel-rules")).ChannelRules);

const rulesTitle = (count: number): string =>
  count === 0 ? "Rules" : `Rules · ${formatCount(count, "channel")} changed`;

const verdict = (asked: AllocationProblem): Statement => {
  const { plans, contradiction } = allocation.value;
  const more = contradiction ? describeContradiction(asked, contradiction) : "";
  const [first] = plans;
  if (asked.channels.length === 0)
    return { tone: "care", says: "No channels yet", more: "Enter them under Channels." };
  if (!first) return { tone: "wrong", says: "No plan keeps every pin", more };
  const count = `${formatCount(asked.channels.length, "channel")}, ${formatCount(asked.inputs, "monitor input")}`;
  const isAll = !contradiction && first.leftOut.length === 0;
  return { tone: isAll ? "fine" : "care", says: count, more };
};

const WhatIfs = ({ asked, plan }: { asked: AllocationProblem; plan: Plan }) => (
  <ul>
    {whatIf(asked, plan).map((other) => (
      <li key={other.code}>{describePlanWhatIf(other)}</li>
    ))}
  </ul>
);

/** The place for what goes into the monitor inputs: plans side by side, what cannot be had, pins, and what if. */
export const DecideScreen = () => {
  const asked = problem.value;
  const { tone, says, more } = verdict(asked);
  const [first] = allocation.value.plans;
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
          <div class="plans">
            {allocation.value.plans.map((plan) => (
              <PlanCard key={plan.style} problem={asked} plan={plan} isFirst={plan === first} />
            ))}
          </div>
          <Fold title="Pins" open={!first}>
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
