import { nameOf, sumCalled } from "../called";
import { type ChannelGains, scaledGains } from "../channels";
import { gainOf } from "../decibels";
import { type Part, partsOf } from "../mix";
import { mirrorPan } from "../pannotation";
import { isReversed, legsOff, slotGains, slotTrims } from "../patched";
import type { Id, Listener, Send, Setup, Sum } from "../setup";
import { type FaultKind, KINDS } from "./kinds";
import { neighbourChannels } from "./neighbours";
import { type Strike, soundThrough } from "./strikes";
import { chain, type EarImage, earImage, FOLDED, gains, STRAIGHT, SWAPPED, type Wiring } from "./wiring";

/** One state the path from a sum to a listener's ears can be in. */
export interface Fault {
  /** Kind, and the source's id behind it where the fault is one source's: unique in a check. */
  readonly id: string;
  readonly kind: FaultKind;
  /** The source at fault, if it is one source's. */
  readonly source: Id | null;
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

/** Faults of the legs on their way to the patch. */
const ON_LEGS: readonly (readonly [FaultKind, Wiring])[] = [
  ["reversed", SWAPPED],
  ["left leg only", gains(1, 0)],
  ["right leg only", gains(0, 1)],
  ["left leg in both", LEFT_IN_BOTH],
  ["right leg in both", RIGHT_IN_BOTH],
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

/** Faults that only a sum with two legs can have. */
const OF_A_PAIR: ReadonlySet<FaultKind> = new Set<FaultKind>([
  ...ON_LEGS.map(([kind]) => kind).filter((kind) => kind !== "silent"),
  "flipped",
  "all at centre",
  "source wrong",
]);

/** A send turned to the other side in its sum. */
export const turned = (part: Part): Send => ({ ...part.send, pan: mirrorPan(part.pan) });

const struckChannels = (parts: readonly Part[], strike: Strike): ChannelGains =>
  parts.flatMap(({ source, channels }) => {
    const gain = soundThrough(strike, source);
    return gain === 0 ? [] : scaledGains(channels, [gain, gain]);
  });

/**
 * Every fault between a sum and a listener's ears that a check looks for, "as planned" first.
 * A source that no strike sounds through has no faults of its own here: no hit could find them.
 */
export const faultsOf = (
  setup: Setup,
  listener: Pick<Listener, "flipped" | "mono">,
  sum: Sum,
  strikes: readonly Strike[],
): Fault[] => {
  const parts = partsOf(setup, sum);
  const patch = isReversed(setup, sum) ? SWAPPED : STRAIGHT;
  const mixer = listener.mono ? FOLDED : listener.flipped ? SWAPPED : STRAIGHT;
  const slots = gains(...slotGains(setup.monitor, sum));
  const planned = chain(slots, patch, mixer);
  const [left, right] = slotTrims(setup.monitor, sum);
  const allOn = gains(gainOf(left), gainOf(right));
  const desk = strikes.map((s) => struckChannels(parts, s));

  const fault = (kind: FaultKind, images: readonly EarImage[], part: Part | null = null): Fault => {
    const it = part ? nameOf(part.source, "source") : sumCalled(sum);
    return {
      id: part ? `${kind} ${part.source.id}` : kind,
      kind,
      source: part?.source.id ?? null,
      name: KINDS[kind].name(it),
      remedy: KINDS[kind].remedy(it),
      weight: KINDS[kind].weight,
      images,
    };
  };
  const wired = (kind: FaultKind, wiring: Wiring, channels: readonly ChannelGains[] = desk): Fault =>
    fault(
      kind,
      channels.map((c) => earImage(c, wiring)),
    );

  const asPlanned = desk.map((c) => earImage(c, planned));
  /** One source otherwise than planned: only the strikes that sound through it change. */
  const ofSource = (kind: FaultKind, part: Part, instead: readonly Part[]): Fault => {
    const now = parts.flatMap((p) => (p === part ? instead : [p]));
    const images = strikes.map((s, at) =>
      soundThrough(s, part.source) > 0
        ? earImage(struckChannels(now, s), planned)
        : (asPlanned[at] as EarImage),
    );
    return fault(kind, images, part);
  };
  const checked = parts.filter((p) => strikes.some((s) => soundThrough(s, p.source) > 0));
  const centred = partsOf(setup, { ...sum, sends: sum.sends.map((s) => ({ ...s, pan: 0 })) });

  const all = [
    fault("planned", asPlanned),
    ...ON_LEGS.map(([kind, wiring]) => wired(kind, chain(wiring, planned))),
    ...(legsOff(setup.monitor, sum).includes(true) ? [wired("switched on", chain(allOn, patch, mixer))] : []),
    ...AT_EARS.map(([kind, wiring]) => wired(kind, chain(planned, wiring))),
    wired("slots up", mixer, neighbourChannels(setup, sum, strikes, 1)),
    wired("slots down", mixer, neighbourChannels(setup, sum, strikes, -1)),
    wired(
      "all at centre",
      planned,
      strikes.map((s) => struckChannels(centred, s)),
    ),
    ...checked
      .filter((p) => p.pan !== 0)
      .map((p) => ofSource("source wrong", p, partsOf(setup, { ...sum, sends: [turned(p)] }))),
    ...checked.map((p) => ofSource("source missing", p, [])),
  ];
  return sum.stereo ? all : all.filter((f) => !OF_A_PAIR.has(f.kind));
};
