import { gainOf } from "../level/decibels";
import { once } from "../lib/memo";
import { type MixedChannel, mixedChannelsOf } from "../mix/bus";
import { inputGains, inputTrims, isSwapped, sidesOff } from "../mix/pair-order";
import type { Bus, Channel, Id, Listener, Send, Setup } from "../model/setup";
import { withBus } from "../model/update";
import { mirrorPan } from "../pan/notation";
import type { ChannelGains } from "../pan/stereo";
import { type ActionRecord, NO_ACTION } from "./actions";
import { FAULTS, type Fault } from "./faults";
import { neighbourChannels } from "./neighbours";
import { hearsWholeKit } from "./pickup";
import { AT_BUS, AT_EARS, AT_MIXER } from "./wired-faults";
import { chain, FOLDED, gains, mixer, STRAIGHT, SWAPPED, type Wiring } from "./wiring";

/** What one channel brings into a path: signed gains of its lines at the two inputs, whatever it picks up. */
export interface PathChannel {
  readonly channel: Channel;
  readonly gains: ChannelGains;
}

/** One state the path from a bus to a listener's ears can be in. */
export interface Path<F extends string = Fault> {
  /** Fault, and the channel's id behind it where it is one channel's: unique among the paths. */
  readonly id: string;
  readonly fault: F;
  /** The channel at fault, if it is one channel's. */
  readonly channel: Id | null;
  /** What is in it, with the overheads muted in the bus or not. */
  readonly channels: (mutesOverheads: boolean) => readonly PathChannel[];
  /** How what is in it reaches the ears, with something done for it. */
  readonly wiring: (done: ActionRecord) => Wiring;
}

/** What a fault changes on the way; what is not here is as planned. */
export interface PathChange {
  readonly channels?: Path["channels"];
  readonly toInputs?: Wiring;
  readonly atMixer?: Wiring;
  readonly ears?: Wiring;
}

/** A send turned to the other side in its bus. */
export const turned = (part: MixedChannel): Send => ({ ...part.send, pan: mirrorPan(part.pan) });

/** Whether a part of a bus is an overhead with a place above the kit. */
export const isOverhead = (setup: Setup, { channel }: MixedChannel): boolean =>
  channel.lines === 1 && hearsWholeKit(setup.kit.pieces.find((p) => p.id === channel.piece));

/** What paths are made of: the bus as planned, and what a fault can change of it. */
export const pathMaker = (setup: Setup, listener: Pick<Listener, "flipped" | "mono">, bus: Bus) => {
  const parts = mixedChannelsOf(setup, bus);
  const patch = isSwapped(setup, bus) ? SWAPPED : STRAIGHT;
  const own = listener.mono ? FOLDED : listener.flipped ? SWAPPED : STRAIGHT;
  /** From the outputs of the bus, behind what is wrong with them, to the listener's own mixer. */
  const planned = chain(gains(...inputGains(setup.monitor, bus)), patch);
  const above = new Set(parts.filter((p) => isOverhead(setup, p)).map((p) => p.channel.id));
  const isAbove = ({ channel }: PathChannel): boolean => above.has(channel.id);

  const heard = (all: readonly PathChannel[]): Path["channels"] => {
    const without = once(() => all.filter((one) => !isAbove(one)));
    return (mutesOverheads) => (mutesOverheads ? without() : all);
  };
  const asSent = heard(parts);
  /** The bus with some of its sends otherwise. */
  const withSends = (change: (send: Send) => Send): readonly MixedChannel[] =>
    mixedChannelsOf(setup, { ...bus, sends: bus.sends.map(change) });

  return {
    parts,
    patch,
    isAbove,
    heard,
    withSends,
    /** The bus with one part otherwise, or gone. */
    instead: (part: MixedChannel, now: readonly MixedChannel[]): PathChange => ({
      channels: heard(parts.flatMap((other) => (other === part ? now : [other]))),
    }),
    /** Something wrong at the outputs of the bus. */
    atBus: (wiring: Wiring): PathChange => ({ toInputs: chain(wiring, planned) }),
    path: <F extends string>(fault: F, change: PathChange, part: MixedChannel | null = null): Path<F> => {
      const { channels = asSent, toInputs = planned, atMixer = STRAIGHT, ears = STRAIGHT } = change;
      return {
        id: part ? `${fault} ${part.channel.id}` : fault,
        fault,
        channel: part?.channel.id ?? null,
        channels,
        wiring: ({ atInputs, atOutput }) => chain(toInputs, atInputs, mixer(own, atMixer, atOutput), ears),
      };
    },
  };
};

/**
 * Every state of the path from a bus to a listener's ears that a check looks for, "planned" first.
 * @param isChecked whether a channel can have faults of its own here: one that no drum sounds through has none that a
 * hit could find
 */
export const pathsOf = (
  setup: Setup,
  listener: Pick<Listener, "flipped" | "mono">,
  bus: Bus,
  isChecked: (channel: Channel) => boolean,
): Path[] => {
  const { parts, patch, isAbove, heard, withSends, instead, atBus, path } = pathMaker(setup, listener, bus);
  const [left, right] = inputTrims(setup.monitor, bus);
  const own = parts.filter((p) => !isAbove(p)).map((p) => p.send);
  const muted = withBus(setup, bus.id, (b) => ({ ...b, sends: own }));
  const neighbours = (by: 1 | -1): PathChange => {
    const all = once(() => neighbourChannels(setup, bus, by));
    const without = once(() => neighbourChannels(muted, bus, by));
    return { channels: (mutesOverheads) => (mutesOverheads ? without : all)(), toInputs: STRAIGHT };
  };
  const turnedParts = new Map(
    mixedChannelsOf(setup, { ...bus, sends: parts.map(turned) }).map((now, at) => [parts[at], now]),
  );
  const turnedOf = (of: readonly MixedChannel[]): MixedChannel[] =>
    of.flatMap((part) => turnedParts.get(part) ?? []);

  const checked = parts.filter(({ channel }) => isChecked(channel));
  const sided = checked.filter((p) => p.pan !== 0);
  const crossed = sided.filter(isAbove);
  const all = [
    path("planned", {}),
    ...AT_BUS.map(([fault, wiring]) => path(fault, atBus(wiring))),
    ...(sidesOff(setup.monitor, bus).includes(true)
      ? [path("switched-on", { toInputs: chain(gains(gainOf(left), gainOf(right)), patch) })]
      : []),
    ...AT_MIXER.filter(([, atMixer]) => !(listener.mono && atMixer === FOLDED)).map(([fault, atMixer]) =>
      path(fault, { atMixer }),
    ),
    ...AT_EARS.map(([fault, ears]) => path(fault, { ears })),
    path("inputs-up", neighbours(1)),
    path("inputs-down", neighbours(-1)),
    path("all-centred", { channels: heard(withSends((send) => ({ ...send, pan: 0 }))) }),
    ...(crossed.length > 1
      ? [
          path("overheads-crossed", {
            channels: heard([...parts.filter((p) => !crossed.includes(p)), ...turnedOf(crossed)]),
          }),
        ]
      : []),
    ...sided.map((p) => path("wrong-side", instead(p, turnedOf([p])), p)),
    ...checked.map((p) => path("missing", instead(p, []), p)),
  ];
  return bus.stereo ? all : all.filter(({ fault }) => !FAULTS[fault].ofStereo);
};

/** What is in a path without anything done for a hit. */
export const plainChannels = (path: Path<string>): readonly PathChannel[] =>
  path.channels(NO_ACTION.mutesOverheads);
