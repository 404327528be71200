import type { Placement } from "../core/stereo/placement";
import { shortName, spread } from "./spread";
import { useTurning } from "./turning";

/** One channel in the drawing. */
export interface Thread {
  readonly id: string;
  readonly name: string;
  /** Where it stands, −1 left … +1 right. */
  readonly stands: number;
  /** Where it is heard, −1 left … +1 right. */
  readonly heard: number;
  readonly agreement: Placement;
}

const WIDTH = 330;
const EDGE = 32;
const ROW = 16;
const FALL = 120;
const TOP = 22;
const ORIGIN = { x: 0, y: 0 };

const across = (at: number): number => EDGE + ((at + 1) / 2) * (WIDTH - 2 * EDGE);

/** Mark at the lower end: a dot where it belongs, a cross where it is reversed, a bar where it is flat. */
const End = ({ x, y, agreement }: { x: number; y: number; agreement: Placement }) => {
  if (agreement === "wrong") return <path d={`M${x - 5} ${y - 5}l10 10m0 -10l-10 10`} class="thread-mark" />;
  if (agreement === "centred") return <path d={`M${x - 6} ${y}h12`} class="thread-mark" />;
  return <circle cx={x} cy={y} r="4" class="thread-dot" />;
};

const Line = ({ y }: { y: number }) => (
  <g>
    <path d={`M${EDGE - 8} ${y}H${WIDTH - EDGE + 8}`} class="thread-rail" />
    <path d={`M${WIDTH / 2} ${y - 5}v10`} class="thread-rail" />
    <text x="4" y={y + 5} class="thread-side thread-left">
      L
    </text>
    <text x={WIDTH - 4} y={y + 5} text-anchor="end" class="thread-side thread-right">
      R
    </text>
  </g>
);

/**
 * The thread drawing: above, where each piece stands as the listener sees it; below, where it is heard.
 * Upright threads are correct, threads that cross are reversed. Its table stands beside it on every screen,
 * so the drawing itself is one picture with one sentence.
 * @param turn changes when the pair is turned over: the threads then glide, else they follow at once
 */
export const Threads = (props: {
  threads: readonly Thread[];
  above: string;
  below: string;
  says: string;
  turn: string;
}) => {
  const { threads } = props;
  const heard = useTurning(
    threads.map((t) => t.heard),
    props.turn,
  );
  const tops = threads.map((t) => across(t.stands));
  const feet = heard.map(across);
  const names = threads.map((t) => shortName(t.name));
  const upper = spread(
    tops.map((at, i) => ({ at, text: names[i] ?? "" })),
    WIDTH,
  );
  const lower = spread(
    feet.map((at, i) => ({ at, text: names[i] ?? "" })),
    WIDTH,
  );
  const rows = (labels: readonly { row: number }[]) => Math.max(1, ...labels.map((l) => l.row + 1));
  const y1 = TOP + rows(upper) * ROW;
  const y2 = y1 + FALL;
  const height = y2 + TOP + rows(lower) * ROW;
  const ends = threads.map((_, i) => {
    const [up, low] = [upper[i] ?? { x: 0, row: 0 }, lower[i] ?? { x: 0, row: 0 }];
    return [
      { x: up.x, y: y1 - 13 - up.row * ROW },
      { x: low.x, y: y2 + 22 + low.row * ROW },
    ] as const;
  });
  // Under all names, which keep a rim of the ground: a lead that passes behind a name does not strike it out.
  const leads = ends
    .map(([up, low], i) => `M${up.x} ${up.y + 2}L${tops[i]} ${y1}M${low.x} ${low.y - 10}L${feet[i]} ${y2}`)
    .join("");
  return (
    <figure class="threads">
      <p class="soft small">{props.above}</p>
      <svg viewBox={`0 0 ${WIDTH} ${height}`} role="img" aria-label={props.says}>
        <Line y={y1} />
        <Line y={y2} />
        <path d={leads} class="thread-lead" />
        {threads.map((t, i) => {
          const a = tops[i] ?? 0;
          const b = feet[i] ?? 0;
          const [up, low] = ends[i] ?? [ORIGIN, ORIGIN];
          return (
            <g key={t.id} class={`thread is-${t.agreement}`}>
              <path d={`M${a} ${y1}C${a} ${y1 + 60} ${b} ${y2 - 60} ${b} ${y2}`} class="thread-line" />
              <circle cx={a} cy={y1} r="3.5" class="thread-dot" />
              <End x={b} y={y2} agreement={t.agreement} />
              <text x={up.x} y={up.y} text-anchor="middle">
                {names[i]}
              </text>
              <text x={low.x} y={low.y} text-anchor="middle">
                {names[i]}
              </text>
            </g>
          );
        })}
      </svg>
      <p class="soft small">{props.below}</p>
    </figure>
  );
};
