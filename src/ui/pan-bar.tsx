import { useRef } from "preact/hooks";
import type { Pan } from "../core/model/units";

/** A pan as a line from left to right with one mark, dragged or moved by keys. */
export interface PanBarProps {
  readonly label: string;
  readonly value: Pan;
  /** The value in the console's own notation. */
  readonly printed: string;
  /** What the left and the right side get, dB as text; said too. */
  readonly sides?: readonly [left: string, right: string] | undefined;
  /** Steps each side of centre. */
  readonly steps: number;
  readonly onValue: (pan: Pan) => void;
  readonly onDone: () => void;
}

const KEYS: { readonly [key: string]: (at: number, steps: number) => number } = {
  ArrowLeft: (at) => at - 1,
  ArrowDown: (at) => at - 1,
  ArrowRight: (at) => at + 1,
  ArrowUp: (at) => at + 1,
  PageDown: (at, steps) => at - Math.max(1, Math.round(steps / 10)),
  PageUp: (at, steps) => at + Math.max(1, Math.round(steps / 10)),
  Home: (_, steps) => -steps,
  End: (_, steps) => steps,
  c: () => 0,
  "0": () => 0,
};

/**
 * Dragging moves the mark by as much as the finger moves, so that a touch alone changes nothing
 * and a scroll that begins on the bar stays a scroll.
 */
export const PanBar = (props: PanBarProps) => {
  const start = useRef<{ readonly x: number; readonly pan: Pan; readonly width: number } | null>(null);
  const to = (step: number) => {
    const kept = Math.max(-props.steps, Math.min(props.steps, step)) / props.steps;
    if (kept !== props.value) props.onValue(kept);
  };
  const end = () => {
    if (start.current === null) return;
    start.current = null;
    props.onDone();
  };
  const { sides } = props;
  const at = `${(50 + 50 * props.value).toFixed(3)}%`;
  return (
    <div
      class="pan-bar"
      role="slider"
      tabIndex={0}
      aria-label={props.label}
      aria-valuemin={-props.steps}
      aria-valuemax={props.steps}
      aria-valuenow={Math.round(props.value * props.steps)}
      aria-valuetext={sides ? `${props.printed}: left ${sides[0]}, right ${sides[1]}` : props.printed}
      onPointerDown={(e) => {
        if (e.button !== 0) return;
        e.currentTarget.setPointerCapture(e.pointerId);
        start.current = { x: e.clientX, pan: props.value, width: e.currentTarget.clientWidth };
      }}
      onPointerMove={(e) => {
        if (start.current === null) return;
        const { x, pan, width } = start.current;
        to(Math.round((pan + (2 * (e.clientX - x)) / width) * props.steps));
      }}
      onPointerUp={end}
      onPointerCancel={end}
      onKeyDown={(e) => {
        const move = KEYS[e.key];
        if (move === undefined || e.ctrlKey || e.metaKey || e.altKey) return;
        e.preventDefault();
        to(move(Math.round(props.value * props.steps), props.steps));
      }}
      onKeyUp={(e) => {
        if (KEYS[e.key] !== undefined) props.onDone();
      }}
    >
      <span class="pan-line" aria-hidden="true">
        <i style={{ left: at }} />
      </span>
      <span class="left" aria-hidden="true">
        {sides ? sides[0] : "L"}
      </span>
      <span class="right" aria-hidden="true">
        {sides ? sides[1] : "R"}
      </span>
    </div>
  );
};
