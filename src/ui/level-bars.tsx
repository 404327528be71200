import type { Db } from "../core/model/units";

/** One side of a pair of meters. */
export interface LevelBar {
  readonly name: string;
  readonly level: Db;
  /** The highest so far. */
  readonly held: Db;
  readonly isOver: boolean;
}

/** Levels that are drawn: what is below is nothing. */
const FLOOR: Db = -60;

const share = (level: Db): string => `${(100 * Math.min(1, Math.max(0, 1 - level / FLOOR))).toFixed(1)}%`;

/** Levels as bars from −60 to 0 dBFS, with a mark at the highest so far. Its table stands beside it. */
export const LevelBars = ({ bars }: { bars: readonly LevelBar[] }) => (
  <div class="levels" aria-hidden="true">
    {bars.map(({ name, level, held, isOver }) => (
      <div key={name} class={isOver ? "over" : ""}>
        <span>{name}</span>
        <span class="level-line">
          <i style={{ width: share(level) }} />
          <b style={{ left: share(held) }} />
        </span>
      </div>
    ))}
  </div>
);
