import "./check.css";
import { Verdict } from "../../pieces/verdict";
import { Asking } from "./asking";
import { Begin } from "./begin";
import { Outcome } from "./outcome";
import { verdict } from "./session";

/** A check under way: the question, or what came of it. Loaded when a check begins. */
export const Running = () => {
  const judged = verdict.value;
  if (judged === null) return <Begin />;
  if (judged.kind === "asking") return <Asking piece={judged.next} />;
  if (judged.kind === "cannot check") {
    return (
      <>
        <Verdict tone="care" says={judged.why} />
        <Begin />
      </>
    );
  }
  return <Outcome judged={judged} />;
};
