import type { Feed } from "./feed";
import type { Job } from "./protocol";

/** Where every input begins on one common time, or why there is none. */
export type LineUp =
  | {
      readonly ok: true;
      readonly rate: number;
      /** Frames by which each input begins later than the earliest. */
      readonly delays: readonly number[];
      /** Frames from the earliest beginning to the last end. */
      readonly frames: number;
      readonly notes: readonly string[];
    }
  | { readonly ok: false; readonly why: readonly string[] };

const seconds = (frames: number, rate: number): string => `${(frames / rate).toFixed(3)} s`;

const refuseRates = (feeds: readonly Feed[]): LineUp => {
  const rates = [...new Set(feeds.map((f) => f.rate))];
  const named = rates.map((rate) => `${rate} Hz in “${feeds.find((f) => f.rate === rate)?.name}”`);
  return {
    ok: false,
    why: [
      `The files have different rates: ${named.join(", ")}. Samples of different rates cannot be added; export all at one rate.`,
    ],
  };
};

/** Delays by the time references, and what is to be said of them. */
const byTime = (feeds: readonly Feed[]): { delays: number[]; notes: string[] } => {
  const together = feeds.map(() => 0);
  const known = feeds.flatMap((f) => (f.began === null ? [] : [f.began]));
  if (known.length === 0) return { delays: together, notes: [] };
  if (known.length < feeds.length) {
    const without = feeds.filter((f) => f.began === null).map((f) => `“${f.name}”`);
    return {
      delays: together,
      notes: [`No start time in ${without.join(", ")}: all files are taken to begin together.`],
    };
  }
  const first = Math.min(...known);
  const delays = known.map((began) => began - first);
  const notes = feeds.flatMap((f, i) => {
    const delay = delays[i] as number;
    return delay === 0
      ? []
      : [`“${f.name}” begins ${seconds(delay, f.rate)} later, by the time in its header.`];
  });
  return { delays, notes };
};

const lengthNotes = (feeds: readonly Feed[], delays: readonly number[], frames: number): string[] =>
  feeds.flatMap((f, i) => {
    const short = frames - f.frames - (delays[i] as number);
    return short === 0
      ? []
      : [`“${f.name}” ends ${seconds(short, f.rate)} before the longest; it counts as silent from there.`];
  });

/**
 * Puts all inputs on one time. One rate for all is a must; different lengths and beginnings are lined up and said.
 * @param align "time" shifts by the headers' start times where every file has one
 */
export const lineUp = (feeds: readonly Feed[], align: Job["align"]): LineUp => {
  const [any] = feeds;
  if (!any) return { ok: false, why: ["There is no file to measure."] };
  const { rate } = any;
  if (feeds.some((f) => f.rate !== rate)) return refuseRates(feeds);
  const { delays, notes } = align === "time" ? byTime(feeds) : { delays: feeds.map(() => 0), notes: [] };
  const frames = Math.max(...feeds.map((f, i) => f.frames + (delays[i] as number)));
  const apart = feeds.find(
    (f) =>
      Math.min(...delays.map((d, i) => d + (feeds[i] as Feed).frames)) <=
      (delays[feeds.indexOf(f)] as number),
  );
  if (apart)
    return {
      ok: false,
      why: [
        `By the times in their headers the files do not overlap: “${apart.name}” begins after another has ended. Line them up at their beginnings instead.`,
      ],
    };
  return { ok: true, rate, delays, frames, notes: [...notes, ...lengthNotes(feeds, delays, frames)] };
};
