import { gainOf } from "../level/decibels";
import { type MixedChannel, mixedChannelsOf } from "../mix/bus";
import { inputGains, inputTrims, isSwapped, sidesOff } from "../mix/pair-order";
import type { Bus, Id, Listener, Send, Setup } from "../model/setup";
import { busName, nameOr } from "../names";
import { mirrorPan } from "../pan/notation";
import { type ChannelGains, scaledGains } from "../pan/stereo";
import { type FaultKind, KINDS } from "./kinds";
import { neighbourChannels } from "./neighbours";
import { type Strike, soundThrough } from "./strikes";
import { chain, type EarImage, earImage, FOLDED, gains, STRAIGHT, SWAPPED, type Wiring } from "./wiring";

/** One state the path from a bus to a listener's ears can be in. */
export interface Fault {
  /** Kind, and the channel's id behind it where the fault is one channel's: unique in a check. */
  readonly id: string;
  readonly kind: FaultKind;
  /** The channel at fault, if it is one channel's. */
  readonly channel: Id | null;
  readonly name: string;
  readonly remedy: string;
  /** Weight before the first hit, against the other faults. */
  readonly weight: number;
  /** What both ears get of each strike, in the order of the strikes. */
  readonly images: readonly EarImage[];
}

const zero = gains(0, 0);
const LEFT_IN_BOTH: Wiring = [
  [1, 0],
  [1, 0],
];
const RIGHT_IN_BOTH: Wiring = [
  [0, 1],
  [0, 1],
];

/** Faults of the sides on their way to the patch. */
const ON_SIDES: readonly (readonly [FaultKind, Wiring])[] = [
  ["reversed", SWAPPED],
  ["left side only", gains(1, 0)],
  ["right side only", gains(0, 1)],
  ["left side in both", LEFT_IN_BOTH],
  ["right side in both", RIGHT_IN_BOTH],
  ["folded", FOLDED],
  ["inverted", gains(1, -1)],
  ["silent", zero],
];
/** Faults behind the listener's own mixer. */
const AT_EARS: readonly (readonly [FaultKind, Wiring])[] = [
  ["flipped", SWAPPED],
  ["left ear dead", gains(0, 1)],
  ["right ear dead", gains(1, 0)],
];

/** Faults that only a bus with two sides can have. */
const OF_A_PAIR: ReadonlySet<FaultKind> = new Set<FaultKind>([
  ...ON_SIDES.map(([kind]) => kind).filter((kind) => kind !== "silent"),
  "flipped",
  "all at centre",
  "channel wrong",
]);

/** A send turned to the other side in its bus. */
export const turned = (part: MixedChannel): Send => ({ ...part.send, pan: mirrorPan(part.pan) });

const struckChannels = (parts: readonly MixedChannel[], strike: Strike): ChannelGains =>
  parts.flatMap(({ channel, gains }) => {
    const gain = soundThrough(strike, channel);
    return gain === 0 ? [] : scaledGains(gains, [gain, gain]);
  });

/**
 * Every fault between a bus and a listener's ears that a check looks for, "as planned" first.
 * A channel that no strike sounds through has no faults of its own here: no hit could find them.
 */
export const faultsOf = (
  setup: Setup,
  listener: Pick<Listener, "flipped" | "mono">,
  bus: Bus,
  strikes: readonly Strike[],
): Fault[] => {
  const parts = mixedChannelsOf(setup, bus);
  const patch = isSwapped(setup, bus) ? SWAPPED : STRAIGHT;
  const mixer = listener.mono ? FOLDED : listener.flipped ? SWAPPED : STRAIGHT;
  const inputs = gains(...inputGains(setup.monitor, bus));
  const planned = chain(inputs, patch, mixer);
  const [left, right] = inputTrims(setup.monitor, bus);
  const allOn = gains(gainOf(left), gainOf(right));
  const desk = strikes.map((s) => struckChannels(parts, s));

  const fault = (kind: FaultKind, images: readonly EarImage[], part: MixedChannel | null = null): Fault => {
    const it = part ? nameOr(part.channel, "source") : busName(bus);
    return {
      id: part ? `${kind} ${part.channel.id}` : kind,
      kind,
      channel: part?.channel.id ?? null,
      name: KINDS[kind].name(it),
      remedy: KINDS[kind].remedy(it),
      weight: KINDS[kind].weight,
      images,
    };
  };
  const wired = (kind: FaultKind, wiring: Wiring, gains: readonly ChannelGains[] = desk): Fault =>
    fault(
      kind,
      gains.map((c) => earImage(c, wiring)),
    );

  const asPlanned = desk.map((c) => earImage(c, planned));
  /** One channel otherwise than planned: only the strikes that sound through it change. */
  const ofChannel = (kind: FaultKind, part: MixedChannel, instead: readonly MixedChannel[]): Fault => {
    const now = parts.flatMap((p) => (p === part ? instead : [p]));
    const images = strikes.map((s, at) =>
      soundThrough(s, part.channel) > 0
        ? earImage(struckChannels(now, s), planned)
        : (asPlanned[at] as EarImage),
    );
    return fault(kind, images, part);
  };
  const checked = parts.filter((p) => strikes.some((s) => soundThrough(s, p.channel) > 0));
  const centred = mixedChannelsOf(setup, { ...bus, sends: bus.sends.map((s) => ({ ...s, pan: 0 })) });

  const all = [
    fault("planned", asPlanned),
    ...ON_SIDES.map(([kind, wiring]) => wired(kind, chain(wiring, planned))),
    ...(sidesOff(setup.monitor, bus).includes(true)
      ? [wired("switched on", chain(allOn, patch, mixer))]
      : []),
    ...AT_EARS.map(([kind, wiring]) => wired(kind, chain(planned, wiring))),
    wired("inputs up", mixer, neighbourChannels(setup, bus, strikes, 1)),
    wired("inputs down", mixer, neighbourChannels(setup, bus, strikes, -1)),
    wired(
      "all at centre",
      planned,
      strikes.map((s) => struckChannels(centred, s)),
    ),
    ...checked
      .filter((p) => p.pan !== 0)
      .map((p) => ofChannel("channel wrong", p, mixedChannelsOf(setup, { ...bus, sends: [turned(p)] }))),
    ...checked.map((p) => ofChannel("channel missing", p, [])),
  ];
  return bus.stereo ? all : all.filter((f) => !OF_A_PAIR.has(f.kind));
};
