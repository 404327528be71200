import type { ComponentChildren } from "preact";
import { useRef, useState } from "preact/hooks";
import type { Degrees, Metres } from "../core/model/units";
import { shortName } from "./spread";

/** One thing on a plan seen from above: `x` to the right and `y` up in the drawing. */
export interface Mark {
  readonly id: string;
  readonly name: string;
  readonly x: Metres;
  readonly y: Metres;
  /** Radius, metres. */
  readonly size: Metres;
  /** Way it faces in the drawing: 0 up, positive to the left. */
  readonly facing?: Degrees;
  readonly fixed?: boolean;
  readonly look: "drum" | "metal" | "mic" | "person" | "throne";
  /** Said to a screen reader: where it is. */
  readonly says: string;
}

const SIZE = 340;
/** Radius that a finger needs on the narrowest phone, where the drawing is 288 px wide. */
const TOUCH = 28.5;
const KEYS: { readonly [key: string]: readonly [x: number, y: number] } = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

/** What stands on a mark. */
const shown = ({ name }: Mark): string => shortName(name, 10);

/** What a mark is called: what stands on it comes first, so that it can be called by that. */
const spoken = (mark: Mark): string =>
  shown(mark) === mark.name ? mark.says : `${shown(mark)}: ${mark.says}`;

/** Air around the outermost mark. */
const AIR = 1.05;

/** Metres from the middle to the edge that hold every mark. */
const reachOf = (marks: readonly Mark[], [midX, midY]: readonly [Metres, Metres], least: Metres): Metres => {
  const far = (m: Mark): Metres => Math.max(Math.abs(m.x - midX), Math.abs(m.y - midY)) + m.size;
  return Math.max(least, ...marks.map((m) => AIR * far(m)));
};

/**
 * A plan from above with things to drag; each also moves by the arrow keys (with Shift ten times as far). It grows to
 * hold what stands far out; under a finger it keeps its size, and a mark goes with the finger as far as the edge.
 */
export const PlanView = (props: {
  label: string;
  marks: readonly Mark[];
  /** Metres from the middle to an edge, at least. */
  reach: Metres;
  /** Where the middle of the drawing is, metres. */
  middle: readonly [x: Metres, y: Metres];
  /** Smallest move, metres. */
  step: Metres;
  /** Where a line is drawn across, metres. */
  front?: Metres;
  onMove: (id: string, x: Metres, y: Metres) => void;
  onDone: () => void;
  children?: ComponentChildren;
}) => {
  const drag = useRef<{ id: string; x: number; y: number; px: number; py: number } | null>(null);
  const svg = useRef<SVGSVGElement>(null);
  const [held, setHeld] = useState<Metres | null>(null);
  const reach = held ?? reachOf(props.marks, props.middle, props.reach);
  const scale = SIZE / (2 * reach);
  const [midX, midY] = props.middle;
  const left = (x: Metres) => SIZE / 2 + (x - midX) * scale;
  const top = (y: Metres) => SIZE / 2 - (y - midY) * scale;
  const whole = (v: Metres) => Number((Math.round(v / props.step) * props.step).toFixed(3));
  const inside = (v: number, mid: number) => Math.max(mid - reach, Math.min(mid + reach, v));
  const metresPerPixel = () => (2 * reach) / (svg.current?.clientWidth || SIZE);
  const end = () => {
    if (drag.current === null) return;
    drag.current = null;
    setHeld(null);
    props.onDone();
  };
  return (
    <svg ref={svg} class="plan" viewBox={`0 0 ${SIZE} ${SIZE}`} role="group" aria-label={props.label}>
      {props.children}
      {props.front === undefined ? null : <path d={`M0 ${top(props.front)}H${SIZE}`} class="plan-line" />}
      {props.marks.map((m) => (
        <g
          key={m.id}
          class={`mark ${m.look}`}
          transform={`translate(${left(m.x)} ${top(m.y)})`}
          {...(m.fixed
            ? { role: "img", "aria-label": m.says }
            : {
                role: "button",
                // In SVG the name of an attribute keeps its case.
                tabindex: 0,
                "aria-label": `${spoken(m)}. Arrow keys move it.`,
                onPointerDown: (e: PointerEvent) => {
                  (e.currentTarget as Element).setPointerCapture(e.pointerId);
                  setHeld(reach);
                  drag.current = { id: m.id, x: m.x, y: m.y, px: e.clientX, py: e.clientY };
                },
                onPointerMove: (e: PointerEvent) => {
                  const d = drag.current;
                  if (d?.id !== m.id) return;
                  const by = metresPerPixel();
                  const x = inside(d.x + (e.clientX - d.px) * by, midX);
                  const y = inside(d.y - (e.clientY - d.py) * by, midY);
                  props.onMove(m.id, whole(x), whole(y));
                },
                onPointerUp: end,
                onPointerCancel: end,
                onKeyDown: (e: KeyboardEvent) => {
                  const way = KEYS[e.key];
                  if (!way) return;
                  e.preventDefault();
                  const by = props.step * (e.shiftKey ? 10 : 1);
                  props.onMove(m.id, whole(m.x + way[0] * by), whole(m.y + way[1] * by));
                },
                onKeyUp: (e: KeyboardEvent) => {
                  if (KEYS[e.key]) props.onDone();
                },
              })}
        >
          <circle r={TOUCH} class="mark-touch" />
          <circle r={Math.max(5, m.size * scale)} class="mark-body" />
          {m.facing === undefined ? null : (
            <path d="M0 -24l-6 9h12z" class="mark-facing" transform={`rotate(${-m.facing})`} />
          )}
          <text y={4} text-anchor="middle">
            {shown(m)}
          </text>
        </g>
      ))}
    </svg>
  );
};
