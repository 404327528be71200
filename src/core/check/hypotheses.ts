import { gainOf } from "../level/decibels";
import { remembered } from "../lib/memo";
import { type MixedChannel, mixedChannelsOf } from "../mix/bus";
import { inputGains, inputTrims, isSwapped, sidesOff } from "../mix/pair-order";
import type { Action, Bus, Id, Listener, Piece, Send, Setup } from "../model/setup";
import type { Db, Sides } from "../model/units";
import { mirrorPan } from "../pan/notation";
import { type ChannelGains, scaledGains } from "../pan/stereo";
import { ACTIONS, type ActionRecord, NO_ACTION } from "./actions";
import { FAULTS, type Fault } from "./faults";
import { neighbourChannels } from "./neighbours";
import { hearsWholeKit, type Pickup } from "./pickup";
import { AT_BUS, AT_EARS, AT_MIXER } from "./wired-faults";
import { chain, type EarImage, earImage, FOLDED, gains, STRAIGHT, SWAPPED, type Wiring } from "./wiring";

/** What both ears get of a hit, by the level of the overheads and what was done for it. */
export type HitImage = (piece: Piece, overheads: Db, action: Action | null) => EarImage;

/** One state the path from a bus to a listener's ears can be in. */
export interface Hypothesis {
  /** Fault, and the channel's id behind it where it is one channel's: unique in a check. */
  readonly id: string;
  readonly fault: Fault;
  /** The channel at fault, if it is one channel's. */
  readonly channel: Id | null;
  readonly image: HitImage;
  /** Whether a hit of this drum can sound otherwise than planned at all. */
  readonly touches: (piece: Piece) => boolean;
}

/** A send turned to the other side in its bus. */
export const turned = (part: MixedChannel): Send => ({ ...part.send, pan: mirrorPan(part.pan) });

/** Whether a part of a bus is an overhead with a place above the kit. */
export const isOverhead = (setup: Setup, { channel }: MixedChannel): boolean =>
  channel.lines === 1 && hearsWholeKit(setup.kit.pieces.find((p) => p.id === channel.piece));

/** What arrives at the monitor inputs of a hit, and which fault lies behind them. */
interface Path {
  readonly channels: (piece: Piece, overheads: Db, action: ActionRecord) => ChannelGains;
  readonly toInputs: Wiring;
  readonly mixer?: Wiring;
  readonly ears?: Wiring;
}

/**
 * Every state of the path from a bus to a listener's ears that a check looks for, "planned" first.
 * A channel that no drum of these sounds through has no faults of its own here: no hit could find them.
 */
