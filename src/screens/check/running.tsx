import "./check.css";
import { endCheck } from "../../document/commands/check";
import { run } from "../../document/store";
import { describeObstacle } from "../../text/check";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";
import { LongSearch } from "../long-search";
import { Asking, Question } from "./asking";
import { BeginCheck } from "./begin";
import { CheckOutcome, Concluded } from "./outcome";
import { asked, decision, names, takeCheck } from "./session";

const SureHelp = lazy(async () => (await import("./help")).SureHelp);

/** A check under way: the question, or what came of it. Loaded when a check begins. */
export const Running = () => {
  const decided = decision.value;
  const said = names.value;
  const input = asked.value;
  if (said === null || input === null) return <BeginCheck />;
  if (decided === null)
    return (
      <div class="stack">
        <LongSearch name="check" input={input} onFound={(check) => takeCheck(input, check)} />
        <div class="row">
          <button type="button" onClick={() => run(endCheck())}>
            End the check
          </button>
        </div>
      </div>
    );
  if (decided.kind === "cannot check") {
    return (
      <>
        <p class="notice warn" role="alert">
          {describeObstacle(said, decided.why)}
        </p>
        <BeginCheck />
      </>
    );
  }
  const isAsking = decided.kind === "asking";
  return (
    <div class="stack">
      {/* It stays from the first question to the verdict: a new part that comes with its words is often not read out. */}
      <div role="status">
        {isAsking ? <Question probe={decided.next} /> : <Concluded decided={decided} />}
      </div>
      {isAsking ? <Asking probe={decided.next} /> : <CheckOutcome decided={decided} />}
      {isAsking ? null : (
        <Explain about="What the percentage means">
          <SureHelp />
        </Explain>
      )}
    </div>
  );
};
