import { useSignal } from "@preact/signals";
import { levelOf } from "../../core/decibels";
import { printNumber } from "../../core/number";
import { printPan } from "../../core/pannotation";
import type { Source } from "../../core/setup";
import { dragPan, editSource } from "../../document/commands/sources";
import { current, endDrag, figures, run } from "../../document/store";
import { Icon } from "../../pieces/icon";
import { PanBar } from "../../pieces/pan-bar";
import { chosenSum } from "../state";
import { SourceDetails } from "./source-details";

const leg = (gain: number): string => (gain === 0 ? "silent" : `${printNumber(levelOf(gain), 1)} dB`);

/** What the source brings into each leg of the chosen sum. */
const LegLine = ({ source }: { source: Source }) => {
  const sum = chosenSum.value;
  const part = sum && figures.value.parts.get(sum.id)?.find((p) => p.source.id === source.id);
  if (source.muted) return <p class="soft small">Muted: not in any sum</p>;
  if (!sum || !part) return <p class="soft small">{sum ? `Not in ${sum.name}` : "In no sum"}</p>;
  if (!sum.stereo) return <p class="soft small">{leg(part.legs[0])} into the mono sum</p>;
  return (
    <p class="small row apart">
      <span>
        <b class="left">L</b> {leg(part.legs[0])}
      </span>
      <span>
        {leg(part.legs[1])} <b class="right">R</b>
      </span>
    </p>
  );
};

/** One source: its name, its pan under the thumb, what reaches the legs; the rest behind one tap. */
export const SourceRow = (props: { source: Source; first: boolean; last: boolean }) => {
  const { source } = props;
  const open = useSignal(false);
  const { console } = current.value;
  const name = source.name || "Unnamed source";
  const printed = printPan(source.pan, console);
  return (
    <li class={`card stack source${source.muted ? " muted" : ""}`}>
      <div class="row source-head">
        <button
          type="button"
          class="bare grow name"
          aria-expanded={open.value}
          onClick={() => {
            open.value = !open.value;
          }}
        >
          <b>{name}</b>
          <Icon name={open.value ? "up" : "down"} size={18} />
        </button>
        <span class="big pan-shown" aria-hidden="true">
          {printed}
        </span>
        <button
          type="button"
          class="bare"
          aria-pressed={source.muted}
          aria-label={`Mute ${name}`}
          onClick={() => run(editSource(source.id, { muted: !source.muted }))}
        >
          <Icon name={source.muted ? "hush" : "sound"} />
        </button>
      </div>
      <PanBar
        label={`House pan of ${name}`}
        value={source.pan}
        printed={printed}
        steps={console.panSteps}
        onValue={(pan) => run(dragPan(source.id, pan))}
        onDone={endDrag}
      />
      <LegLine source={source} />
      {open.value ? <SourceDetails {...props} /> : null}
    </li>
  );
};