export const hypothesesOf = (
  setup: Setup,
  listener: Pick<Listener, "flipped" | "mono">,
  bus: Bus,
  pickup: Pickup,
  drums: readonly Piece[],
): Hypothesis[] => {
  const parts = mixedChannelsOf(setup, bus);
  const patch = isSwapped(setup, bus) ? SWAPPED : STRAIGHT;
  const own = listener.mono ? FOLDED : listener.flipped ? SWAPPED : STRAIGHT;
  const inputs = gains(...inputGains(setup.monitor, bus));
  const [left, right] = inputTrims(setup.monitor, bus);
  const planned = chain(inputs, patch);

  const above = new Set(parts.filter((p) => isOverhead(setup, p)).map((p) => p.channel.id));
  const isAbove = ({ channel }: MixedChannel): boolean => above.has(channel.id);
  /** What a drum sounds through, its own microphones and the overheads: with hundreds of channels, few of all. */
  const near =
    (of: readonly MixedChannel[]) =>
    (piece: Piece): readonly MixedChannel[] =>
      of.filter((part) => isAbove(part) || part.channel.piece === piece.id);
  const gainsOf = (part: MixedChannel, piece: Piece, overheads: Db): ChannelGains => {
    const gain = pickup(piece, part.channel, overheads);
    return gain === 0 ? [] : scaledGains(part.gains, [gain, gain]);
  };
  /** What each channel has of a hit; worked out once, for it is asked again for every fault and action. */
  const byChannel = (of: readonly MixedChannel[]) => {
    const soundsOf = remembered(near(of));
    return remembered((mutesOverheads: boolean) =>
      remembered((overheads: Db) =>
        remembered((piece: Piece) => {
          const rows: Sides[] = [];
          const from = new Map<MixedChannel, number>();
          for (const part of soundsOf(piece)) {
            if (mutesOverheads && isAbove(part)) continue;
            from.set(part, rows.length);
            rows.push(...gainsOf(part, piece, overheads));
          }
          return { rows, from };
        }),
      ),
    );
  };
  const struck = (of: readonly MixedChannel[]): Path["channels"] => {
    const its = byChannel(of);
    return (piece, overheads, { mutesOverheads }) => its(mutesOverheads)(overheads)(piece).rows;
  };
  const sent = byChannel(parts);
  const asSent: Path["channels"] = (piece, overheads, { mutesOverheads }) =>
    sent(mutesOverheads)(overheads)(piece).rows;
  const muted: Setup = {
    ...setup,
    buses: setup.buses.map((s) =>
      s.id === bus.id ? { ...s, sends: parts.filter((p) => !isAbove(p)).map((p) => p.send) } : s,
    ),
  };
  const neighbours = (by: 1 | -1): Path["channels"] => {
    const all = neighbourChannels(setup, bus, pickup, by);
    const without = neighbourChannels(muted, bus, pickup, by);
    return (piece, overheads, { mutesOverheads }) => (mutesOverheads ? without : all)(piece, overheads);
  };

  const hypothesis = (fault: Fault, path: Partial<Path>, part: MixedChannel | null = null): Hypothesis => {
    const {
      channels: gains,
      toInputs,
      mixer,
      ears,
    } = {
      channels: asSent,
      toInputs: planned,
      mixer: STRAIGHT,
      ears: STRAIGHT,
      ...path,
    };
    const wayWith = remembered(({ atInputs, atOutput }: ActionRecord) =>
      chain(toInputs, atInputs, own, mixer, atOutput, ears),
    );
    return {
      id: part ? `${fault} ${part.channel.id}` : fault,
      fault,
      channel: part?.channel.id ?? null,
      image: (piece, overheads, action) => {
        const done = action === null ? NO_ACTION : ACTIONS[action];
        return earImage(gains(piece, overheads, done), wayWith(done));
      },
      touches: (piece) => part === null || pickup(piece, part.channel, 0) > 0,
    };
  };
  const instead = (part: MixedChannel, now: readonly MixedChannel[]): Partial<Path> => ({
    channels: (piece, overheads, { mutesOverheads }) => {
      const { rows, from } = sent(mutesOverheads)(overheads)(piece);
      const at = from.get(part);
      if (at === undefined) return rows;
      const was = gainsOf(part, piece, overheads).length;
      return [
        ...rows.slice(0, at),
        ...now.flatMap((other) => gainsOf(other, piece, overheads)),
        ...rows.slice(at + was),
      ];
    },
  });
  const turnedParts = new Map(
    mixedChannelsOf(setup, { ...bus, sends: parts.map(turned) }).map((now, at) => [parts[at], now]),
  );
  const turnedOf = (of: readonly MixedChannel[]): MixedChannel[] =>
    of.flatMap((part) => turnedParts.get(part) ?? []);

  const checked = parts.filter((p) => drums.some((piece) => pickup(piece, p.channel, 0) > 0));
  const sided = checked.filter((p) => p.pan !== 0);
  const crossed = sided.filter(isAbove);
  const all = [
    hypothesis("planned", {}),
    ...AT_BUS.map(([fault, wiring]) => hypothesis(fault, { toInputs: chain(wiring, planned) })),
    ...(sidesOff(setup.monitor, bus).includes(true)
      ? [hypothesis("switched-on", { toInputs: chain(gains(gainOf(left), gainOf(right)), patch) })]
      : []),
    ...AT_MIXER.map(([fault, mixer]) => hypothesis(fault, { mixer })),
    ...AT_EARS.map(([fault, ears]) => hypothesis(fault, { ears })),
    hypothesis("inputs-up", { channels: neighbours(1), toInputs: STRAIGHT }),
    hypothesis("inputs-down", { channels: neighbours(-1), toInputs: STRAIGHT }),
    hypothesis("all-centred", {
      channels: struck(mixedChannelsOf(setup, { ...bus, sends: bus.sends.map((s) => ({ ...s, pan: 0 })) })),
    }),
    ...(crossed.length > 1
      ? [
          hypothesis("overheads-crossed", {
            channels: struck([...parts.filter((p) => !crossed.includes(p)), ...turnedOf(crossed)]),
          }),
        ]
      : []),
    ...sided.map((p) => hypothesis("wrong-side", instead(p, turnedOf([p])), p)),
    ...checked.map((p) => hypothesis("missing", instead(p, []), p)),
  ];
  return bus.stereo ? all : all.filter(({ fault }) => !FAULTS[fault].ofStereo);
};
