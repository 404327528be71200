/** Why a text can't be cut into cells. */
export type CutFault = "open quote" | "behind quote" | "cell" | "columns" | "rows";

/** Cells by row, up to the first fault. */
export interface Cut {
  readonly rows: readonly (readonly string[])[];
  /** Null when the whole text was cut; otherwise the fault is in the row after the last. */
  readonly fault: CutFault | null;
}

/** How far a text is cut. */
export interface CutLimits {
  readonly rows: number;
  readonly columns: number;
  /** Characters of a cell. */
  readonly cell: number;
}

/**
 * Position of the quotation mark that closes the one at `open`, or of one so far behind it that the cell is too long;
 * −1 where none does. Doubled ones are part of the cell.
 */
const closing = (text: string, open: number, most: number): number => {
  let at = text.indexOf('"', open + 1);
  while (at >= 0 && text[at + 1] === '"' && at - open <= 2 * most) at = text.indexOf('"', at + 2);
  return at;
};

/** Position behind blanks, which count where they stand between the cells. */
const behindBlanks = (text: string, from: number, delimiter: string): number => {
  let at = from;
  while (text[at] === " " && delimiter !== " ") at += 1;
  return at;
};

/**
 * Cuts a text into cells: RFC 4180 with any delimiter, line ends being "\n". A quotation mark inside a cell that does not
 * begin with one is a letter (10" tom). Reads each letter once and stops at the first fault, so that no text holds it up.
 */
export const cutRows = (text: string, delimiter: string, limits: CutLimits): Cut => {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  let nextDelimiter = -1;
  let nextLine = -1;
  const next = (what: string): number => {
    const found = text.indexOf(what, at);
    return found < 0 ? text.length : found;
  };
  while (at <= text.length) {
    const start = behindBlanks(text, at, delimiter);
    let cell: string;
    if (text[start] === '"') {
      const end = closing(text, start, limits.cell);
      if (end < 0) return { rows, fault: "open quote" };
      if (end - start > 2 * limits.cell) return { rows, fault: "cell" };
      cell = text.slice(start + 1, end).replaceAll('""', '"');
      at = behindBlanks(text, end + 1, delimiter);
      if (at < text.length && text[at] !== delimiter && text[at] !== "\n")
        return { rows, fault: "behind quote" };
    } else {
      // Looked for anew only when passed: each search goes on where the last one ended.
      if (nextDelimiter < at) nextDelimiter = next(delimiter);
      if (nextLine < at) nextLine = next("\n");
      const end = Math.min(nextDelimiter, nextLine);
      cell = text.slice(at, end);
      at = end;
    }
    if (cell.length > limits.cell) return { rows, fault: "cell" };
    row.push(cell);
    if (row.length > limits.columns) return { rows, fault: "columns" };
    if (text[at] === "\n" || at >= text.length) {
      rows.push(row);
      row = [];
      if (rows.length > limits.rows) return { rows, fault: "rows" };
      // A line end at the very end begins no further row.
      if (at + 1 >= text.length) break;
    }
    at += 1;
  }
  return { rows, fault: null };
};

/**
 * The delimiter that cuts most of the first rows into equally many cells, and of two alike the one with more cells;
 * the first of them where none cuts anything.
 */
export const guessDelimiter = <D extends string>(text: string, delimiters: readonly [D, ...D[]]): D => {
  const scores = delimiters.map((delimiter) => {
    const { rows } = cutRows(text, delimiter, { rows: 20, columns: 1000, cell: text.length });
    const widths = rows.filter((r) => r.length > 1 || r[0] !== "").map((r) => r.length);
    const alike = (width: number): number => widths.filter((w) => w === width).length;
    const width = widths.reduce((best, w) => (alike(w) > alike(best) ? w : best), widths[0] ?? 1);
    return { delimiter, score: width < 2 ? 0 : alike(width) / widths.length + width / 1e6 };
  });
  return scores.reduce((best, s) => (s.score > best.score ? s : best)).delimiter;
};
