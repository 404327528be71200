import type { Db, Seconds } from "../core/model/units";

const WIDTH = 360;
const HEIGHT = 120;
const SIDE = 30;
const TOP = 16;
const BOTTOM = 18;
/** Levels that are drawn; what is below lies on the ground. */
const FLOOR: Db = -60;
const LINES: readonly Db[] = [0, -20, -40, -60];

const down = (level: Db): number =>
  TOP + (Math.min(0, Math.max(FLOOR, level)) / FLOOR) * (HEIGHT - TOP - BOTTOM);
const across = (share: number): number => SIDE + share * (WIDTH - SIDE - 4);

const path = (levels: readonly Db[]): string =>
  levels
    .map((level, at) => {
      const x = across((at + 0.5) / levels.length);
      return `${at === 0 ? "M" : "L"}${x.toFixed(1)} ${down(level).toFixed(1)}`;
    })
    .join("");

/**
 * Level of both sides over time, with one moment marked: a picture with one sentence. The left side is a whole line,
 * the right one a broken line.
 */
export const Course = (props: {
  says: string;
  /** dBFS, evenly over the whole time. */
  left: readonly Db[];
  right: readonly Db[];
  /** How much time a level is over; a point shows the highest of those that fall together. */
  step: Seconds;
  /** Where the marked moment is, 0…1. */
  mark: number;
  /** What stands at the beginning, at the end and at the mark. */
  from: string;
  to: string;
  at: string;
}) => {
  const x = across(props.mark);
  return (
    <figure class="course">
      <svg viewBox={`0 0 ${WIDTH} ${HEIGHT}`} role="img" aria-label={props.says}>
        {LINES.map((level) => (
          <g key={level} class="course-grid">
            <path d={`M${SIDE} ${down(level)}H${WIDTH - 4}`} />
          </g>
        ))}
        {LINES.map((level) => (
          <text key={level} x={SIDE - 4} y={down(level) + 4} text-anchor="end">
            {level === 0 ? "0" : `−${-level}`}
          </text>
        ))}
        <path d={path(props.left)} class="course-line l" />
        <path d={path(props.right)} class="course-line r" />
        <path d={`M${x} ${TOP - 2}V${HEIGHT - BOTTOM}`} class="course-mark" />
        <text x={Math.min(WIDTH - 40, Math.max(SIDE + 20, x))} y={TOP - 5} text-anchor="middle">
          {props.at}
        </text>
        <text x={SIDE} y={HEIGHT - 4}>
          {props.from}
        </text>
        <text x={WIDTH - 4} y={HEIGHT - 4} text-anchor="end">
          {props.to}
        </text>
      </svg>
      <figcaption class="soft small">
        <span class="left">Left side, whole line</span>; <span class="right">right side, broken line</span>.
        dBFS, each point the loudest {Math.round(1000 * props.step)} ms of its stretch.
      </figcaption>
    </figure>
  );
};
