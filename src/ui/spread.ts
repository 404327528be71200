/** A label to be set beside a line. */
export interface Label {
  /** Middle of what it names, along the line. */
  readonly at: number;
  readonly text: string;
}

/** Where a label goes. */
export interface Spread {
  /** Middle of the text along the line, kept inside the drawing. */
  readonly x: number;
  /** 0 is nearest to the line. */
  readonly row: number;
}

/** Width of a character in the drawing's 13-unit text: wide enough for capitals. */
const CHARACTER = 7.1;
const GAP = 8;
/** Nearest that a text comes to the edge of the drawing. */
const MARGIN = 2;

/**
 * Sets labels in rows so that none covers another: in order along the line, each into the nearest row with room.
 * @param width of the drawing
 * @returns in the order given
 */
export const spread = (labels: readonly Label[], width: number): readonly Spread[] => {
  const ends: number[] = [];
  const out: Spread[] = labels.map(() => ({ x: 0, row: 0 }));
  const order = labels.map((_, i) => i).sort((a, b) => (labels[a]?.at ?? 0) - (labels[b]?.at ?? 0));
  for (const i of order) {
    const label = labels[i];
    if (!label) continue;
    const half = (label.text.length * CHARACTER) / 2;
    const x = Math.max(half + MARGIN, Math.min(width - half - MARGIN, label.at));
    let row = ends.findIndex((end) => end + GAP <= x - half);
    if (row < 0) row = ends.length;
    ends[row] = x + half;
    out[i] = { x, row };
  }
  return out;
};

/** A name short enough for a drawing. */
export const shortName = (name: string, most = 11): string => {
  const letters = [...name];
  return letters.length <= most ? name : `${letters.slice(0, most - 1).join("")}…`;
};
