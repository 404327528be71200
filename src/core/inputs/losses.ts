import { busFigures } from "../headroom/figures";
import { foldsOf } from "../headroom/fold";
import { levelOf, levelOfPower } from "../level/decibels";
import { mixedChannelsOf } from "../mix/bus";
import type { Bus, Id, Setup } from "../model/setup";
import type { Db } from "../model/units";
import { energySides } from "../pan/stereo";
import { heardPlace } from "../stereo/position";
import { applyMove } from "./apply";
import type { FreeReason, Move } from "./move";

/** How channels move against each other. */
export interface BalanceShift {
  /** The one that comes up most, against the one that comes up least, dB; null where they stay within 0.05 dB. */
  readonly up: { readonly channel: Id; readonly against: Id; readonly by: Db } | null;
  /** Channels that cancel. */
  readonly gone: readonly Id[];
}

/** What a way to free inputs loses. */
export type Loss =
  | { readonly loss: "freed"; readonly why: FreeReason; readonly of: "channel" | "bus"; readonly id: Id }
  /** Channels that can no longer be mixed apart: from each other, or from a bus. */
  | { readonly loss: "apart"; readonly channels: readonly Id[]; readonly from: Id | null }
  /** A bus goes to mono: the channels of it that are heard to a side now. */
  | { readonly loss: "bus to mono"; readonly bus: Id; readonly aside: readonly Id[] }
  /** What the fold does to the balance: as mono sends, or where the desk folds left + right. */
  | ({ readonly loss: "balance"; readonly fold: "sends" | "sides" } & BalanceShift)
  /** A stereo channel goes to mono in a bus that it shares. */
  | { readonly loss: "channel to mono"; readonly channel: Id }
  /** A stereo channel goes to mono: what is in its centre comes up against its sides, dB. */
  | { readonly loss: "centre up"; readonly channel: Id; readonly by: Db }
  | { readonly loss: "keeps L/R"; readonly channel: Id }
  | { readonly loss: "likely peak"; readonly bus: Id; readonly from: Db; readonly to: Db }
  /** What a new bus needs over its loudest channel, dB; as if all peaked alike where not all peaks are entered. */
  | { readonly loss: "headroom"; readonly by: Db; readonly known: boolean };

/** Likely peak of a bus in its louder side, dBFS; null where a peak is not known. */
const peakOf = (setup: Setup, bus: Bus): Db | null => {
  const { sides, unknown } = busFigures(setup, bus);
  const peak = Math.max(sides[0].likely, sides[1].likely);
  return unknown.peak.length > 0 || !Number.isFinite(peak) ? null : peak;
};

/** Less is no difference worth a word, dB. A design choice. */
const WORTH_A_WORD: Db = 0.05;

const peakChange = (bus: Id, from: Db | null, to: Db | null): Loss[] =>
  from === null || to === null || Math.abs(to - from) < WORTH_A_WORD
    ? []
    : [{ loss: "likely peak", bus, from, to }];

/** What falls by as much cancels but for rounding. A design choice. */
const GONE: Db = -60;

const balance = (
  fold: "sends" | "sides",
  rises: readonly { readonly channel: Id; readonly rise: Db }[],
): Loss[] => {
  const sorted = rises.filter((r) => r.rise > GONE).sort((a, b) => b.rise - a.rise);
  const [most, least] = [sorted[0], sorted.at(-1)];
  const gone = rises.filter((r) => r.rise <= GONE).map((r) => r.channel);
  const by = most && least ? most.rise - least.rise : 0;
  const up =
    most && least && by >= WORTH_A_WORD ? { channel: most.channel, against: least.channel, by } : null;
  return up || gone.length > 0 ? [{ loss: "balance", fold, up, gone }] : [];
};

const foldedPair = (setup: Setup, bus: Bus, after: Setup): Loss[] => {
  const parts = mixedChannelsOf(setup, bus);
  const mono = after.buses.find((s) => s.id === bus.id) as Bus;
  const aside = parts.filter((p) => heardPlace(p.sides) !== "middle").map((p) => p.channel.id);
  const energy = (channels: readonly (readonly [number, number])[]): number =>
    Math.hypot(...energySides(channels));
  const now = new Map(mixedChannelsOf(after, mono).map((p) => [p.channel.id, energySides(p.gains)[0]]));
  const rises = parts.map((p) => ({
    channel: p.channel.id,
    rise: levelOf((now.get(p.channel.id) ?? 0) / energy(p.gains)),
  }));
  return [
    { loss: "bus to mono", bus: bus.id, aside },
    ...balance("sends", rises),
    ...balance("sides", foldsOf(bus, parts)),
    ...peakChange(bus.id, peakOf(setup, bus), peakOf(after, mono)),
  ];
};

/** What is in the middle of two channels adds up in the fold, what is at one side does not: √2 in amplitude. */
const MIDDLE_RISE: Db = levelOfPower(2);

/** As if every channel peaked alike: where nobody knows, the likely peak of equal ones is the best guess. */
const withEqualPeaks = (setup: Setup): Setup => ({
  ...setup,
  channels: setup.channels.map((s) => ({ ...s, peak: 0 })),
});

const grouped = (setup: Setup, move: Move & { move: "together" }, after: Setup): Loss[] => {
  const bus = after.buses.at(-1) as Bus;
  const known = peakOf(after, bus) !== null;
  const { sides, alone } = busFigures(known ? after : withEqualPeaks(after), bus);
  const wide = setup.channels.filter((s) => move.channels.includes(s.id) && s.lines === 2);
  return [
    { loss: "apart", channels: move.channels, from: null },
    ...wide.map((s): Loss => ({ loss: "channel to mono", channel: s.id })),
    { loss: "headroom", by: sides[0].likely - alone, known },
  ];
};

/** What a move loses. */
export const lossesOf = (setup: Setup, move: Move): Loss[] => {
  const after = applyMove(setup, move);
  if (move.move === "together") return grouped(setup, move, after);
  if (move.move === "free") return [{ loss: "freed", why: move.why, of: move.of, id: move.id }];
  if (move.move === "into") {
    const [was, is] = [setup, after].map((s) => s.buses.find((m) => m.id === move.bus) as Bus) as [Bus, Bus];
    return [
      { loss: "apart", channels: [move.channel], from: was.id },
      ...peakChange(was.id, peakOf(setup, was), peakOf(after, is)),
    ];
  }
  const bus = move.of === "bus" && setup.buses.find((s) => s.id === move.id);
  if (bus) return foldedPair(setup, bus, after);
  const keeps = setup.channels.some((s) => s.id === move.id && s.keepSides);
  return [
    { loss: "centre up", channel: move.id, by: MIDDLE_RISE },
    ...(keeps ? [{ loss: "keeps L/R", channel: move.id } as const] : []),
  ];
};
