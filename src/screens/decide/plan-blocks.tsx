import type { AllocationProblem } from "../../core/allocate/model";
import type { Plan, PlanFeed } from "../../core/allocate/plans";
import { allocatedBusName, few, inputsName, namesIn } from "../../text/allocate";
import { type Block, blocksOf } from "./blocks";

const Content = ({ problem, feed }: { problem: AllocationProblem; feed: PlanFeed }) => {
  const names = feed.channels.map(namesIn(problem));
  if (!feed.bus) return <b>{names[0]}</b>;
  return (
    <>
      <b>
        {allocatedBusName(feed.bus)}
        {feed.width === 2 ? " L/R" : ""}
      </b>
      {feed.isSwapped ? " swapped" : ""} <span class="soft small">{few(names)}</span>
    </>
  );
};

const classOf = ({ inputs }: Block): string =>
  inputs.length === 2 ? "wide" : (inputs[0] ?? 0) % 2 === 1 ? "odd" : "";

/** The inputs of a plan as blocks, two in a row as they stand in the system; a tap pins a block where it is. */
export const PlanBlocks = (props: {
  problem: AllocationProblem;
  plan: Plan;
  onPin: (feed: PlanFeed) => void;
}) => (
  <ol class="blocks">
    {blocksOf(props.plan).map((block) => {
      const { feed, inputs } = block;
      return (
        <li key={inputs.join()} class={classOf(block)}>
          {feed ? (
            <button
              type="button"
              class={`block${feed.bus ? " several" : ""}`}
              onClick={() => props.onPin(feed)}
            >
              <span class="soft small">{inputsName(inputs)}</span>{" "}
              <Content problem={props.problem} feed={feed} />
              <span class="hidden-visually">, pin</span>
            </button>
          ) : (
            <div class="block none small">{inputsName(inputs)} free</div>
          )}
        </li>
      );
    })}
  </ol>
);
