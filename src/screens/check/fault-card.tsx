import type { FaultText } from "../../text/check";

/** One thing that it can be: what to do, in this order, and a button that records it where a plan has words for it. */
export const FaultCard = (props: {
  text: FaultText;
  /** It is the only one, and named already. */
  alone: boolean;
  onRecord: (() => void) | null;
}) => {
  const { text, alone, onRecord } = props;
  return (
    <li class="card stack">
      {alone ? null : <h2>{text.name}</h2>}
      <ol class="stack">
        {text.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ol>
      {onRecord ? (
        <details>
          <summary>Or leave it as it is</summary>
          <p class="small soft">Only if the desk stays as it is now: the plan then says what is heard.</p>
          <button
            type="button"
            aria-label={`Record as found (changes the plan): ${text.name}`}
            onClick={onRecord}
          >
            Record as found (changes the plan)
          </button>
        </details>
      ) : null}
    </li>
  );
};

/** Said once a fault is recorded. */
export const RECORDED = "The plan is now as found: Image and Patch show it";
