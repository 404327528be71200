import type { AllocationProblem } from "../../core/allocate/model";
import type { AllocationPlan, PlanFeed } from "../../core/allocate/plans";
import { allocatedBusName, few, inputsName, namesIn } from "../../text/allocate";
import { type Block, blocksOf, isHeld, pinOf } from "./blocks";
import { toggleBlock } from "./session";

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

/** The inputs of a plan as blocks, two in a row as they stand in the system; a tap pins a block where it is, or lets it go. */
export const PlanBlocks = (props: { problem: AllocationProblem; plan: AllocationPlan }) => (
  <ol class="blocks">
    {blocksOf(props.plan).map((block) => {
      const { feed, inputs } = block;
      const pin = feed && pinOf(feed);
      const isPinned = pin !== null && isHeld(props.problem, pin);
      return (
        <li key={inputs.join()} class={classOf(block)}>
          {feed && pin ? (
            <button
              type="button"
              class={`block${feed.bus ? " several" : ""}`}
              aria-pressed={isPinned}
              onClick={() => toggleBlock(pin, isPinned)}
            >
              <span class="soft small">{inputsName(inputs)}</span>{" "}
              <Content problem={props.problem} feed={feed} />
              {isPinned ? <span class="small"> · pinned</span> : <span class="hidden-visually">, pin</span>}
            </button>
          ) : (
            <div class="block none small">{inputsName(inputs)} free</div>
          )}
        </li>
      );
    })}
  </ol>
);
