import { editWishes } from "../../document/commands/settings";
import { current, run } from "../../document/store";
import { Pick, Tick } from "../../pieces/choice";

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
          options={listeners.map((l) => [l.id, l.name || "Unnamed listener"] as const)}
          onValue={(first) => run(editWishes({ first }))}
        />
        <Tick
          label="The house must not change"
          value={wishes.houseFixed}
          onValue={(houseFixed) => run(editWishes({ houseFixed }))}
        />
        <p class="soft small">
          Which sources must keep their sides is said at each source under Kit; free slots are counted under
          Patch.
        </p>
      </div>
    </details>
  );
};
