import { levelOf } from "../level/decibels";
import { type MixedChannel, mixedChannelsOf } from "../mix/bus";
import { hasBothInputs, inputGains, isSwapped } from "../mix/pair-order";
import type { Bus, Channel, Send, Setup } from "../model/setup";
import type { Db, Pan, Sides } from "../model/units";
import { mirrorPan, type RoundedPan, roundPan } from "../pan/notation";
import { type ChannelGains, energySides, foldedGains, scaledGains, swappedGains } from "../pan/stereo";
import { fohSides } from "../stereo/image";
import { levelDifference } from "../stereo/position";

/** A figure for each pan (as now, panned over) and each patch (as now, swapped). */
type Table<T> = readonly [asNow: readonly [asNow: T, swapped: T], over: readonly [asNow: T, swapped: T]];

/** One channel that sounds in the bus, with what every pan and patch makes of it: right over left in dB, null when silent. */
export interface Voice {
  readonly channel: Channel;
  readonly send: Send;
  /** Pan in force now. */
  readonly pan: Pan;
  /** The pan as far on the other side, on the console's steps. */
  readonly over: RoundedPan;
  /** The channel pan as far on the other side, on the console's steps. */
  readonly fohOver: RoundedPan;
  /** At the ears of who hears both sides apart. */
  readonly ears: Table<Db | null>;
  /** At the ears of who hears both sides in one. */
  readonly inOne: Table<Db | null>;
  /** How far from an exact mirror (or from no change, where two turns cancel) the louder ear gets, dB. */
  readonly residual: Table<Db>;
  /** The same two with the bus folded to mono. */
  readonly folded: { readonly ears: Db | null; readonly inOne: Db | null };
  /** Right over left at FOH as now and panned over, dB. */
  readonly foh: Sides<Db>;
  /** How far from an exact mirror FOH gets when panned over, dB. */
  readonly fohResidual: Db;
}

const swap = <T>([left, right]: Sides<T>): Sides<T> => [right, left];
const differenceOf = (sides: Sides): Db | null =>
  sides[0] === 0 && sides[1] === 0 ? null : levelDifference(sides);
const apartOf = (gains: ChannelGains): Db | null => differenceOf(energySides(gains));
const inOneOf = (gains: ChannelGains): Db | null => apartOf(foldedGains(gains));

/** Digits of a residual that are kept: below a billionth of a dB is arithmetic, not sound. */
const GRAIN = 1e9;

/** Largest change of level of an ear, dB; an ear that goes to or from silence is left out. */
const apart = (to: Sides, from: Sides): Db => {
  let most = 0;
  for (const ear of [0, 1] as const)
    if (to[ear] !== 0 && from[ear] !== 0)
      most = Math.max(most, Math.abs(levelOf(to[ear]) - levelOf(from[ear])));
  return Math.round(most * GRAIN) / GRAIN;
};

/** The bus with every send panned over to the other side. */
const pannedOver = (bus: Bus, setup: Setup, overs: ReadonlyMap<Send, RoundedPan>): MixedChannel[] =>
  mixedChannelsOf(setup, {
    ...bus,
    sends: bus.sends.map((s) => ({ ...s, pan: overs.get(s)?.pan ?? s.pan })),
  });

/** Every channel that sounds in a bus, in the order of its sends. */
export const voicesOf = (setup: Setup, bus: Bus): Voice[] => {
  const parts = mixedChannelsOf(setup, bus);
  const overs = new Map(parts.map((p) => [p.send, roundPan(mirrorPan(p.pan), setup.desk)]));
  const over = pannedOver(bus, setup, overs);
  const folded = mixedChannelsOf(setup, { ...bus, folded: true });
  const turned = isSwapped(setup, bus);
  const inputs = inputGains(setup.monitor, bus);
  // An input keeps its trim and switch when the sides change places; without inputs there is nothing to change.
  const exchanged = hasBothInputs(setup.monitor, bus) ? swap(inputs) : inputs;
  const patched = (gains: ChannelGains, swapped: boolean): ChannelGains => {
    const out = scaledGains(gains, swapped ? exchanged : inputs);
    return turned !== swapped ? swappedGains(out) : out;
  };
  return parts.map((part, at): Voice => {
    const back = overs.get(part.send) as RoundedPan;
    const desk: Sides<ChannelGains> = [part.gains, (over[at] as MixedChannel).gains];
    const now = energySides(patched(desk[0], false));
    const table = <T>(of: (gains: ChannelGains, mirrored: boolean) => T): Table<T> => {
      const row = (panned: 0 | 1): readonly [T, T] => [
        of(patched(desk[panned], false), panned === 1),
        of(patched(desk[panned], true), panned === 0),
      ];
      return [row(0), row(1)];
    };
    const inMono = patched((folded[at] as MixedChannel).gains, false);
    const foh = fohSides(setup, part.channel);
    const fohBack = roundPan(mirrorPan(part.channel.pan), setup.desk);
    const fohOver = fohSides(setup, { ...part.channel, pan: fohBack.pan });
    return {
      channel: part.channel,
      send: part.send,
      pan: part.pan,
      over: back,
      fohOver: fohBack,
      ears: table(apartOf),
      inOne: table(inOneOf),
      residual: table((gains, mirrored) => apart(energySides(gains), mirrored ? swap(now) : now)),
      folded: { ears: apartOf(inMono), inOne: inOneOf(inMono) },
      foh: [levelDifference(foh), levelDifference(fohOver)],
      fohResidual: apart(fohOver, swap(foh)),
    };
  });
};
