/** How large a table of the search is. */
export interface Shape {
  /** Inputs to spend. */
  readonly inputs: number;
  /** Odd/even neighbours to spend; null where the inputs alone decide how many stereo feeds fit. */
  readonly pairs: number | null;
  /** Numbers that a cost takes, compared one after the other. */
  readonly words: number;
}

/** One way to go on: what it costs, what it takes, what it stands for. */
export interface StageOption<T> {
  readonly cost: readonly number[];
  readonly inputs: number;
  readonly pairs: number;
  readonly choice: T;
}

/** The cheapest cost of everything decided so far, for each number of inputs and neighbours that it takes exactly. */
export interface SearchStage<T> {
  /** `words` numbers a cell, cell after cell; the first is infinite where there is no way. */
  readonly costs: Float64Array;
  /** Adds the choices that led to a cell. */
  readonly trace: (cell: number, into: T[]) => void;
}

const rowOf = ({ inputs }: Shape): number => inputs + 1;
const cellsOf = (shape: Shape): number => rowOf(shape) * ((shape.pairs ?? 0) + 1);

/** Whether the cost that begins at one place is lower than the one at the other. */
export const isLess = (
  a: ArrayLike<number>,
  at: number,
  b: ArrayLike<number>,
  bt: number,
  words: number,
): boolean => {
  for (let w = 0; w < words; w += 1) {
    const difference = (a[at + w] as number) - (b[bt + w] as number);
    // Infinite against infinite is no less.
    if (difference < 0) return true;
    if (difference !== 0) return false;
  }
  return false;
};

const noWay = (shape: Shape): Float64Array =>
  new Float64Array(cellsOf(shape) * shape.words).fill(Number.POSITIVE_INFINITY);

/** Nothing decided, nothing taken. */
export const firstStage = <T>(shape: Shape): SearchStage<T> => {
  const costs = noWay(shape);
  costs.fill(0, 0, shape.words);
  return { costs, trace: () => {} };
};

/** Exactly one of the options more. What the way back needs is kept, the costs before are not. */
export const choose = <T>(
  shape: Shape,
  { costs: was, trace }: SearchStage<T>,
  options: readonly StageOption<T>[],
): SearchStage<T> => {
  const { words } = shape;
  const row = rowOf(shape);
  const shifts = options.map(({ inputs, pairs }) => inputs + (shape.pairs === null ? 0 : pairs * row));
  const costs = noWay(shape);
  const chosen = new Uint8Array(cellsOf(shape));
  const sum = new Float64Array(words);
  for (const [which, option] of options.entries()) {
    const back = (shifts[which] as number) * words;
    // Each two neighbours are two inputs.
    for (let p = shape.pairs === null ? 0 : option.pairs; p <= (shape.pairs ?? 0); p += 1)
      for (let n = Math.max(option.inputs, 2 * p); n < row; n += 1) {
        const at = (p * row + n) * words;
        if (was[at - back] === Number.POSITIVE_INFINITY) continue;
        for (let w = 0; w < words; w += 1)
          sum[w] = (was[at - back + w] as number) + (option.cost[w] as number);
        if (!isLess(sum, 0, costs, at, words)) continue;
        costs.set(sum, at);
        chosen[p * row + n] = which;
      }
  }
  const choices = options.map(({ choice }) => choice);
  return {
    costs,
    trace: (cell, into) => {
      const which = chosen[cell] as number;
      trace(cell - (shifts[which] as number), into);
      into.push(choices[which] as T);
    },
  };
};

/** For each cell the cheapest of several ways, the first of equals. */
export const cheapestOf = <T>(shape: Shape, ways: readonly SearchStage<T>[]): SearchStage<T> => {
  const { words } = shape;
  const costs = noWay(shape);
  const chosen = new Uint8Array(cellsOf(shape));
  for (const [which, way] of ways.entries())
    for (let cell = 0; cell < chosen.length; cell += 1) {
      const at = cell * words;
      if (!isLess(way.costs, at, costs, at, words)) continue;
      costs.set(way.costs.subarray(at, at + words), at);
      chosen[cell] = which;
    }
  const traces = ways.map(({ trace }) => trace);
  return { costs, trace: (cell, into) => traces[chosen[cell] as number]?.(cell, into) };
};

/** The cell of the cheapest way; null where there is none. */
export const cheapestCell = <T>({ words }: Shape, { costs }: SearchStage<T>): number | null => {
  let best = 0;
  for (let at = words; at < costs.length; at += words) if (isLess(costs, at, costs, best, words)) best = at;
  return costs[best] === Number.POSITIVE_INFINITY ? null : best / words;
};
