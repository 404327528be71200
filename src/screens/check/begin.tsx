import { hearsFoh } from "../../core/model/kinds";
import { startCheck } from "../../document/commands/check";
import { run } from "../../document/store";
import { listenerName } from "../../text/names";
import { capitalised } from "../../text/words";
import { Choice } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { BusFlags } from "../headroom/issues";
import { ListenerPick } from "../listener-pick";
import { chosenListener } from "../state";
import { checkWay } from "./way";

const CheckHelp = lazy(async () => (await import("./help")).CheckHelp);

/** Before a check: who listens, how it works, how to stay safe. */
export const BeginCheck = () => {
  const listener = chosenListener.value;
  const who = listenerName(listener);
  const audience = listener !== undefined && hearsFoh(listener);
  const byEar = checkWay.value === "ear";
  return (
    <>
      <Verdict tone="care" says={`Does ${who} hear what is planned?`}>
        Somebody hits a drum, {byEar ? `${who} says where it is` : "this device measures L and R"}. After a
        handful of hits you know what is wrong between the bus and the ears.{" "}
        <BusFlags only={listener?.bus ?? null} />
      </Verdict>
      <ListenerPick label="Who listens" />
      <Choice
        label="Who says where it is"
        value={checkWay.value}
        options={[
          ["ear", capitalised(who)],
          ["input", "Audio input"],
        ]}
        onValue={(way) => {
          checkWay.value = way;
        }}
      />
      {audience ? (
        <p class="notice">The audience hears FOH, not a bus. Choose a musician.</p>
      ) : byEar ? (
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
      ) : null}
      {byEar ? (
        <>
          <p class="notice warn small">
            Start with the level low. Bring it up only until the softest drum can be placed.
          </p>
          <Explain about="How it finds the fault">
            <CheckHelp />
          </Explain>
        </>
      ) : null}
    </>
  );
};
