import { useSignal } from "@preact/signals";
import type { SheetRow } from "../../core/inputs/sheet";
import { portNumber, portOf, portRange } from "../../core/model/ports";
import type { MonitorInput, TapPoint } from "../../core/model/setup";
import { newInput } from "../../document/commands/assign";
import { swapBus } from "../../document/commands/buses";
import { editChannel } from "../../document/commands/channels";
import { editInput, setInput, swapLines } from "../../document/commands/inputs";
import { current, endVisit, run } from "../../document/store";
import { formatRowName, SHEET_COLUMNS } from "../../text/sheet";
import { TAP_NAMES } from "../../text/taps";
import { Pick, Tick } from "../../ui/choice";
import { NumberField } from "../../ui/number-field";
import { runOrSay, typing } from "../act";
import { RULES } from "../rules";
import { busTitle, channelTitle } from "../shown-names";
import { feedKey, feedOptions } from "./feeds";

const TAPS = Object.entries(TAP_NAMES) as [TapPoint, string][];

const InputFields = ({ at, input }: { at: number; input: MonitorInput }) => {
  const { feed } = input;
  const { desk } = current.value;
  const channel =
    feed.kind === "channel" ? current.value.channels.find((c) => c.id === feed.channel) : undefined;
  const bus = feed.kind === "bus" ? current.value.buses.find((s) => s.id === feed.bus) : undefined;
  return (
    <>
      {channel ? (
        <>
          <Pick
            label="Tap point"
            value={channel.directOut.tap}
            options={TAPS}
            onValue={(tap) => run(editChannel(channel.id, { directOut: { ...channel.directOut, tap } }))}
          />
          <Tick
            label="Direct out on"
            value={channel.directOut.on}
            onValue={(on) => run(editChannel(channel.id, { directOut: { ...channel.directOut, on } }))}
          />
        </>
      ) : null}
      <NumberField
        rule={{ ...RULES.port, ...portRange(desk) }}
        label="Output port"
        value={input.port === null ? null : portNumber(desk, input.port)}
        onValue={(number) => typing(editInput(at, { port: portOf(desk, number) }))}
        onEmpty={() => typing(editInput(at, { port: null }))}
        onDone={endVisit}
      />
      <NumberField
        rule={RULES.trim}
        value={input.trim}
        step={1}
        onValue={(trim) => typing(editInput(at, { trim }))}
        onDone={endVisit}
      />
      <Tick label="On" value={input.on} onValue={(on) => run(editInput(at, { on }))} />
      {bus?.stereo ? (
        <button type="button" onClick={() => run(swapBus(bus.id))}>
          Swap {busTitle(bus.id)} L/R
        </button>
      ) : null}
      {feed.kind === "channel" && feed.side !== "both" ? (
        <button type="button" onClick={() => runOrSay(swapLines(feed.channel), "Only one side has an input")}>
          Swap {channelTitle(feed.channel)} L/R
        </button>
      ) : null}
    </>
  );
};

/** What can be changed of one input, the choice of everything it can take among it. */
const Changes = ({ at, input }: { at: number; input: MonitorInput | null }) => {
  const options = feedOptions(current.value);
  return (
    <div class="fields">
      <Pick
        label={`Input ${at + 1} fed by`}
        value={feedKey(input?.feed)}
        options={[["", "free"], ...options.map(([key, name]) => [key, name] as const)]}
        onValue={(key) => {
          const feed = options.find(([k]) => k === key)?.[2];
          run(setInput(at, feed ? { ...(input ?? newInput(feed)), feed } : null));
        }}
      />
      {input ? <InputFields at={at} input={input} /> : null}
    </div>
  );
};

/**
 * One input: what it takes; on tap what can be changed. That is drawn only while it is open: every input can take every
 * channel, and with hundreds of both the choices alone would hold up the page for seconds.
 */
export const InputRow = ({ row }: { row: SheetRow }) => {
  const setup = current.value;
  const open = useSignal(false);
  const { feed } = row;
  const input = feed?.input ?? null;
  const columns = [SHEET_COLUMNS.from, SHEET_COLUMNS.tap, SHEET_COLUMNS.swapped] as const;
  const more = columns
    .map(({ cell }) => cell(row, setup))
    .filter(Boolean)
    .join(" · ");
  return (
    <details
      class={`monitor-input${row.over ? " over" : ""}`}
      onToggle={(e) => {
        open.value = e.currentTarget.open;
      }}
    >
      <summary>
        <span class="input-number">{row.input}</span>
        <span class="grow">
          {feed ? formatRowName(setup, row) : <span class="soft">free</span>}
          <br />
          <span class="soft small">{more}</span>
        </span>
        {input?.on === false ? <b class="bad">off</b> : null}
        {row.over ? <b class="bad">over</b> : null}
      </summary>
      {open.value ? <Changes at={row.input - 1} input={input} /> : null}
    </details>
  );
};
