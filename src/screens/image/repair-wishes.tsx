import { slotsLeft } from "../../core/patch/usage";
import { editWishes } from "../../document/commands/settings";
import { current, run } from "../../document/store";
import { Pick, Tick } from "../../pieces/choice";
import { listenerName } from "../names";

/** What a repair may do and for whom: the user's own rules. */
export const RepairWishes = () => {
  const { wishes, listeners } = current.value;
  return (
    <details>
      <summary>Rules for the repair</summary>
      <div class="stack">
        <Pick
          label="Who matters most"
          value={wishes.first}
          options={listeners.map((l) => [l.id, listenerName(l.id)] as const)}
          onValue={(first) => run(editWishes({ first }))}
        />
        <Tick
          label="The house must not change"
          value={wishes.houseFixed}
          onValue={(houseFixed) => run(editWishes({ houseFixed }))}
        />
        <Tick
          label="Take no free slot"
          value={wishes.slotsFixed}
          onValue={(slotsFixed) => run(editWishes({ slotsFixed }))}
        />
        <p class="soft small">
          Slots free now: {slotsLeft(current.value.monitor)}. Which sources must keep their sides is said at
          each source under Kit.
        </p>
      </div>
    </details>
  );
};
