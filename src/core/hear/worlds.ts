import { HEIGHT, hearsWholeKit, pickupOf, SOUND } from "../check/pickup";
import { gainOf } from "../level/decibels";
import { remembered } from "../lib/memo";
import { polarity } from "../mix/bus";
import type { Channel, Id, Piece, PieceKind, Setup } from "../model/setup";
import type { Db, Gain, Metres, Seconds } from "../model/units";

/**
 * What nobody has entered decides how a drum comes through a bus: how much of it the other microphones pick up, and how
 * what arrives at several of them adds up. So a hit is thought of in many worlds, each with bleed of its own; the
 * likelihood of what was measured is its mean over them.
 */
export const WORLDS = 64;
/** Level of a hit in an overhead one metre away, against the drum's own microphone; one is true for the whole kit. */
export const OVERHEADS: readonly { readonly level: Db; readonly prior: number }[] = [
  { level: -18, prior: 0.25 },
  { level: -12, prior: 0.4 },
  { level: -6, prior: 0.35 },
];

/** Range of a level in dB, or of something else, all alike likely. */
type Range = readonly [low: Db, high: Db];
/** In other close microphones of the kit; common practice, no source. */
const BLEED: Range = [-23, -10];
/** In one that is gated, and how many are. Design choices. */
const GATED: Range = [-60, -30];
const GATES = 0.08;
/** In microphones elsewhere on the stage. A design choice. */
const ELSEWHERE: Range = [-60, -26];
/** How much a microphone's place may change its level, either way: its own drum's, an overhead's, a side of a stereo pair over the kit. */
const OWN: Range = [-1, 1];
const ABOVE: Range = [-2.5, 2.5];
const EITHER_SIDE: Range = [-6, 6];

/** From a drum to its own microphone, to the nearest of another, and to those elsewhere on the stage. Common practice, no source. */
const NEAR: Metres = 0.05;
const NEAREST_OTHER: Metres = 0.2;
const FAR: Metres = 3;
/** How much farther or nearer a microphone may be than its place in the plan, as a share. A design choice. */
const FARTHER = 0.25;

/**
 * What two microphones have of a drum adds up by phase as far as it is a tone, and what comes later is turned by that: the
 * pitch of a drum, and how much of it is a tone. Common practice, no source.
 */
interface Sound {
  readonly pitch: Range;
  readonly tone: Range;
}
const SOUNDS: Readonly<Partial<Record<PieceKind, Sound>>> = {
  kick: { pitch: [45, 90], tone: [0.6, 1] },
  floor: { pitch: [60, 130], tone: [0.6, 1] },
  tom: { pitch: [80, 220], tone: [0.6, 1] },
  snare: { pitch: [150, 300], tone: [0.1, 0.9] },
  percussion: { pitch: [200, 900], tone: [0.1, 0.9] },
};
const CYMBAL: Sound = { pitch: [1500, 6000], tone: [0, 0.4] };
/** How far rooms and skins turn what arrives, either way: a tenth of a turn. A design choice. */
const TURN = 0.2 * Math.PI;

/** A hit that rises evenly gains energy with the third power of time; a tone that swells with the fifth. */
const GROWTH: Range = [2, 5.5];

/** What a line of a channel has of a drum in one world. */
export interface LineInWorld {
  /** In phase with the drum's own microphone, and a quarter of a turn apart. */
  readonly real: Gain;
  readonly imaginary: Gain;
  /** When it arrives. */
  readonly after: Seconds;
}

/** A number 0…1 that seems to follow nothing, the same for the same key: no chance, so that the same hits say the same. */
const scattered = (...key: readonly number[]): number => {
  let hash = 0x9e3779b9;
  for (const part of key) {
    hash = Math.imul(hash ^ part, 0x85ebca6b);
    hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
    hash ^= hash >>> 16;
  }
  return (hash >>> 0) / 2 ** 32;
};

const share = ([low, high]: Range, part: number): number => low + (high - low) * part;
const within = (range: Range, part: number): Gain => gainOf(share(range, part));

