import { computed, useComputed, useSignal } from "@preact/signals";
import { nameOf } from "../../core/called";
import { levelOf } from "../../core/decibels";
import { printNumber } from "../../core/number";
import { printPan } from "../../core/pannotation";
import { STYLES } from "../../core/panstyles";
import type { Id, Source } from "../../core/setup";
import { dragPan, editSource } from "../../document/commands/sources";
import { current, endDrag, figures, run } from "../../document/store";
import { Icon } from "../../pieces/icon";
import { lazy } from "../../pieces/lazy";
import { PanBar } from "../../pieces/pan-bar";
import { chosenSum } from "../state";
import { SumMark } from "../sum/flags";
import type { Neighbours } from "./source-details";

const level = (gain: number): string => printNumber(levelOf(gain), 1);

/** What each source brings into the legs of the chosen sum, as it is shown; nothing where it brings nothing. */
const shownLegs = computed<ReadonlyMap<Id, readonly [string, string]>>(() => {
  const sum = chosenSum.value;
  const parts = (sum && figures.value.parts.get(sum.id)) ?? [];
  return new Map(parts.map((p) => [p.source.id, [level(p.legs[0]), level(p.legs[1])]]));
});

const desk = computed(() => current.value.console);

const SourceDetails = lazy(async () => (await import("./source-details")).SourceDetails);

/**
 * One source: its name, its pan under the thumb, what reaches the legs; the rest behind one tap.
 * While one of many is dragged, only the rows in which something changes are drawn again.
 */
export const SourceRow = (props: { source: Source } & Neighbours) => {
  const { source } = props;
  const open = useSignal(false);
  const console = desk.value;
  // A row keeps its source for good, so what is computed here is of the same one.
  const left = useComputed(() => shownLegs.value.get(source.id)?.[0]).value;
  const right = useComputed(() => shownLegs.value.get(source.id)?.[1]).value;
  const name = nameOf(source, "source");
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
        legs={left !== undefined && right !== undefined ? [left, right] : undefined}
        steps={STYLES[console.panStyle].steps(console)}
        onValue={(pan) => run(dragPan(source.id, pan))}
        onDone={endDrag}
      />
      <SumMark source={source.id} />
      {open.value ? <SourceDetails {...props} /> : null}
    </li>
  );
};
