import { type Result, refused } from "../core/lib/result";
import type { SoundFileNote } from "../text/sound-files";
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
    notes: readonly SoundFileNote[];
  },
  readonly SoundFileNote[]
>;

const refuseRates = (inputs: readonly InputFacts[]): LineUp => {
  const firsts = inputs.filter(({ rate }, at) => inputs.findIndex((f) => f.rate === rate) === at);
  return refused([{ code: "rates differ", files: firsts.map(({ name, rate }) => ({ name, rate })) }]);
};

/** Delays by the time references, and what is to be said of them. */
const byTime = (inputs: readonly InputFacts[]): { delays: number[]; notes: SoundFileNote[] } => {
  const together = inputs.map(() => 0);
  const known = inputs.flatMap((f) => (f.began === null ? [] : [f.began]));
  if (known.length === 0) return { delays: together, notes: [] };
  if (known.length < inputs.length) {
    const names = inputs.filter((f) => f.began === null).map((f) => f.name);
    return { delays: together, notes: [{ code: "no start time", names }] };
  }
  const first = Math.min(...known);
  const delays = known.map((began) => began - first);
  const notes = inputs.flatMap(({ name, rate }, i): SoundFileNote[] => {
    const delay = delays[i] as number;
    return delay === 0 ? [] : [{ code: "begins later", name, seconds: delay / rate }];
  });
  return { delays, notes };
};

const lengthNotes = (
  inputs: readonly InputFacts[],
  delays: readonly number[],
  frames: number,
): SoundFileNote[] =>
  inputs.flatMap(({ name, rate, ...f }, i): SoundFileNote[] => {
    const short = frames - f.frames - (delays[i] as number);
    return short === 0 ? [] : [{ code: "ends early", name, seconds: short / rate }];
  });

/**
 * Puts all inputs on one time. One rate for all is a must; different lengths and beginnings are lined up and said.
 * @param align "time" shifts by the headers' start times where every file has one
 */
export const lineUp = (inputs: readonly InputFacts[], align: Job["align"]): LineUp => {
  const [any] = inputs;
  if (!any) return refused([{ code: "no file" }]);
  const { rate } = any;
  if (inputs.some((f) => f.rate !== rate)) return refuseRates(inputs);
  const { delays, notes } = align === "time" ? byTime(inputs) : { delays: inputs.map(() => 0), notes: [] };
  const frames = Math.max(...inputs.map((f, i) => f.frames + (delays[i] as number)));
  const apart = inputs.find(
    (f) =>
      Math.min(...delays.map((d, i) => d + (inputs[i] as InputFacts).frames)) <=
      (delays[inputs.indexOf(f)] as number),
  );
  if (apart) return refused([{ code: "apart", name: apart.name }]);
  return { ok: true, rate, delays, frames, notes: [...notes, ...lengthNotes(inputs, delays, frames)] };
};
