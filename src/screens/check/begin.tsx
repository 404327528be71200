import { startCheck } from "../../document/commands/check";
import { run } from "../../document/store";
import { Explain } from "../../pieces/explain";
import { lazy } from "../../pieces/lazy";
import { Verdict } from "../../pieces/verdict";
import { ListenerPick } from "../listener-pick";
import { chosenListener } from "../state";

const Model = lazy(async () => (await import("./model")).Model);

/** Before a check: who listens, how it works, how to stay safe. */
export const Begin = () => {
  const listener = chosenListener.value;
  const audience = listener?.kind === "audience";
  return (
    <>
      <Verdict tone="care" says={listener ? `Is it what ${listener.name} hears?` : "Is it what they hear?"}>
        One hits a piece, {listener?.name ?? "the listener"} says where it is. After a handful of hits you
        know what is wrong between the sum and the ears.
      </Verdict>
      <ListenerPick label="Who listens" />
      {audience ? (
        <p class="notice">The audience hears the house, not a sum. Choose somebody with ear-worn monitors.</p>
      ) : (
        <button
          type="button"
          class="main"
          disabled={!listener}
          onClick={() => {
            if (listener) run(startCheck(listener.id));
          }}
        >
          Start the check
        </button>
      )}
      <p class="notice warn small">
        Start with the level low. Bring it up only until the softest piece can be placed.
      </p>
      <Explain about="How it finds the fault">
        <p>
          For every known fault it computes what each ear would get from each piece, and from that the chance
          of each answer: differences under 1 dB are heard in the middle, 15 to 20 dB fully at one side,
          between them both answers happen. One answer in twenty may be a slip. It always asks for the hit
          that tells most.
        </p>
        <p>It is a model: common practice and hearing data, not a measurement of this listener.</p>
        <Model />
      </Explain>
    </>
  );
};
