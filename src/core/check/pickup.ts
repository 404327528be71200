import { gainOf } from "../level/decibels";
import { mixedChannelsOf } from "../mix/bus";
import { isStruck } from "../model/kinds";
import type { Bus, Channel, Id, Piece, Setup } from "../model/setup";
import type { Db, Gain, Metres } from "../model/units";

/**
 * How loud an overhead one metre away has a drum, against the drum's own microphone, in the bus. Nobody enters it, so
 * it is inferred with the fault: as usual, or loud. A design choice.
 */
export const OVERHEAD_LEVELS: readonly { readonly level: Db; readonly prior: number }[] = [
  { level: -16, prior: 0.6 },
  { level: -6, prior: 0.4 },
];

/** Height of overheads above the drums. Common practice, no source. */
export const HEIGHT: Metres = 0.9;
/** Speed of sound in air at 20 °C, metres in a second; textbook. */
export const SOUND = 343;
/**
 * What comes later counts as softer (law of the first wavefront; Wallach, Newman and Rosenzweig 1949, from memory);
 * how much, a design choice: a millisecond as 5 dB, no more than 8 dB.
 */
const LATER_DB_PER_MS = 5;
const LATER_MOST: Db = 8;

/** Whether a microphone place hears the whole kit. */
export const hearsWholeKit = (piece: Piece | undefined): piece is Piece =>
  piece?.limbs.includes("whole") ?? false;

const distance = (a: Piece, b: Piece): Metres => Math.hypot(a.x - b.x, a.y - b.y, HEIGHT);

const laterDb = (metres: Metres): Db => Math.min(LATER_MOST, (metres / SOUND) * 1000 * LATER_DB_PER_MS);

/** Gain with which a channel picks up a drum: 1 by its own microphone, less from above, 0 not at all. */
export type Pickup = (piece: Piece, channel: Channel, overheads: Db) => Gain;

/**
 * Who picks up what, from the places of the kit: a microphone its own drum; an overhead every drum, by distance, and
 * less where another overhead has it earlier.
 * A stereo channel over the kit picks up nothing: nobody has said which of its sides is on which side.
 * @param later how much softer what comes so many metres later counts: for ears as they hear, for meters not at all
 */
export const pickupOf = (setup: Setup, later: (metres: Metres) => Db = laterDb): Pickup => {
  const places = new Map<Id, Piece>(setup.kit.pieces.map((p) => [p.id, p]));
  const placeOf = (channel: Channel): Piece | undefined =>
    channel.piece === null ? undefined : places.get(channel.piece);
  const above = setup.channels
    .filter((s) => s.lines === 1)
    .map(placeOf)
    .filter(hearsWholeKit);
  const nearest = new Map<Id, Metres>(
    setup.kit.pieces.map((p) => [p.id, Math.min(...above.map((place) => distance(p, place)))]),
  );
  return (piece, channel, overheads) => {
    if (channel.piece === piece.id) return 1;
    const place = placeOf(channel);
    if (!hearsWholeKit(place) || channel.lines === 2) return 0;
    const away = distance(piece, place);
    return gainOf(overheads - later(away - (nearest.get(piece.id) ?? away))) / away;
  };
};

/** The drums that can be hit to check a bus: all that somebody strikes and that sound in it. */
export const drumsIn = (setup: Setup, bus: Bus, pickup: Pickup): Piece[] => {
  const parts = mixedChannelsOf(setup, bus);
  return setup.kit.pieces.filter(
    (piece) => isStruck(piece) && parts.some(({ channel }) => pickup(piece, channel, 0) > 0),
  );
};
