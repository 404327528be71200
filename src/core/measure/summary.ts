import { levelOf, levelOfPower } from "../level/decibels";
import { sumOf } from "../lib/mean";
import type { Hertz } from "../model/units";
import { mixedEnergy, productAt } from "./covariance";
import type { MeasuredFigures, MixFigures, Moment, TrackFigures } from "./figures";
import { BLOCK_STEPS, type Gated, gated, stepFrames } from "./gate";
import type { MixPeak } from "./pair-peaks";
import type { Peaks } from "./peaks";
import type { Rows } from "./rows";
import type { Scan } from "./scan";
import type { TimeWeighting } from "./time-weighting";

/** What has run through the samples, ready to be put into figures. */
export interface RunThrough {
  readonly rate: Hertz;
  readonly frames: number;
  readonly peaks: Peaks;
  readonly meters: readonly TimeWeighting[];
  /** Sums of products over the whole length. */
  readonly whole: Float64Array;
  readonly blocks: readonly number[] | null;
  readonly course: Rows;
}

/** Frames in a row of the course: all steps are full but perhaps the last. */
const framesIn = (m: RunThrough, row: number): number => {
  const step = stepFrames(m.rate);
  return Math.min(step, m.frames - row * step);
};

/** Mean power of one column over each gating block of the course. */
const blockPowers = (m: RunThrough, column: number): number[] => {
  const { columns } = m.course;
  const values = m.course.values();
  const rows = m.course.rows();
  const powers: number[] = [];
  for (let first = 0; first < rows; first += BLOCK_STEPS) {
    let energy = 0;
    let frames = 0;
    for (let row = first; row < Math.min(rows, first + BLOCK_STEPS); row += 1) {
      const count = framesIn(m, row);
      energy += count * (values[row * columns + column] as number);
      frames += count;
    }
    powers.push(energy / frames);
  }
  return powers;
};

const gate = (m: RunThrough, column: number): Gated => gated(blockPowers(m, column));

const trackFigures = (m: RunThrough, t: number): TrackFigures => {
  const scan = m.peaks.scans[t] as Scan;
  const meter = m.meters[t] as TimeWeighting;
  const power = (m.whole[productAt(t, t)] as number) / m.frames;
  const passed = gate(m, t);
  return {
    rms: levelOfPower(power),
    gatedRms: levelOfPower(passed.power),
    activity: passed.activity,
    peak: levelOf(scan.peak),
    truePeak: levelOf(m.peaks.truePeaks[t] as number),
    crest: power === 0 ? 0 : levelOf(scan.peak / Math.sqrt(power)),
    fast: meter.fast().max,
    slow: meter.slow().max,
    offset: scan.sum / m.frames,
    clipped: scan.clipped,
    unusable: scan.unusable,
    silent: scan.peak === 0,
  };
};

const mixFigures = (m: RunThrough, mix: MixPeak, column: number): MixFigures => {
  return {
    rms: levelOfPower(mixedEnergy(m.whole, mix.gains) / m.frames),
    gatedRms: levelOfPower(gate(m, column).power),
    peak: levelOf(mix.peak),
    truePeak: levelOf(mix.truePeak),
    peakAt: mix.peakAt / m.rate,
    parts: [...mix.parts],
  };
};

/** The step in which the louder side is loudest, and who made it. */
const loudestMoment = (m: RunThrough): Moment | null => {
  const tracks = m.meters.length;
  const { columns } = m.course;
  const values = m.course.values();
  let best = 0;
  let at = 0;
  for (let row = 0; row < m.course.rows(); row += 1) {
    for (const column of [tracks, tracks + 1]) {
      const power = values[row * columns + column] as number;
      if (power <= best) continue;
      best = power;
      at = row * columns + column;
    }
  }
  if (best === 0) return null;
  const column = at % columns;
  const row = (at - column) / columns;
  const side = column === tracks ? "left" : "right";
  const energies = m.peaks.pair[side].gains.map((g, t) => g * g * (values[row * columns + t] as number));
  const all = sumOf(energies);
  return {
    at: (row * stepFrames(m.rate)) / m.rate,
    side,
    level: levelOfPower(best),
    shares: energies.map((e) => e / all),
  };
};

/** Puts what has run through the samples into levels. At least one frame has passed. */
export const summarise = (m: RunThrough): MeasuredFigures => {
  const tracks = m.meters.length;
  const { left, right, mono } = m.peaks.pair;
  return {
    rate: m.rate,
    frames: m.frames,
    seconds: m.frames / m.rate,
    tracks: m.meters.map((_, t) => trackFigures(m, t)),
    mixes: {
      left: mixFigures(m, left, tracks),
      right: mixFigures(m, right, tracks + 1),
      mono: mixFigures(m, mono, tracks + 2),
    },
    products: m.whole.map((sum) => sum / m.frames),
    blocks: m.blocks && Float64Array.from(m.blocks),
    course: {
      step: stepFrames(m.rate) / m.rate,
      columns: m.course.columns,
      powers: m.course.values().slice(),
    },
    loudest: loudestMoment(m),
  };
};
