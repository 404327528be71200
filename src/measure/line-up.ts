import { quoted } from "../core/lib/direction";
import { type Result, refused } from "../core/lib/result";
import type { InputFacts } from "./facts";
import type { Job } from "./protocol";

/** Where every input begins on one common time, or why there is none. */
export type LineUp = Result<
  {
    rate: number;
    /** Frames by which each input begins later than the earliest. */
    delays: readonly number[];
    /** Frames from the earliest beginning to the last end. */
    frames: number;
    notes: readonly string[];
  },
  readonly string[]
>;

const seconds = (frames: number, rate: number): string => `${(frames / rate).toFixed(3)} s`;

const refuseRates = (inputs: readonly InputFacts[]): LineUp => {
  const firsts = inputs.filter(({ rate }, at) => inputs.findIndex((f) => f.rate === rate) === at);
  const named = firsts.map((f) => `${f.rate} Hz in ${quoted(f.name)}`);
  return refused([
    `The files have different rates: ${named.join(", ")}. Samples of different rates cannot be added; export all at one rate.`,
  ]);
};

/** Delays by the time references, and what is to be said of them. */
const byTime = (inputs: readonly InputFacts[]): { delays: number[]; notes: string[] } => {
  const together = inputs.map(() => 0);
  const known = inputs.flatMap((f) => (f.began === null ? [] : [f.began]));
  if (known.length === 0) return { delays: together, notes: [] };
  if (known.length < inputs.length) {
    const without = inputs.filter((f) => f.began === null).map((f) => quoted(f.name));
    return {
      delays: together,
      notes: [`No start time in ${without.join(", ")}: all files are assumed to start together.`],
    };
  }
  const first = Math.min(...known);
  const delays = known.map((began) => began - first);
  const notes = inputs.flatMap((f, i) => {
    const delay = delays[i] as number;
    return delay === 0
      ? []
      : [`${quoted(f.name)} begins ${seconds(delay, f.rate)} later, by the time in its header.`];
  });
  return { delays, notes };
};

const lengthNotes = (inputs: readonly InputFacts[], delays: readonly number[], frames: number): string[] =>
  inputs.flatMap((f, i) => {
    const short = frames - f.frames - (delays[i] as number);
    return short === 0
      ? []
      : [
          `${quoted(f.name)} ends ${seconds(short, f.rate)} before the longest; it counts as silent from there.`,
        ];
  });

/**
 * Puts all inputs on one time. One rate for all is a must; different lengths and beginnings are lined up and said.
 * @param align "time" shifts by the headers' start times where every file has one
 */
export const lineUp = (inputs: readonly InputFacts[], align: Job["align"]): LineUp => {
  const [any] = inputs;
  if (!any) return refused(["There is no file to measure."]);
  const { rate } = any;
  if (inputs.some((f) => f.rate !== rate)) return refuseRates(inputs);
  const { delays, notes } = align === "time" ? byTime(inputs) : { delays: inputs.map(() => 0), notes: [] };
  const frames = Math.max(...inputs.map((f, i) => f.frames + (delays[i] as number)));
  const apart = inputs.find(
    (f) =>
      Math.min(...delays.map((d, i) => d + (inputs[i] as InputFacts).frames)) <=
      (delays[inputs.indexOf(f)] as number),
  );
  if (apart)
    return refused([
      `By the times in their headers the files do not overlap: ${quoted(apart.name)} begins after another has ended. Line them up at their beginnings instead.`,
    ]);
  return { ok: true, rate, delays, frames, notes: [...notes, ...lengthNotes(inputs, delays, frames)] };
};
