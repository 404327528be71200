import type { Obstacle } from "../check/check";
import { remembered } from "../lib/memo";
import { mixedChannelsOf } from "../mix/bus";
import { busOf } from "../mix/ear-gains";
import { hearsFoh, isStruck } from "../model/kinds";
import type { Channel, HearingPoint, Id, Listener, Piece, Setup } from "../model/setup";
import type { Told } from "./posterior";
import { type HitPrediction, predictor } from "./prediction";
import { SKETCHED, type Sketch, sketched } from "./sketch";
import { type HeardState, type NamedFault, statesOf } from "./states";
import { microphonesOf, OVERHEADS, WORLDS } from "./worlds";

/**
 * All that a hearing needs of a setup and a listener; made once by `hearingOf`, then asked by `stateOf` with growing
 * lists of what was heard.
 */
export interface HitCheck {
  /** The drums that can be asked for, in the order of the kit. */
  readonly drums: readonly Id[];
  /** Every fault that is looked for, "planned" first, each once. */
  readonly faults: readonly NamedFault[];
  /** Null when there is something to hear. */
  readonly obstacle: Obstacle | null;
  /** What it is worked out from; null with an obstacle. */
  readonly grounds: HearingGrounds | null;
}

/** What a hearing is worked out from. */
export interface HearingGrounds {
  /** "planned" first. */
  readonly states: readonly HeardState[];
  readonly pieces: readonly Piece[];
  readonly levels: typeof OVERHEADS;
  /** Whether a drum sounds otherwise than planned in a state at all. */
  readonly touches: (state: HeardState, piece: Piece) => boolean;
  /** Whether the level of a drum is known but for how people hit. */
  readonly isLevelKnown: (piece: Piece) => boolean;
  /** What a hit brings, in all worlds, by the place of the level of the overheads; worked out once. */
  readonly predict: (piece: Piece, level: number, state: HeardState) => HitPrediction;
  /** What is worked out of the hits of a drum: kept as long as they are the same, for only the last of them is new. */
  readonly keep: <T>(piece: Piece, told: Told, make: () => T) => T;
  /** The same in few worlds, at the likeliest level of the overheads, as means and variances; worked out once. */
  readonly sketch: (piece: Piece, state: HeardState) => Sketch;
}

/** How much is kept for each drum: in free mode every hit may be of any. */
const KEPT = 64;

const isSame = (a: Told, b: Told): boolean =>
  a.isNothing === b.isNothing &&
  a.hits.length === b.hits.length &&
  a.hits.every((hit, at) => hit === b.hits[at]);

const keeper = (): HearingGrounds["keep"] => {
  const kept = new Map<Piece, { readonly told: Told; readonly made: unknown }[]>();
  return <T>(piece: Piece, told: Told, make: () => T): T => {
    const its = kept.get(piece) ?? [];
    const known = its.find((one) => isSame(one.told, told));
    if (known) return known.made as T;
    const made = make();
    kept.set(piece, [{ told, made }, ...its].slice(0, KEPT));
    return made;
  };
};

const nothing = (obstacle: Obstacle): HitCheck => ({ drums: [], faults: [], obstacle, grounds: null });

/**
 * Prepares a hearing of what a listener's path brings to a phone.
 * @param point where the phone is plugged in
 */
export const hearingOf = (setup: Setup, listener: Listener, point: HearingPoint): HitCheck => {
  if (hearsFoh(listener)) return nothing("audience");
  const bus = busOf(setup, listener);
  if (!bus) return nothing("no-bus");
  const microphones = microphonesOf(setup);
  const parts = mixedChannelsOf(setup, bus);
  const pieces = setup.kit.pieces.filter(
    (piece) => isStruck(piece) && parts.some(({ channel }) => microphones.isMeant(piece, channel)),
  );
  if (pieces.length === 0) return nothing("no-drum");
  const isChecked = (channel: Channel): boolean =>
    pieces.some((piece) => microphones.isMeant(piece, channel));
  const states = statesOf(setup, listener, bus, point, isChecked);
  const levels = parts.some(({ channel }) => microphones.isAbove(channel))
    ? OVERHEADS
    : OVERHEADS.slice(0, 1);
  const channels = new Map(setup.channels.map((channel) => [channel.id, channel]));
  const inAll = remembered((piece: Piece) =>
    levels.map(({ level }) => remembered(predictor(microphones, piece, level, WORLDS))),
  );
  const usual = levels.reduce((a, b) => (b.prior > a.prior ? b : a)).level;
  const inFew = remembered((piece: Piece) => {
    const predict = predictor(microphones, piece, usual, SKETCHED);
    return remembered((state: HeardState) => sketched(predict(state)));
  });
  // A drum without a microphone of its own is heard by the bleed into those of the others too.
  const owned = new Set(parts.map(({ channel }) => channel.piece));
  const named = new Map(states.map(({ id, fault, channel }) => [id, { id, fault, channel }]));
  return {
    drums: pieces.map(({ id }) => id),
    faults: [...named.values()],
    obstacle: null,
    grounds: {
      states,
      pieces,
      levels,
      touches: ({ channel }, piece) => {
        const culprit = channel === null ? undefined : channels.get(channel);
        return !culprit || !owned.has(piece.id) || microphones.isMeant(piece, culprit);
      },
      isLevelKnown: (piece) => microphones.loudestOf(piece) !== null,
      keep: keeper(),
      predict: (piece, level, state) => (inAll(piece)[level] as (state: HeardState) => HitPrediction)(state),
      sketch: (piece, state) => inFew(piece)(state),
    },
  };
};
