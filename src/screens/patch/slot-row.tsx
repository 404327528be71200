import type { SheetRow } from "../../core/patch/sheet";
import { TAP_NAMES } from "../../core/patch/taps";
import type { Slot, TapPoint } from "../../core/setup";
import { freshSlot } from "../../document/commands/place";
import { editSlot, setSlot, swapChannels } from "../../document/commands/slots";
import { swapPair } from "../../document/commands/sums";
import { current, endDrag, run } from "../../document/store";
import { Pick, Tick } from "../../pieces/choice";
import { NumberField } from "../../pieces/number-field";
import { runOrSay, typing } from "../act";
import { sourceName, sumName } from "../names";
import { RULES } from "../rules";
import { feedKey, feedOptions } from "./feeds";

const TAPS = Object.entries(TAP_NAMES) as [TapPoint, string][];

const SlotFields = ({ at, slot }: { at: number; slot: Slot }) => {
  const { feed } = slot;
  const sum = feed.kind === "leg" ? current.value.sums.find((s) => s.id === feed.sum) : undefined;
  return (
    <>
      {feed.kind === "source" ? (
        <Pick
          label="Taken"
          value={feed.tap}
          options={TAPS}
          onValue={(tap) => run(editSlot(at, { feed: { ...feed, tap } }))}
        />
      ) : null}
      <NumberField
        rule={RULES.trim}
        value={slot.trim}
        step={1}
        onValue={(trim) => typing(editSlot(at, { trim }))}
        onDone={endDrag}
      />
      <Tick label="On" value={slot.on} onValue={(on) => run(editSlot(at, { on }))} />
      {sum?.stereo ? (
        <button type="button" onClick={() => run(swapPair(sum.id))}>
          Swap the legs of {sumName(sum.id)}
        </button>
      ) : null}
      {feed.kind === "source" && feed.channel !== "both" ? (
        <button
          type="button"
          onClick={() => runOrSay(swapChannels(feed.source), "Only one of the channels has a slot")}
        >
          Swap the channels of {sourceName(feed.source)}
        </button>
      ) : null}
    </>
  );
};

/** One slot: what it takes; on tap what can be changed. */
export const SlotRow = ({ row }: { row: SheetRow }) => {
  const setup = current.value;
  const at = row.slot - 1;
  const slot = setup.monitor.slots[at] ?? null;
  const options = feedOptions(setup);
  const more = [row.part, row.tap, row.swapped && `reversed ${row.swapped}`].filter(Boolean).join(" · ");
  return (
    <details class={`slot${row.over ? " over" : ""}`}>
      <summary>
        <span class="slot-number">{row.slot}</span>
        <span class="grow">
          {row.name === "" ? <span class="soft">free</span> : row.name}
          <br />
          <span class="soft small">{more}</span>
        </span>
        {row.on === false ? <b class="bad">off</b> : null}
        {row.over ? <b class="bad">over</b> : null}
      </summary>
      <div class="fields">
        <Pick
          label={`Slot ${row.slot} takes`}
          value={feedKey(slot?.feed)}
          options={[["", "nothing, free"], ...options.map(([key, name]) => [key, name] as const)]}
          onValue={(key) => {
            const feed = options.find(([k]) => k === key)?.[2];
            run(setSlot(at, feed ? { ...(slot ?? freshSlot(feed)), feed } : null));
          }}
        />
        {slot ? <SlotFields at={at} slot={slot} /> : null}
      </div>
    </details>
  );
};
