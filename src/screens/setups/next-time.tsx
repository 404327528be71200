import { signal, useSignal } from "@preact/signals";
import { channelsTyped } from "../../core/inputs/typed";
import { isFurther, sitsAtKit } from "../../core/model/kinds";
import type { Hand, Id } from "../../core/model/setup";
import { setUpNextTime } from "../../document/commands/next-time";
import { LIMITS } from "../../document/limits";
import { current, readOnly } from "../../document/store";
import { shelf } from "../../shelf/here";
import { nameOr } from "../../text/names";
import { describeTypedNote } from "../../text/typed";
import { Choice, Tick } from "../../ui/choice";
import { TextField } from "../../ui/text-field";
import { runPlanChange } from "../act";
import { HANDS, setupName } from "../shown-names";
import { chosenBus } from "../state";

/** The copy that was just made, until it is asked no more what is different in it. */
export const freshCopy = signal<string | null>(null);

const Form = () => {
  const { listeners, channels, kit } = current.value;
  const drummer = useSignal(listeners.find((l) => sitsAtKit(l))?.name ?? "");
  const hand = useSignal<Hand>(kit.hand);
  const absent = useSignal<readonly Id[]>([]);
  const lines = useSignal("");
  const typed = channelsTyped(lines.value, current.value, LIMITS);
  const lineUp = [
    ...listeners.filter((l) => isFurther(l)).map((l) => [l.id, nameOr(l, "listener")] as const),
    ...channels.filter((c) => c.kind !== "drum").map((c) => [c.id, nameOr(c, "channel")] as const),
  ];
  const done = (): void => {
    freshCopy.value = null;
  };
  return (
    <section class="card stack" aria-labelledby="next-time">
      <h2 id="next-time">What is different next time?</h2>
      <p class="soft small" role="status">
        {`Copied as “${setupName(current.value)}”, which is open now. `}
        Answer what is different: the plan changes in one step, and the line check starts again.
      </p>
      <TextField
        label="Drummer"
        most={LIMITS.name}
        value={drummer.value}
        onValue={(name) => {
          drummer.value = name;
        }}
      />
      <Choice
        label="The kit is set up"
        value={hand.value}
        options={HANDS}
        onValue={(to) => {
          hand.value = to;
        }}
      />
      <fieldset class="field">
        <legend class="soft small">Line-up: untick who or what is not there</legend>
        <div class="line-up">
          {lineUp.map(([id, name]) => (
            <Tick
              key={id}
              label={name}
              value={!absent.value.includes(id)}
              onValue={(is) => {
                absent.value = is ? absent.value.filter((a) => a !== id) : [...absent.value, id];
              }}
            />
          ))}
        </div>
      </fieldset>
      <TextField
        label="New channels, one per line"
        most={LIMITS.note}
        lines={2}
        value={lines.value}
        onValue={(text) => {
          lines.value = text;
        }}
      />
      {typed.wrong.length > 0 ? (
        <p class="notice bad small" role="status">
          {typed.wrong.map(describeTypedNote).join(" ")}
        </p>
      ) : null}
      <div class="row">
        <button
          type="button"
          class="main"
          disabled={readOnly.value || typed.wrong.length > 0}
          onClick={() => {
            const answers = { drummer: drummer.value, hand: hand.value, absent: absent.value };
            const command = setUpNextTime({ ...answers, fresh: typed.channels }, chosenBus.value?.id ?? null);
            runPlanChange(command, "Plan changed for next time");
            done();
          }}
        >
          Apply to plan
        </button>
        <button type="button" onClick={done}>
          Keep as it is
        </button>
      </div>
    </section>
  );
};

/** Asks what is different in a copy that was just made; nothing else. */
export const NextTimeCard = () => {
  const id = shelf.openId.value;
  return id !== null && freshCopy.value === id && !current.value.handed ? <Form key={id} /> : null;
};
