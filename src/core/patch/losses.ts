import { sourceCalled, sumCalled } from "../called";
import { energyLegs } from "../channels";
import { levelOf, levelOfPower } from "../decibels";
import { partsOf } from "../mix";
import { printNumber } from "../number";
import { heardPlace } from "../position";
import type { Id, Setup, Sum } from "../setup";
import { sumFigures } from "../sum/figures";
import { foldsOf } from "../sum/folded";
import type { Db } from "../units";
import { counted, listed, thingCalled } from "../words";
import { applyMove } from "./apply";
import type { Move } from "./move";

const decibels = (level: Db): string => `${printNumber(level, 2)} dB`;

/** Likely peak of a sum in its louder leg, dBFS; null where a peak is not known. */
const peakOf = (setup: Setup, sum: Sum): Db | null => {
  const { legs, unknown } = sumFigures(setup, sum);
  const peak = Math.max(legs[0].likely, legs[1].likely);
  return unknown.peak.length > 0 || !Number.isFinite(peak) ? null : peak;
};

const peakSaid = (name: string, from: Db | null, to: Db | null): string[] =>
  from === null || to === null || Math.abs(to - from) < 0.05
    ? []
    : [`The likely peak of ${name} goes from ${printNumber(from, 1)} to ${printNumber(to, 1)} dBFS.`];

/** What falls by as much cancels but for rounding. A design choice. */
const GONE: Db = -60;

/** How things move against each other: the one that comes up most against the one that comes up least, and what is gone; "" for nothing. */
const spreadSaid = (rises: readonly { readonly source: Id; readonly rise: Db }[], setup: Setup): string => {
  const sorted = rises.filter((r) => r.rise > GONE).sort((a, b) => b.rise - a.rise);
  const [most, least] = [sorted[0], sorted.at(-1)];
  const gone = rises.filter((r) => r.rise <= GONE);
  const said = [];
  if (most && least && most.rise - least.rise >= 0.05)
    said.push(
      `${sourceCalled(setup, most.source)} comes up by ${decibels(most.rise - least.rise)} against ${sourceCalled(setup, least.source)}`,
    );
  if (gone.length > 0)
    said.push(
      `${listed(gone.map((r) => sourceCalled(setup, r.source)))} ${gone.length === 1 ? "is" : "are"} gone`,
    );
  return said.join(", and ");
};

const foldedPair = (setup: Setup, sum: Sum, after: Setup): string[] => {
  const parts = partsOf(setup, sum);
  const mono = after.sums.find((s) => s.id === sum.id) as Sum;
  const aside = parts
    .filter((p) => heardPlace(p.legs) !== "middle")
    .map((p) => sourceCalled(setup, p.source.id));
  const energy = (channels: readonly (readonly [number, number])[]): number =>
    Math.hypot(...energyLegs(channels));
  const now = new Map(partsOf(after, mono).map((p) => [p.source.id, energyLegs(p.channels)[0]]));
  const rises = parts.map((p) => ({
    source: p.source.id,
    rise: levelOf((now.get(p.source.id) ?? 0) / energy(p.channels)),
  }));
  const spread = spreadSaid(rises, setup);
  const plain = spreadSaid(foldsOf(sum, parts), setup);
  const name = sumCalled(sum);
  return [
    aside.length === 0
      ? `${name} goes to mono; nothing in it lies to a side.`
      : `${name} goes to mono: ${counted(aside.length, "image")} ${aside.length === 1 ? "collapses" : "collapse"} into the middle (${listed(aside)}).`,
    ...(spread ? [`${spread}.`] : []),
    ...(plain ? [`If the console folds left + right instead, ${plain}.`] : []),
    ...peakSaid(name, peakOf(setup, sum), peakOf(after, mono)),
  ];
};

/** What is in the middle of two channels adds up in the fold, what is at one side does not: √2 in amplitude. */
const MIDDLE_RISE: Db = levelOfPower(2);

/** As if every source peaked alike: where nobody knows, the likely peak of equal ones is the best guess. */
const withEqualPeaks = (setup: Setup): Setup => ({
  ...setup,
  sources: setup.sources.map((s) => ({ ...s, peak: 0 })),
});

const grouped = (setup: Setup, move: Move & { move: "together" }, after: Setup): string[] => {
  const sum = after.sums.at(-1) as Sum;
  const names = move.sources.map((id) => sourceCalled(setup, id));
  const known = peakOf(after, sum) !== null;
  const { legs, alone } = sumFigures(known ? after : withEqualPeaks(after), sum);
  const cost = decibels(legs[0].likely - alone);
  const wide = setup.sources.filter((s) => move.sources.includes(s.id) && s.channels === 2);
  return [
    `${listed(names)} can no longer be mixed apart.`,
    ...wide.map((s) => `${sourceCalled(setup, s.id)} goes to mono.`),
    known
      ? `The sum needs ${cost} of headroom over its loudest source.`
      : `Not all of their peaks are known; if these were alike, the sum would need ${cost} of headroom over its loudest source.`,
  ];
};

const FREED = {
  copy: () => "Nothing is lost: the same still comes in.",
  muted: (name: string) => `${name} is muted now and has to be patched again when it is wanted.`,
  off: (name: string) => `${name} is off there now; if it was only forgotten, it stays away.`,
  twice: (name: string) => `${name} is still heard in the sum, but nobody can turn it up alone.`,
} as const;

/** What a move loses, in sentences. */
export const lossesOf = (setup: Setup, move: Move): string[] => {
  const after = applyMove(setup, move);
  if (move.move === "together") return grouped(setup, move, after);
  if (move.move === "free") return [FREED[move.why](thingCalled(setup, move.of, move.id))];
  if (move.move === "into") {
    const [was, is] = [setup, after].map((s) => s.sums.find((m) => m.id === move.sum) as Sum) as [Sum, Sum];
    const into = sumCalled(was);
    return [
      `${sourceCalled(setup, move.source)} can no longer be mixed apart from ${into}.`,
      ...peakSaid(into, peakOf(setup, was), peakOf(after, is)),
    ];
  }
  const sum = move.of === "sum" && setup.sums.find((s) => s.id === move.id);
  if (sum) return foldedPair(setup, sum, after);
  const source = setup.sources.find((s) => s.id === move.id);
  return [
    `${sourceCalled(setup, move.id)} goes to mono: what lies to its sides goes to the middle.`,
    `What is in its middle comes up by ${decibels(MIDDLE_RISE)} against what is at one side.`,
    ...(source?.keepSides ? ["It is marked to keep its sides."] : []),
  ];
};
