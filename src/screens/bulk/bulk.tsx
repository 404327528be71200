import "./bulk.css";
import { useSignal } from "@preact/signals";
import type { Channel, Id } from "../../core/model/setup";
import { current } from "../../document/store";
import { formatDeskNumbers, nameOr } from "../../text/names";
import { formatCount } from "../../text/words";
import { Pick, Tick } from "../../ui/choice";
import { runWithWord } from "../act";
import type { BulkAction, BulkActions } from "./action";

/** Stands in a list of values for channels that do not agree. */
const MIXED = "";

/** What is set, and to which value. */
const Setter = (props: {
  actions: BulkActions;
  chosen: readonly Channel[];
  action: BulkAction;
  onAction: (id: string) => void;
}) => {
  const { actions, chosen, action } = props;
  const values = new Set(chosen.map((c) => action.valueOf(c, current.value)));
  const [only = MIXED] = values.size === 1 ? values : [];
  const says = chosen.length === 0 ? "select channels" : "mixed";
  const set = (value: string, name: string) =>
    runWithWord(
      action.apply(
        chosen.map((c) => c.id),
        value,
      ),
      `${action.label} of ${formatCount(chosen.length, "channel")}: ${name}`,
    );
  return (
    <div class="bulk-set">
      <Pick
        label="Set"
        value={action.id}
        options={actions.map((a) => [a.id, a.label])}
        onValue={props.onAction}
      />
      <Pick
        label="To"
        value={only}
        disabled={chosen.length === 0}
        options={only === MIXED ? [[MIXED, says], ...action.options] : action.options}
        onValue={(value) => {
          const name = action.options.find(([v]) => v === value)?.[1];
          if (name !== undefined) set(value, name);
        }}
      />
    </div>
  );
};

/** Several channels ticked in a list, and one thing set on all of them in one step of undo. */
export const Bulk = (props: { channels: readonly Channel[]; actions: BulkActions; onDone: () => void }) => {
  const { channels, actions } = props;
  const ticked = useSignal<ReadonlySet<Id>>(new Set());
  const wanted = useSignal("");
  const action = actions.find((a) => a.id === wanted.value) ?? actions[0];
  const names = new Map(action.options);
  const chosen = channels.filter((c) => ticked.value.has(c.id));
  const toggle = (id: Id) => {
    const next = new Set(ticked.value);
    if (!next.delete(id)) next.add(id);
    ticked.value = next;
  };
  return (
    <>
      <ul class="bulk" aria-label="Channels to select">
        {channels.map((channel) => (
          <li key={channel.id} class="row" data-colour={channel.colour}>
            <Tick
              label={
                <>
                  <span class="soft">{formatDeskNumbers(channel.numbers)}</span> {nameOr(channel, "channel")}
                </>
              }
              value={ticked.value.has(channel.id)}
              onValue={() => toggle(channel.id)}
            />
            <span class="soft small">{names.get(action.valueOf(channel, current.value))}</span>
          </li>
        ))}
      </ul>
      <section class="bulk-bar stack" aria-label="Set on selected channels">
        <div class="row">
          <b class="grow" role="status">
            {chosen.length} of {channels.length} selected
          </b>
          <button
            type="button"
            onClick={() => {
              ticked.value = new Set(chosen.length < channels.length ? channels.map((c) => c.id) : []);
            }}
          >
            {chosen.length < channels.length ? "All" : "None"}
          </button>
          <button type="button" onClick={props.onDone}>
            Done
          </button>
        </div>
        <Setter
          actions={actions}
          chosen={chosen}
          action={action}
          onAction={(id) => {
            wanted.value = id;
          }}
        />
      </section>
    </>
  );
};
