import type { Listener } from "../model/setup";
import type { Db } from "../model/units";
import { facingOf, isSideOn } from "../stereo/geometry";
import { locationsFor } from "../stereo/location";
import {
  agreementOf,
  type EarPath,
  finishTally,
  type Location,
  losesSides,
  newTally,
  type Placement,
  sideHeard,
  type Tally,
} from "../stereo/placement";
import type { Situation, Voice } from "./model";

/** How a member hears the bus: its order, or folded to mono, and then their own mixer. */
export interface Hearing {
  readonly order: "as is" | "swapped" | "folded";
  readonly flipped: boolean;
}

/** What is done to the pan of a voice: in the bus, and at its channel. */
export interface PanState {
  readonly inBus: boolean;
  readonly channel: boolean;
}

/** What one voice adds to a tally. */
export interface TallyEntry {
  readonly agreement: Placement;
  readonly lost: boolean;
  /** Offset × heard, metres. */
  readonly heard: number;
  /** Distance from the middle, metres. */
  readonly weight: number;
}

/** Somebody who hears every voice from the same side as others do: what one of them gets, all get. */
export interface Viewpoint {
  readonly mono: boolean;
  /** Where each voice stands for them. */
  readonly standing: readonly Location[];
  /** Tells viewpoints of one situation apart. */
  readonly key: string;
}

/** What a voice adds where it stands somewhere, is heard somewhere, and has lost its L/R or not. */
export const entryOf = (standing: Location, difference: Db | null, lost: boolean): TallyEntry => {
  const heard = sideHeard(standing, difference);
  return {
    agreement: agreementOf(standing.stands, difference),
    lost,
    heard: heard ?? 0,
    weight: heard === null ? 0 : Math.abs(standing.offset ?? 0),
  };
};

/** Entries added up. */
export const tallyOf = (entries: Iterable<TallyEntry>): Tally => {
  const count = newTally();
  for (const { agreement, lost, heard, weight } of entries) {
    count[agreement] += 1;
    if (lost) count.sidesLost += 1;
    count.heard += heard;
    count.weight += weight;
  }
  return finishTally(count);
};

const differenceOf = (
  voice: Voice,
  { mono }: Viewpoint,
  { order, flipped }: Hearing,
  inBus: boolean,
): Db | null => {
  const at = mono ? voice.inOne : voice.ears;
  const straight =
    order === "folded"
      ? voice.folded[mono ? "inOne" : "ears"]
      : at[inBus ? 1 : 0][order === "swapped" ? 1 : 0];
  return flipped && !mono && straight !== null ? -straight : straight;
};

/** What each voice adds for a viewpoint by a way of hearing, by what is done to its pan. */
export const entriesFor = (
  { swapped, bus, voices }: Situation,
  view: Viewpoint,
  hearing: Hearing,
): ((at: number, pan: PanState) => TallyEntry) => {
  const way: EarPath = {
    turned: (swapped !== (hearing.order === "swapped")) !== hearing.flipped,
    collapsed: view.mono || hearing.order === "folded" || bus.folded || !bus.stereo,
  };
  return (at, { inBus, channel }) => {
    const voice = voices[at] as Voice;
    const difference = differenceOf(voice, view, hearing, inBus);
    const lost = losesSides(voice.channel, way, voice.foh[channel ? 1 : 0], difference);
    return entryOf(view.standing[at] as Location, difference, lost);
  };
};

/** A listener who sees the kit from where another stands, or from the other side. */
export const seenFrom = (situation: Situation, listener: Listener, turned: boolean): Listener => {
  const facing = facingOf(situation.setup.kit, listener) + (turned ? 180 : 0);
  return { ...listener, kind: "performer", facing };
};

/** Finds the viewpoint of listeners: one for all who face the same way. */
export const viewpoints = (situation: Situation): ((listener: Listener, turned: boolean) => Viewpoint) => {
  const { setup, voices } = situation;
  const known = new Map<string, Viewpoint>();
  return (listener, turned) => {
    const from = seenFrom(situation, listener, turned);
    const angle = (((from.facing - setup.kit.yaw) % 360) + 360) % 360;
    const key = `${listener.mono ? "mono" : "ears"} ${isSideOn(setup.kit, from) ? "side-on" : angle}`;
    const seen = known.get(key);
    if (seen) return seen;
    const standing = locationsFor(setup, from);
    const view = { mono: listener.mono, standing: voices.map((v) => standing(v.channel)), key };
    known.set(key, view);
    return view;
  };
};
