import { NO_ACTION } from "../check/actions";
import { FAULTS, type Fault } from "../check/faults";
import { type Path, type PathChannel, pathMaker, pathsOf, plainChannels } from "../check/paths";
import { gains, type Wiring } from "../check/wiring";
import { gainOf } from "../level/decibels";
import { remembered } from "../lib/memo";
import type { Bus, Channel, HearingPoint, Id, Listener, Setup } from "../model/setup";
import type { Db, Pan } from "../model/units";

/** Every way in which the path can be wrong that a measurement can find: those of the check at the kit, and two more. */
export type HeardFault = Fault | "side-trim" | "wrong-pan";

/** One state the path can be in, named. */
export interface NamedFault {
  /** Unique in a hearing: the fault, and the channel's id behind it where it is one channel's. */
  readonly id: string;
  readonly fault: HeardFault;
  /** The channel at fault, if it is one channel's. */
  readonly channel: Id | null;
}

/** One state the path can be in, down to the size of what is wrong. */
export interface HeardState extends NamedFault {
  /** Of a wrong pan, the pan; null for every other fault. */
  readonly pan: Pan | null;
  /** Of a side trim, how much louder the right side is than planned, dB; null for every other fault. */
  readonly trim: Db | null;
  /** Chance before the first hit; those of all states sum to 1. */
  readonly prior: number;
  readonly channels: readonly PathChannel[];
  readonly wiring: Wiring;
}

/** Chance that nothing is wrong, before the first hit. A hearing is also made to be sure. A design choice. */
const PLANNED = 0.5;
/** Weight of the faults that only a measurement finds, against those of the check at the kit. A design choice. */
const WEIGHT = 1;
/** Side trims that are tried, either way, dB. From 1.5 dB on it is one. */
const TRIMS: readonly Db[] = [2, 2.8, 3.8, 5, 6.5, 8.5, 11];
/** Pans that are tried, and from what difference to the planned one on it is wrong. */
const PANS: readonly Pan[] = Array.from({ length: 41 }, (_, at) => (at - 20) / 20);
/** Of an overhead so many of them: what it has comes by others too, and is not so exact. */
const EVERY_OF_ABOVE = 4;
const WRONG_PAN: Pan = 0.35;

/** Faults that lie before the outputs of a bus, or in what a phone is plugged in there with. */
const AT_BUS_OUTPUTS: readonly HeardFault[] = [
  "planned",
  "swapped",
  "left-only",
  "right-only",
  "inverted",
  "all-centred",
  "silent",
  "overheads-crossed",
  "wrong-side",
  "missing",
  "side-trim",
  "wrong-pan",
];

/** The setup in which the outputs of the bus go straight to the phone. */
const straight = (setup: Setup, bus: Bus): { readonly setup: Setup; readonly bus: Bus } => {
  const plain = { ...bus, swapped: false };
  const buses = setup.buses.map((b) => (b.id === bus.id ? plain : b));
  return { setup: { ...setup, buses, monitor: { ...setup.monitor, inputs: [] } }, bus: plain };
};

const trimmed = (db: Db): Wiring => gains(gainOf(-db / 2), gainOf(db / 2));

/** A path with its size and its weight. */
interface Weighed extends Pick<HeardState, "pan" | "trim"> {
  readonly path: Path<HeardFault>;
  readonly weight: number;
}

/**
 * Every state of the path that a hearing looks for, "planned" first.
 * @param isChecked whether a drum sounds through a channel
 */
export const statesOf = (
  of: Setup,
  listener: Listener,
  heard: Bus,
  point: HearingPoint,
  isChecked: (channel: Channel) => boolean,
): HeardState[] => {
  const { setup, bus } = point === "bus" ? straight(of, heard) : { setup: of, bus: heard };
  const own = point === "bus" ? { flipped: false, mono: false } : listener;
  const { parts, isAbove, withSends, instead, atBus, path } = pathMaker(setup, own, bus);
  const known: Weighed[] = pathsOf(setup, own, bus, isChecked).map((its) => ({
    path: its,
    pan: null,
    trim: null,
    weight: FAULTS[its.fault].weight,
  }));
  const trims: Weighed[] = [...TRIMS.map((db) => -db), ...TRIMS].map((trim) => ({
    path: path("side-trim", atBus(trimmed(trim))),
    pan: null,
    trim,
    weight: WEIGHT / (2 * TRIMS.length),
  }));
  /** Every part as it would be at a pan. */
  const allAt = remembered(
    (pan: Pan) => new Map(withSends((send) => ({ ...send, pan })).map((part) => [part.channel.id, part])),
  );
  const pans: Weighed[] = parts
    .filter(({ channel }) => isChecked(channel))
    .flatMap((part) => {
      const wrong = PANS.filter(
        (pan, at) =>
          (!isAbove(part) || at % EVERY_OF_ABOVE === 0) &&
          Math.abs(pan - part.pan) >= WRONG_PAN &&
          Math.abs(pan + part.pan) >= WRONG_PAN,
      );
      return wrong.map((pan) => {
        const now = allAt(pan).get(part.channel.id);
        const change = instead(part, now ? [now] : []);
        return { path: path("wrong-pan", change, part), pan, trim: null, weight: WEIGHT / wrong.length };
      });
    });
  const all = [...known, ...(bus.stereo ? [...trims, ...pans] : [])].filter(
    (one) => point === "mixer" || AT_BUS_OUTPUTS.includes(one.path.fault),
  );
  const others = all.reduce(
    (sum, { path: { fault }, weight }) => sum + (fault === "planned" ? 0 : weight),
    0,
  );
  return all.map(({ path: its, pan, trim, weight }) => ({
    id: its.id,
    fault: its.fault,
    channel: its.channel,
    pan,
    trim,
    prior: its.fault === "planned" ? PLANNED : ((1 - PLANNED) * weight) / others,
    channels: plainChannels(its),
    wiring: its.wiring(NO_ACTION),
  }));
};
