import { levelOf } from "../level/decibels";
import { type MixedChannel, mixedChannelsOf } from "../mix/bus";
import { hasBothInputs, inputGains, isSwapped } from "../mix/pair-order";
import type { Bus, Send, Setup } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { mirrorPan, type RoundedPan, roundPan } from "../pan/notation";
import { type ChannelGains, energySides, foldedGains, scaledGains, swappedGains } from "../pan/stereo";
import { fohSides } from "../stereo/image";
import { levelDifference } from "../stereo/position";
import type { ByPanAndOrder, Voice } from "./model";

const swap = <T>([left, right]: Sides<T>): Sides<T> => [right, left];
const differenceOf = (sides: Sides): Db | null =>
  sides[0] === 0 && sides[1] === 0 ? null : levelDifference(sides);
const apartOf = (gains: ChannelGains): Db | null => differenceOf(energySides(gains));
const inOneOf = (gains: ChannelGains): Db | null => apartOf(foldedGains(gains));

/** Largest change of level of an ear, dB; an ear that goes to or from silence is left out. */
const residualOf = (to: Sides, from: Sides): Db => {
  let most = 0;
  for (const ear of [0, 1] as const)
    if (to[ear] !== 0 && from[ear] !== 0)
      most = Math.max(most, Math.abs(levelOf(to[ear]) - levelOf(from[ear])));
  return most;
};

/** The bus with the pan of every send mirrored. */
const mirroredParts = (bus: Bus, setup: Setup, pans: ReadonlyMap<Send, RoundedPan>): MixedChannel[] =>
  mixedChannelsOf(setup, { ...bus, sends: bus.sends.map((s) => ({ ...s, pan: pans.get(s)?.pan ?? s.pan })) });

/** Every channel that sounds in a bus, in the order of its sends. */
export const voicesOf = (setup: Setup, bus: Bus): Voice[] => {
  const parts = mixedChannelsOf(setup, bus);
  const pans = new Map(parts.map((p) => [p.send, roundPan(mirrorPan(p.pan), setup.desk)]));
  const mirrored = mirroredParts(bus, setup, pans);
  const folded = mixedChannelsOf(setup, { ...bus, folded: true });
  const swapped = isSwapped(setup, bus);
  const inputs = inputGains(setup.monitor, bus);
  // An input keeps its trim and switch when L and R change places; without inputs there is nothing to change.
  const exchanged = hasBothInputs(setup.monitor, bus) ? swap(inputs) : inputs;
  const patched = (gains: ChannelGains, swaps: boolean): ChannelGains => {
    const out = scaledGains(gains, swaps ? exchanged : inputs);
    return swapped !== swaps ? swappedGains(out) : out;
  };
  return parts.map((part, at): Voice => {
    const desk: Sides<ChannelGains> = [part.gains, (mirrored[at] as MixedChannel).gains];
    const now = energySides(patched(desk[0], false));
    const table = <T>(of: (gains: ChannelGains, turned: boolean) => T): ByPanAndOrder<T> => {
      const row = (pan: 0 | 1): readonly [T, T] => [
        of(patched(desk[pan], false), pan === 1),
        of(patched(desk[pan], true), pan === 0),
      ];
      return [row(0), row(1)];
    };
    const inMono = patched((folded[at] as MixedChannel).gains, false);
    const foh = fohSides(setup, part.channel);
    const channelMirrored = roundPan(mirrorPan(part.channel.pan), setup.desk);
    const fohMirrored = fohSides(setup, { ...part.channel, pan: channelMirrored.pan });
    return {
      channel: part.channel,
      send: part.send,
      pan: part.pan,
      mirrored: pans.get(part.send) as RoundedPan,
      channelMirrored,
      ears: table(apartOf),
      inOne: table(inOneOf),
      folded: { ears: apartOf(inMono), inOne: inOneOf(inMono) },
      residual: table((gains, turned) => residualOf(energySides(gains), turned ? swap(now) : now)),
      foh: [levelDifference(foh), levelDifference(fohMirrored)],
      fohResidual: residualOf(fohMirrored, swap(foh)),
    };
  });
};
