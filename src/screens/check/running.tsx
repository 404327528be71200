import "./check.css";
import { describeObstacle } from "../../text/check";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";
import { Asking, Question } from "./asking";
import { Begin } from "./begin";
import { Concluded, Outcome } from "./outcome";
import { decision, names } from "./session";

const SureHelp = lazy(async () => (await import("./help")).SureHelp);

/** A check under way: the question, or what came of it. Loaded when a check begins. */
export const Running = () => {
  const decided = decision.value;
  const said = names.value;
  if (decided === null || said === null) return <Begin />;
  if (decided.kind === "cannot check") {
    return (
      <>
        <p class="notice warn" role="alert">
          {describeObstacle(said, decided.why)}
        </p>
        <Begin />
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
      {isAsking ? <Asking probe={decided.next} /> : <Outcome decided={decided} />}
      {isAsking ? null : (
        <Explain about="What the percentage means">
          <SureHelp />
        </Explain>
      )}
    </div>
  );
};