/** Microphones as a drum sees them. */
export interface Microphones {
  /** Whether a channel hears the whole kit. */
  readonly isAbove: (channel: Channel) => boolean;
  /** Whether a channel is meant to pick up a drum: its own microphone, or one that hears the whole kit. */
  readonly isMeant: (piece: Piece, channel: Channel) => boolean;
  /** Peak of a drum in its loudest own microphone, dBFS; null where it has none or nobody knows. */
  readonly loudestOf: (piece: Piece) => Db | null;
  /** What a line has of a hit in a world, against the drum's loudest own microphone, by the level of the overheads. */
  readonly inWorld: (
    piece: Piece,
    channel: Channel,
    line: number,
    overheads: Db,
    world: number,
  ) => LineInWorld;
  /** Share of what two microphones have in common that adds up by phase in a world, 0…1: much of a kick, little of a cymbal. */
  readonly coherence: (piece: Piece, world: number) => number;
  /** With which power of time the energy of a hit grows as it begins in a world. */
  readonly growth: (piece: Piece, world: number) => number;
}

/** Who picks up what, where the setup says so as it says, else by chance. */
export const microphonesOf = (setup: Setup): Microphones => {
  const pickup = pickupOf(setup, () => 0);
  const places = new Map<Id | null, Piece>(setup.kit.pieces.map((piece) => [piece.id, piece]));
  const pieceKey = new Map(setup.kit.pieces.map((piece, at) => [piece.id, at]));
  const keyOf = ({ id }: Piece): number => pieceKey.get(id) ?? -1;
  const soundOf = ({ kind }: Piece): Sound => SOUNDS[kind] ?? CYMBAL;
  const channelKey = new Map(setup.channels.map((channel, at) => [channel.id, at]));
  const isAbove = (channel: Channel): boolean => hearsWholeKit(places.get(channel.piece));

  const loudestOf = remembered((piece: Piece): Db | null => {
    const peaks = setup.channels.flatMap((channel) =>
      channel.piece === piece.id ? (channel.peak ?? []) : [],
    );
    return peaks.length > 0 ? Math.max(...peaks) : null;
  });

  const level = (piece: Piece, channel: Channel, overheads: Db, random: number, other: number): Gain => {
    if (channel.piece === piece.id) {
      // Of two microphones of a drum the polarity that is switched is the one that makes them agree.
      const softer = channel.peak === null ? 0 : channel.peak - (loudestOf(piece) ?? channel.peak);
      return polarity(channel.inverted) * gainOf(softer) * within(OWN, random);
    }
    if (isAbove(channel))
      return channel.lines === 2
        ? gainOf(overheads) * within(EITHER_SIDE, random)
        : pickup(piece, channel, overheads) * within(ABOVE, random);
    if (!places.has(channel.piece)) return within(ELSEWHERE, random);
    return within(other < GATES ? GATED : BLEED, random);
  };

  const distance = (piece: Piece, { piece: id }: Channel): Metres => {
    const place = places.get(id);
    if (!place) return FAR;
    const height = hearsWholeKit(place) ? HEIGHT : 0;
    return Math.max(NEAREST_OTHER, Math.hypot(place.x - piece.x, place.y - piece.y, height));
  };

  return {
    loudestOf,
    isAbove,
    isMeant: (piece, channel) => channel.piece === piece.id || isAbove(channel),
    inWorld: (piece, channel, line, overheads, world) => {
      const key = [keyOf(piece), channelKey.get(channel.id) ?? -1, line, world] as const;
      const gain = level(piece, channel, overheads, scattered(1, ...key), scattered(2, ...key));
      const isOwn = channel.piece === piece.id;
      const away = isOwn ? NEAR : distance(piece, channel);
      const spread = 1 + FARTHER * (2 * scattered(5, ...key) - 1);
      const after = (away * spread) / SOUND;
      const pitch = share(soundOf(piece).pitch, scattered(7, keyOf(piece), world));
      const turn = 2 * Math.PI * pitch * after + TURN * (2 * scattered(3, ...key) - 1);
      return { real: gain * Math.cos(turn), imaginary: gain * Math.sin(turn), after };
    },
    coherence: (piece, world) => share(soundOf(piece).tone, scattered(4, keyOf(piece), world)),
    growth: (piece, world) => share(GROWTH, scattered(6, keyOf(piece), world)),
  };
};
