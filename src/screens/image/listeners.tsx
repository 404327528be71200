import { useSignal } from "@preact/signals";
import { facesAsSet, hearsFoh } from "../../core/model/kinds";
import type { Listener } from "../../core/model/setup";
import { addListener, editListener, isRemovable, removeListener } from "../../document/commands/listeners";
import { editPreferences } from "../../document/commands/settings";
import { LIMITS } from "../../document/limits";
import { current, endVisit, run } from "../../document/store";
import { describeImage, formatTally } from "../../text/image";
import { Pick, Tick } from "../../ui/choice";
import { NumberField } from "../../ui/number-field";
import { TextField } from "../../ui/text-field";
import { runOrSay, runWithWord, typing } from "../act";
import { RULES } from "../rules";
import { busTitle, full, listenerTitle } from "../shown-names";
import { images } from "./heard";

const Fields = ({ listener }: { listener: Listener }) => {
  const { buses, preferences: wishes } = current.value;
  const edit = (patch: Partial<Omit<Listener, "id" | "kind">>) => run(editListener(listener.id, patch));
  const audience = hearsFoh(listener);
  return (
    <div class="stack">
      <div class="fields">
        <TextField
          label="Name"
          most={LIMITS.name}
          value={listener.name}
          onValue={(name) => typing(editListener(listener.id, { name }))}
          onDone={endVisit}
        />
        {audience ? null : (
          <Pick
            label="Hears"
            value={listener.bus ?? ""}
            options={[["", "no bus"], ...buses.map((s) => [s.id, busTitle(s.id)] as const)]}
            onValue={(bus) => edit({ bus: bus === "" ? null : bus })}
          />
        )}
        {facesAsSet(listener) ? (
          <NumberField
            rule={RULES.degrees}
            label="Turned to their left; 0 faces the audience"
            value={listener.facing}
            step={15}
            onValue={(facing) => typing(editListener(listener.id, { facing }))}
            onDone={endVisit}
          />
        ) : null}
      </div>
      {audience ? null : (
        <>
          <Tick
            label="Flip L/R at this mixer"
            value={listener.flipped}
            onValue={(flipped) => edit({ flipped })}
          />
          <Tick label="Mono at this mixer" value={listener.mono} onValue={(mono) => edit({ mono })} />
          <Tick
            label="Matters most"
            value={wishes.first === listener.id}
            disabled={wishes.first === listener.id}
            onValue={() => run(editPreferences({ first: listener.id }))}
          />
        </>
      )}
      {isRemovable(current.value.listeners, listener) ? (
        <button
          type="button"
          onClick={() => runWithWord(removeListener(listener.id), `${listenerTitle(listener.id)} removed`)}
        >
          Remove
        </button>
      ) : null}
    </div>
  );
};

/** One listener: what they get in a line; on tap what can be changed, drawn only then. */
const Row = ({ listener }: { listener: Listener }) => {
  const open = useSignal(false);
  const image = images.value.get(listener.id);
  return (
    <li class="card">
      <details
        onToggle={(e) => {
          open.value = e.currentTarget.open;
        }}
      >
        <summary>
          <span>
            {listenerTitle(listener.id)}
            <br />
            <span class="soft small">
              {image ? describeImage(current.value, listener, image).says : ""}
              <br />
              {image ? formatTally(image) : ""}
            </span>
          </span>
        </summary>
        {open.value ? <Fields listener={listener} /> : null}
      </details>
    </li>
  );
};

/** Everybody who hears the pair or FOH, with one line each. */
export const Listeners = () => (
  <section class="stack" aria-labelledby="listeners">
    <h2 id="listeners">Who hears what</h2>
    <p class="soft small">
      Score: −1 all swapped, 0 all centred, +1 all on the right side; outer pieces count more.
    </p>
    <ul class="stack">
      {current.value.listeners.map((listener) => (
        <Row key={listener.id} listener={listener} />
      ))}
    </ul>
    <button type="button" onClick={() => runOrSay(addListener(), full("listeners"))}>
      Add a listener
    </button>
  </section>
);
