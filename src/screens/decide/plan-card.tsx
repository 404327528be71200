import type { AllocationProblem } from "../../core/allocate/model";
import type { AllocationPlan } from "../../core/allocate/plans";
import { describeMusician, describePlanChange, describePlanLosses, PLAN_STYLES } from "../../text/allocate";
import { formatCount } from "../../text/words";
import { Fold } from "../../ui/fold";
import { PlanBlocks } from "./plan-blocks";
import { apply } from "./session";

const Lines = ({ lines }: { lines: readonly string[] }) => (
  <ul>
    {lines.map((line) => (
      <li key={line}>{line}</li>
    ))}
  </ul>
);

/** One plan: what it is for, its inputs as blocks, what it loses, and behind a tap who mixes what and what changes. */
export const PlanCard = (props: {
  problem: AllocationProblem;
  plan: AllocationPlan;
  /** Whether it is the one to begin with. */
  isFirst: boolean;
}) => {
  const { problem, plan } = props;
  const { name, why } = PLAN_STYLES[plan.style];
  const losses = describePlanLosses(problem, plan);
  return (
    <section class="card stack" aria-label={name}>
      <h2>{name}</h2>
      <p>{why}</p>
      <PlanBlocks problem={problem} plan={plan} />
      <p>
        <b>{formatCount(plan.inputsLeft.length, "input")} left.</b>
      </p>
      {losses.length > 0 ? <Lines lines={losses} /> : <p>Nothing is lost.</p>}
      <Fold title="Who can mix what separately" look="plain">
        {() => <Lines lines={plan.musicians.map((view) => describeMusician(problem, view))} />}
      </Fold>
      {plan.changes.length > 0 ? (
        <Fold title={`Changes: ${formatCount(plan.changes.length, "channel")}`} look="plain">
          {() => <Lines lines={plan.changes.map((change) => describePlanChange(problem, change))} />}
        </Fold>
      ) : null}
      <button
        type="button"
        class={props.isFirst ? "main" : ""}
        aria-label={`Apply to plan: ${name}`}
        onClick={() => apply(plan)}
      >
        Apply to plan
      </button>
    </section>
  );
};
