import { inputsLeft } from "../../core/inputs/usage";
import { editPreferences } from "../../document/commands/settings";
import { current, run } from "../../document/store";
import { Pick, Tick } from "../../ui/choice";
import { listenerTitle } from "../shown-names";

/** What a recommendation may do and for whom: the user's own rules. */
export const RepairWishes = () => {
  const { preferences: wishes, listeners } = current.value;
  return (
    <details>
      <summary>Rules for the recommendation</summary>
      <div class="stack">
        <Pick
          label="Who matters most"
          value={wishes.first}
          options={listeners.map((l) => [l.id, listenerTitle(l.id)] as const)}
          onValue={(first) => run(editPreferences({ first }))}
        />
        <Tick
          label="FOH must not change"
          value={wishes.fohFixed}
          onValue={(fohFixed) => run(editPreferences({ fohFixed }))}
        />
        <Tick
          label="Use no free monitor inputs"
          value={wishes.inputsFixed}
          onValue={(inputsFixed) => run(editPreferences({ inputsFixed }))}
        />
        <p class="soft small">
          Monitor inputs free now: {inputsLeft(current.value.monitor)}. Keep L/R is set at each channel.
        </p>
      </div>
    </details>
  );
};
