import { printNumber } from "../../core/number";
import type { Ceiling, CeilingPlace } from "../../core/sum/ceilings";
import type { SumFigures } from "../../core/sum/figures";
import type { Db } from "../../core/units";
import type { Tone } from "../../pieces/verdict";

/** Names of the ceilings as they stand in a sentence. */
export const CEILING: { readonly [place in CeilingPlace]: string } = {
  sum: "the sum",
  output: "the output",
  input: "the receiving input",
};

/** A level or difference to a tenth of a dB. */
export const db = (value: Db): string => printNumber(value, 1);

const TONE: { readonly [state in Ceiling["state"]]: Tone } = {
  over: "wrong",
  "inside margin": "care",
  fine: "fine",
  silent: "care",
  unknown: "care",
};

/** Will it fit? In one line, with the ceiling that decides. */
export const fitLine = (figures: SumFigures, name: string, margin: Db): { tone: Tone; says: string } => {
  const { lowest } = figures;
  const at = CEILING[lowest.place];
  // A hair under the margin would print as the margin itself.
  const left = db(lowest.headroom) === db(margin) ? `not quite ${db(margin)}` : db(lowest.headroom);
  const says = {
    over: `It will not fit: ${db(-lowest.headroom)} dB over at ${at}`,
    "inside margin": `It fits, but only ${left} dB are left at ${at}: you want ${db(margin)}`,
    fine: `It fits: ${db(lowest.headroom)} dB left at ${at}`,
    silent: `Nothing sounds in ${name}`,
    unknown: `Will it fit? No peak is known yet in ${name}`,
  }[lowest.state];
  return { tone: TONE[lowest.state], says };
};
