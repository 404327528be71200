import { called } from "../../core/called";
import { startCheck } from "../../document/commands/check";
import { run } from "../../document/store";
import { Explain } from "../../pieces/explain";
import { lazy } from "../../pieces/lazy";
import { Verdict } from "../../pieces/verdict";
import { ListenerPick } from "../listener-pick";
import { chosenListener } from "../state";
import { SumFlags } from "../sum/flags";

const CheckHelp = lazy(async () => (await import("./help")).CheckHelp);

/** Before a check: who listens, how it works, how to stay safe. */
export const Begin = () => {
  const listener = chosenListener.value;
  const who = called(listener);
  const audience = listener?.kind === "audience";
  return (
    <>
      <Verdict tone="care" says={`Is it what ${who} hears?`}>
        Somebody hits a piece, {who} says where it is. After a handful of hits you know what is wrong between
        the sum and the ears. <SumFlags only={listener?.sum ?? null} />
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
        <CheckHelp />
      </Explain>
    </>
  );
};
