import "./check.css";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";
import { Asking, Question } from "./asking";
import { Begin } from "./begin";
import { Concluded, Outcome } from "./outcome";
import { verdict } from "./session";

const SureHelp = lazy(async () => (await import("./help")).SureHelp);

/** A check under way: the question, or what came of it. Loaded when a check begins. */
export const Running = () => {
  const judged = verdict.value;
  if (judged === null) return <Begin />;
  if (judged.kind === "cannot check") {
    return (
      <>
        <p class="notice warn" role="alert">
          {judged.why}
        </p>
        <Begin />
      </>
    );
  }
  const isAsking = judged.kind === "asking";
  return (
    <div class="stack">
      {/* It stays from the first question to the verdict: a new part that comes with its words is often not read out. */}
      <div role="status">{isAsking ? <Question piece={judged.next} /> : <Concluded judged={judged} />}</div>
      {isAsking ? <Asking piece={judged.next} /> : <Outcome judged={judged} />}
      {isAsking ? null : (
        <Explain about="What “sure” means">
          <SureHelp />
        </Explain>
      )}
    </div>
  );
};
