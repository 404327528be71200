import { newBank } from "../core/measure/bank";
import type { Loops } from "../core/measure/loops";
import type { SoundFileNote } from "../text/sound-files";
import { SoundFileFault } from "./facts";
import { type OpenInput, openInput, type ReadSlice } from "./input";
import { lineUp } from "./line-up";
import { fastestLoops } from "./loops";
import type { Job, JobOutcome, TrackPlan } from "./protocol";

/** Bytes of all inputs together that are read at once; as much again is on its way meanwhile. */
const ROUND_BYTES = 2 ** 20;

/** What of one input lies in one round: frames counted from the input's own beginning. */
interface MixedChannel {
  readonly slice: ReadSlice | null;
  readonly from: number;
  readonly to: number;
}

const NOTHING: MixedChannel = { slice: null, from: 0, to: 0 };

/** The frames of an input between two times counted from its own beginning; nothing where it is not sounding. */
const readPart = async (open: OpenInput, begin: number, end: number): Promise<MixedChannel> => {
  const from = Math.max(0, begin);
  const to = Math.min(open.frames, end);
  if (from >= to) return NOTHING;
  return { slice: await open.read(from, to - from), from, to };
};

/** Writes one track's samples from `frame` on into a row; silence where the input has none. */
const fill = (
  part: MixedChannel,
  channel: number,
  frame: number,
  count: number,
  row: Float64Array,
  at: number,
): void => {
  const from = Math.max(frame, part.from);
  const to = Math.min(frame + count, part.to);
  if (!part.slice || to - from < count) row.fill(0, at, at + count);
  if (part.slice && from < to)
    part.slice.decode(channel, from - part.from, to - from, row, at + from - frame);
};

const refuseTracks = (tracks: readonly TrackPlan[], inputs: readonly OpenInput[]): SoundFileNote[] =>
  tracks.flatMap(({ input, channel }): SoundFileNote[] => {
    const open = inputs[input];
    if (!open) return [{ code: "no such file" }];
    const { name, channels } = open;
    return channel < channels ? [] : [{ code: "no such channel", name, channel, channels }];
  });

const measureInputs = async (
  job: Job,
  inputs: readonly OpenInput[],
  loops: Loops,
  progress: (share: number) => void,
): Promise<JobOutcome> => {
  const line = lineUp(inputs, job.align);
  const why = line.ok ? refuseTracks(job.tracks, inputs) : line.why;
  if (!line.ok || why.length > 0) return { kind: "refused", why };
  const bank = newBank(
    line.rate,
    job.tracks.map((t) => t.gains),
    loops,
  );
  const frameBytes = inputs.reduce((sum, open) => sum + open.frameBytes, 0);
  const round = bank.step * Math.max(1, Math.floor(ROUND_BYTES / frameBytes / bank.step));
  const read = (begin: number): Promise<MixedChannel[]> =>
    Promise.all(
      inputs.map((open, i) => {
        const own = begin - (line.delays[i] as number);
        return readPart(open, own, own + Math.min(round, line.frames - begin));
      }),
    );

  let next = read(0);
  for (let begin = 0; begin < line.frames; begin += round) {
    const parts = await next;
    const end = Math.min(line.frames, begin + round);
    if (end < line.frames) {
      next = read(end);
      // The wait for it comes only after this round; a failure until then is no surprise.
      next.catch(() => undefined);
    }
    for (let at = begin; at < end; at += bank.step) {
      const count = Math.min(bank.step, end - at);
      job.tracks.forEach((track, t) => {
        const own = at - (line.delays[track.input] as number);
        fill(
          parts[track.input] as MixedChannel,
          track.channel,
          own,
          count,
          bank.rows[t] as Float64Array,
          bank.start,
        );
      });
      bank.push(count);
    }
    for (const { slice } of parts) slice?.release();
    progress(end / line.frames);
  }
  const figures = bank.finish();
  const unusable = job.tracks.flatMap(({ input }, t): SoundFileNote[] => {
    const count = figures.tracks[t]?.unusable ?? 0;
    const name = inputs[input]?.name ?? "";
    return count === 0 ? [] : [{ code: "unusable", name, count }];
  });
  const notes = [...inputs.flatMap((open) => open.notes), ...line.notes, ...unusable];
  return { kind: "done", measurement: { figures, notes } };
};

const noteOf = (fault: unknown): SoundFileNote =>
  fault instanceof SoundFileFault
    ? fault.note
    : { code: "failed", reason: fault instanceof Error ? fault.message : String(fault) };

/**
 * Measures a job. Memory stays bounded: two rounds of 1 MiB, what the browser reads ahead (Chromium: 2 MiB a
 * file), and what the figures themselves take.
 * Never rejects: whatever stands in the way is told.
 * @param progress told after each round, 0…1
 */
export const runJob = async (
  job: Job,
  progress: (share: number) => void,
  makeLoops = fastestLoops,
): Promise<JobOutcome> => {
  if (job.tracks.length === 0) return { kind: "refused", why: [{ code: "no track" }] };
  const loops = await makeLoops();
  const opened = await Promise.all(job.inputs.map((input) => openInput(input, loops.unpack24)));
  const why = opened.flatMap((o) => (o.ok ? [] : [o.why]));
  if (why.length > 0) return { kind: "refused", why };
  const inputs = opened.flatMap((o) => (o.ok ? [o.open] : []));
  try {
    return await measureInputs(job, inputs, loops, progress);
  } catch (fault) {
    return { kind: "refused", why: [noteOf(fault)] };
  } finally {
    for (const open of inputs) open.close();
  }
};
