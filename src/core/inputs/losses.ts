import { busFigures } from "../headroom/figures";
import { foldsOf } from "../headroom/fold";
import { levelOf, levelOfPower } from "../level/decibels";
import { formatNumber } from "../lib/number";
import { mixedChannelsOf } from "../mix/bus";
import type { Bus, Id, Setup } from "../model/setup";
import type { Db } from "../model/units";
import { busName, channelName } from "../names";
import { energySides } from "../pan/stereo";
import { heardPlace } from "../stereo/position";
import { feedName, formatCount, formatList } from "../words";
import { applyMove } from "./apply";
import type { Move } from "./move";

const decibels = (level: Db): string => `${formatNumber(level, 2)} dB`;

/** Likely peak of a bus in its louder side, dBFS; null where a peak is not known. */
const peakOf = (setup: Setup, bus: Bus): Db | null => {
  const { sides, unknown } = busFigures(setup, bus);
  const peak = Math.max(sides[0].likely, sides[1].likely);
  return unknown.peak.length > 0 || !Number.isFinite(peak) ? null : peak;
};

const peakSaid = (name: string, from: Db | null, to: Db | null): string[] =>
  from === null || to === null || Math.abs(to - from) < 0.05
    ? []
    : [`The likely peak of ${name} goes from ${formatNumber(from, 1)} to ${formatNumber(to, 1)} dBFS.`];

/** What falls by as much cancels but for rounding. A design choice. */
const GONE: Db = -60;

/** How things move against each other: the one that comes up most against the one that comes up least, and what is gone; "" for nothing. */
const spreadSaid = (rises: readonly { readonly channel: Id; readonly rise: Db }[], setup: Setup): string => {
  const sorted = rises.filter((r) => r.rise > GONE).sort((a, b) => b.rise - a.rise);
  const [most, least] = [sorted[0], sorted.at(-1)];
  const gone = rises.filter((r) => r.rise <= GONE);
  const said = [];
  if (most && least && most.rise - least.rise >= 0.05)
    said.push(
      `${channelName(setup, most.channel)} comes up by ${decibels(most.rise - least.rise)} against ${channelName(setup, least.channel)}`,
    );
  if (gone.length > 0)
    said.push(
      `${formatList(gone.map((r) => channelName(setup, r.channel)))} ${gone.length === 1 ? "is" : "are"} gone`,
    );
  return said.join(", and ");
};

const foldedPair = (setup: Setup, bus: Bus, after: Setup): string[] => {
  const parts = mixedChannelsOf(setup, bus);
  const mono = after.buses.find((s) => s.id === bus.id) as Bus;
  const aside = parts
    .filter((p) => heardPlace(p.sides) !== "middle")
    .map((p) => channelName(setup, p.channel.id));
  const energy = (channels: readonly (readonly [number, number])[]): number =>
    Math.hypot(...energySides(channels));
  const now = new Map(mixedChannelsOf(after, mono).map((p) => [p.channel.id, energySides(p.gains)[0]]));
  const rises = parts.map((p) => ({
    channel: p.channel.id,
    rise: levelOf((now.get(p.channel.id) ?? 0) / energy(p.gains)),
  }));
  const spread = spreadSaid(rises, setup);
  const plain = spreadSaid(foldsOf(bus, parts), setup);
  const name = busName(bus);
  return [
    aside.length === 0
      ? `${name} goes to mono; nothing in it lies to a side.`
      : `${name} goes to mono: ${formatCount(aside.length, "image")} ${aside.length === 1 ? "collapses" : "collapse"} into the middle (${formatList(aside)}).`,
    ...(spread ? [`${spread}.`] : []),
    ...(plain ? [`If the console folds left + right instead, ${plain}.`] : []),
    ...peakSaid(name, peakOf(setup, bus), peakOf(after, mono)),
  ];
};

/** What is in the middle of two channels adds up in the fold, what is at one side does not: √2 in amplitude. */
const MIDDLE_RISE: Db = levelOfPower(2);

/** As if every channel peaked alike: where nobody knows, the likely peak of equal ones is the best guess. */
const withEqualPeaks = (setup: Setup): Setup => ({
  ...setup,
  channels: setup.channels.map((s) => ({ ...s, peak: 0 })),
});

const grouped = (setup: Setup, move: Move & { move: "together" }, after: Setup): string[] => {
  const bus = after.buses.at(-1) as Bus;
  const names = move.channels.map((id) => channelName(setup, id));
  const known = peakOf(after, bus) !== null;
  const { sides, alone } = busFigures(known ? after : withEqualPeaks(after), bus);
  const cost = decibels(sides[0].likely - alone);
  const wide = setup.channels.filter((s) => move.channels.includes(s.id) && s.lines === 2);
  return [
    `${formatList(names)} can no longer be mixed apart.`,
    ...wide.map((s) => `${channelName(setup, s.id)} goes to mono.`),
    known
      ? `The bus needs ${cost} of headroom over its loudest channel.`
      : `Not all of their peaks are known; if these were alike, the bus would need ${cost} of headroom over its loudest channel.`,
  ];
};

const FREED = {
  copy: () => "Nothing is lost: the same still comes in.",
  muted: (name: string) => `${name} is muted now and has to be patched again when it is wanted.`,
  off: (name: string) => `${name} is off there now; if it was only forgotten, it stays away.`,
  twice: (name: string) => `${name} is still heard in the bus, but nobody can turn it up alone.`,
} as const;

/** What a move loses, in sentences. */
export const lossesOf = (setup: Setup, move: Move): string[] => {
  const after = applyMove(setup, move);
  if (move.move === "together") return grouped(setup, move, after);
  if (move.move === "free") return [FREED[move.why](feedName(setup, move.of, move.id))];
  if (move.move === "into") {
    const [was, is] = [setup, after].map((s) => s.buses.find((m) => m.id === move.bus) as Bus) as [Bus, Bus];
    const into = busName(was);
    return [
      `${channelName(setup, move.channel)} can no longer be mixed apart from ${into}.`,
      ...peakSaid(into, peakOf(setup, was), peakOf(after, is)),
    ];
  }
  const bus = move.of === "bus" && setup.buses.find((s) => s.id === move.id);
  if (bus) return foldedPair(setup, bus, after);
  const channel = setup.channels.find((s) => s.id === move.id);
  return [
    `${channelName(setup, move.id)} goes to mono: what lies to its sides goes to the middle.`,
    `What is in its middle comes up by ${decibels(MIDDLE_RISE)} against what is at one side.`,
    ...(channel?.keepSides ? ["It is marked to keep its sides."] : []),
  ];
};
