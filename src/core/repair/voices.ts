import { type ChannelGains, energyLegs, foldedGains, scaledGains, swappedGains } from "../channels";
import { levelOf } from "../decibels";
import { houseLegs } from "../image";
import { type Part, partsOf } from "../mix";
import { mirrorPan, type RoundedPan, roundPan } from "../pannotation";
import { hasBothSlots, isReversed, slotGains } from "../patched";
import { levelDifference } from "../position";
import type { Send, Setup, Source, Sum } from "../setup";
import type { Db, Legs, Pan } from "../units";

/** A figure for each pan (as now, panned over) and each patch (as now, swapped). */
type Table<T> = readonly [asNow: readonly [asNow: T, swapped: T], over: readonly [asNow: T, swapped: T]];

/** One source that sounds in the sum, with what every pan and patch makes of it: right over left in dB, null when silent. */
export interface Voice {
  readonly source: Source;
  readonly send: Send;
  /** Pan in force now. */
  readonly pan: Pan;
  /** The pan as far on the other side, on the console's steps. */
  readonly over: RoundedPan;
  /** The house pan as far on the other side, on the console's steps. */
  readonly houseOver: RoundedPan;
  /** At the ears of who hears both legs apart. */
  readonly ears: Table<Db | null>;
  /** At the ears of who hears both legs in one. */
  readonly inOne: Table<Db | null>;
  /** How far from an exact mirror (or from no change, where two turns cancel) the louder ear gets, dB. */
  readonly residual: Table<Db>;
  /** The same two with the sum folded to mono. */
  readonly folded: { readonly ears: Db | null; readonly inOne: Db | null };
  /** Right over left in the house as now and panned over, dB. */
  readonly house: Legs<Db>;
  /** How far from an exact mirror the house gets when panned over, dB. */
  readonly houseResidual: Db;
}

const swap = <T>([left, right]: Legs<T>): Legs<T> => [right, left];
const differenceOf = (legs: Legs): Db | null =>
  legs[0] === 0 && legs[1] === 0 ? null : levelDifference(legs);
const apartOf = (channels: ChannelGains): Db | null => differenceOf(energyLegs(channels));
const inOneOf = (channels: ChannelGains): Db | null => apartOf(foldedGains(channels));

/** Digits of a residual that are kept: below a billionth of a dB is arithmetic, not sound. */
const GRAIN = 1e9;

/** Largest change of level of an ear, dB; an ear that goes to or from silence is left out. */
const apart = (to: Legs, from: Legs): Db => {
  let most = 0;
  for (const ear of [0, 1] as const)
    if (to[ear] !== 0 && from[ear] !== 0)
      most = Math.max(most, Math.abs(levelOf(to[ear]) - levelOf(from[ear])));
  return Math.round(most * GRAIN) / GRAIN;
};

/** The sum with every send panned over to the other side. */
const pannedOver = (sum: Sum, setup: Setup, overs: ReadonlyMap<Send, RoundedPan>): Part[] =>
  partsOf(setup, { ...sum, sends: sum.sends.map((s) => ({ ...s, pan: overs.get(s)?.pan ?? s.pan })) });

/** Every source that sounds in a sum, in the order of its sends. */
export const voicesOf = (setup: Setup, sum: Sum): Voice[] => {
  const parts = partsOf(setup, sum);
  const overs = new Map(parts.map((p) => [p.send, roundPan(mirrorPan(p.pan), setup.console)]));
  const over = pannedOver(sum, setup, overs);
  const folded = partsOf(setup, { ...sum, folded: true });
  const turned = isReversed(setup, sum);
  const slots = slotGains(setup.monitor, sum);
  // A slot keeps its trim and switch when the legs change places; without slots there is nothing to change.
  const exchanged = hasBothSlots(setup.monitor, sum) ? swap(slots) : slots;
  const patched = (channels: ChannelGains, swapped: boolean): ChannelGains => {
    const out = scaledGains(channels, swapped ? exchanged : slots);
    return turned !== swapped ? swappedGains(out) : out;
  };
  return parts.map((part, at): Voice => {
    const back = overs.get(part.send) as RoundedPan;
    const desk: Legs<ChannelGains> = [part.channels, (over[at] as Part).channels];
    const now = energyLegs(patched(desk[0], false));
    const table = <T>(of: (channels: ChannelGains, mirrored: boolean) => T): Table<T> => {
      const row = (panned: 0 | 1): readonly [T, T] => [
        of(patched(desk[panned], false), panned === 1),
        of(patched(desk[panned], true), panned === 0),
      ];
      return [row(0), row(1)];
    };
    const inMono = patched((folded[at] as Part).channels, false);
    const house = houseLegs(setup, part.source);
    const houseBack = roundPan(mirrorPan(part.source.pan), setup.console);
    const houseOver = houseLegs(setup, { ...part.source, pan: houseBack.pan });
    return {
      source: part.source,
      send: part.send,
      pan: part.pan,
      over: back,
      houseOver: houseBack,
      ears: table(apartOf),
      inOne: table(inOneOf),
      residual: table((channels, mirrored) => apart(energyLegs(channels), mirrored ? swap(now) : now)),
      folded: { ears: apartOf(inMono), inOne: inOneOf(inMono) },
      house: [levelDifference(house), levelDifference(houseOver)],
      houseResidual: apart(houseOver, swap(house)),
    };
  });
};
