/** A table of numbers that grows by rows: one row a step of time. */
export interface Rows {
  readonly columns: number;
  /** Rows so far. */
  readonly rows: () => number;
  /** Adds a row; `row` is copied. */
  readonly add: (row: ArrayLike<number>) => void;
  /** All rows, one after the other; the table's own memory. */
  readonly values: () => Float32Array;
}

const FIRST_ROWS = 256;

/** An empty table. It keeps 32-bit numbers: seven digits are plenty for a level over time. */
export const newRows = (columns: number): Rows => {
  let table = new Float32Array(columns * FIRST_ROWS);
  let rows = 0;
  return {
    columns,
    rows: () => rows,
    add: (row) => {
      if ((rows + 1) * columns > table.length) {
        const larger = new Float32Array(table.length * 2);
        larger.set(table);
        table = larger;
      }
      table.set(row, rows * columns);
      rows += 1;
    },
    values: () => table.subarray(0, rows * columns),
  };
};
