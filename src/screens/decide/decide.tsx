import "./decide.css";
import type { AllocationProblem, BusPin, Pin } from "../../core/allocate/model";
import type { Allocation, Plan } from "../../core/allocate/plans";
import { whatIf } from "../../core/allocate/whatif";
import type { Id } from "../../core/model/setup";
import { describeContradiction, describePlanWhatIf } from "../../text/allocate-why";
import { Fold } from "../../ui/fold";
import { Verdict } from "../../ui/verdict";
import { type BlockPin, pinOf } from "./blocks";
import { Pins } from "./pins";
import { PlanCard } from "./plan-card";

/** What the screen asks for; whoever places it solves again after each pin. */
export interface DecideProps {
  readonly problem: AllocationProblem;
  readonly allocation: Allocation;
  readonly onApply: (plan: Plan) => void;
  readonly onPin: (pin: BlockPin) => void;
  readonly onChannelPin: (channel: Id, pin: Pin | null) => void;
  readonly onBusUnpin: (pin: BusPin) => void;
}

const headline = ({ problem, allocation }: DecideProps): string => {
  const { channels, inputs } = problem;
  if (allocation.plans.length === 0) return "No plan keeps every pin";
  return `${channels.length} channels, ${inputs} monitor inputs`;
};

const WhatIfs = ({ problem, plan }: { problem: AllocationProblem; plan: Plan }) => (
  <ul>
    {whatIf(problem, plan).map((other) => (
      <li key={other.code}>{describePlanWhatIf(other)}</li>
    ))}
  </ul>
);

/** What goes into the monitor inputs: plans side by side, what cannot be had, pins, and what if. */
export const Decide = (props: DecideProps) => {
  const { problem, allocation } = props;
  const [first] = allocation.plans;
  const says = allocation.contradiction && describeContradiction(problem, allocation.contradiction);
  return (
    <>
      <Verdict tone={says ? "care" : "fine"} says={headline(props)}>
        {says}
      </Verdict>
      <div class="plans">
        {allocation.plans.map((plan) => (
          <PlanCard
            key={plan.style}
            problem={problem}
            plan={plan}
            isFirst={plan === first}
            onApply={() => props.onApply(plan)}
            onPin={(feed) => {
              const pin = pinOf(feed);
              if (pin) props.onPin(pin);
            }}
          />
        ))}
      </div>
      <Fold title="Pins" open={!first}>
        {() => <Pins problem={problem} onChannelPin={props.onChannelPin} onBusUnpin={props.onBusUnpin} />}
      </Fold>
      {first ? <Fold title="What if">{() => <WhatIfs problem={problem} plan={first} />}</Fold> : null}
    </>
  );
};
