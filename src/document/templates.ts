import { BLANK_BUS, BLANK_CHANNEL, BLANK_INPUT, BLANK_SEND } from "../core/model/defaults";
import type { Bus, Channel, Hand, Piece, PieceKind } from "../core/model/setup";
import type { Db, Pan } from "../core/model/units";
import { mirrorPan } from "../core/pan/notation";
import { BLANK_MONITOR, blankSetup, DRUMMER } from "./blank";
import { forHand, limbsOf, placeFor } from "./places";
import type { SetupFile } from "./schema";

/** A microphone of a template, as it is at a right-handed kit. */
interface Microphone {
  readonly name: string;
  readonly kind: PieceKind;
  /** The piece it stands at, where several do. */
  readonly at?: string;
  /** Channel pan, seen by the audience. */
  readonly pan: Pan;
  /** Level while playing and peak, dBFS: invented typical figures. */
  readonly level: Db;
  readonly peak: Db;
  readonly inverted?: boolean;
}

const KICK: Microphone = { name: "Kick", kind: "kick", pan: 0, level: -25, peak: -9 };
const SNARE: Microphone = { name: "Snare", kind: "snare", pan: 0, level: -26, peak: -8 };
const HAT: Microphone = { name: "Hat", kind: "hat", pan: 0.7, level: -35, peak: -18 };
const TOM_1: Microphone = { name: "Tom 1", kind: "tom", pan: 0.3, level: -30, peak: -11 };
const TOM_2: Microphone = { name: "Tom 2", kind: "tom", pan: -0.3, level: -30, peak: -11 };
const FLOOR: Microphone = { name: "Floor tom", kind: "floor", pan: -0.7, level: -29, peak: -10 };
const RIDE: Microphone = { name: "Ride", kind: "ride", pan: -0.5, level: -34, peak: -17 };
const OVERHEADS: readonly Microphone[] = [
  { name: "Overhead L", kind: "overhead", pan: -1, level: -29, peak: -13 },
  { name: "Overhead R", kind: "overhead", pan: 1, level: -29, peak: -13 },
];
const TWO_AT_SNARE: readonly Microphone[] = [
  { ...SNARE, name: "Snare top", at: "Snare" },
  { ...SNARE, name: "Snare bottom", at: "Snare", level: -33, peak: -15, inverted: true },
];
const TWO_AT_KICK: readonly Microphone[] = [
  { ...KICK, name: "Kick in", at: "Kick" },
  { ...KICK, name: "Kick out", at: "Kick", level: -28, peak: -12 },
];

/** Which microphones there are for each number of them; common practice, no source. */
const SETS = {
  3: [KICK, ...OVERHEADS],
  4: [KICK, SNARE, ...OVERHEADS],
  8: [KICK, SNARE, HAT, TOM_1, TOM_2, FLOOR, ...OVERHEADS],
  10: [KICK, ...TWO_AT_SNARE, HAT, TOM_1, TOM_2, FLOOR, RIDE, ...OVERHEADS],
  12: [
    ...TWO_AT_KICK,
    ...TWO_AT_SNARE,
    HAT,
    TOM_1,
    TOM_2,
    { ...FLOOR, name: "Floor tom 1" },
    { ...FLOOR, name: "Floor tom 2", pan: -0.8 },
    RIDE,
    ...OVERHEADS,
  ],
} as const satisfies { readonly [count: number]: readonly Microphone[] };

/** What stands at a kit with or without a microphone: the overheads hear it all; common practice, no source. */
const STANDING: readonly Pick<Microphone, "name" | "kind">[] = [
  KICK,
  SNARE,
  HAT,
  TOM_1,
  TOM_2,
  FLOOR,
  RIDE,
  { name: "Crash", kind: "crash" },
];

/** For how many drum microphones there is a template. */
export type MicrophoneCount = keyof typeof SETS;

/** The numbers of drum microphones there is a template for, rising. */
export const MICROPHONE_COUNTS: readonly MicrophoneCount[] = [3, 4, 8, 10, 12];

const pieceName = (microphone: Microphone): string => microphone.at ?? microphone.name;

/** The pieces at which the microphones stand, then those without one, each once, set up right-handed. */
const piecesFor = (microphones: readonly Microphone[]): readonly Piece[] => {
  const pieces: Piece[] = [];
  const stand = (name: string, kind: PieceKind): void => {
    const place = placeFor(kind, "right", pieces);
    pieces.push({
      id: `p${pieces.length + 1}`,
      name,
      kind,
      ...place,
      limbs: limbsOf(kind),
      player: "drummer",
    });
  };
  for (const microphone of microphones) {
    const name = pieceName(microphone);
    if (!pieces.some((p) => p.name === name)) stand(name, microphone.kind);
  }
  // "Floor tom 1" is a floor tom.
  for (const { name, kind } of STANDING) if (!pieces.some((p) => p.name.startsWith(name))) stand(name, kind);
  return pieces;
};

/** One channel a microphone; a piece that stands on the other side for this hand is panned there too. */
const channelFor = (microphone: Microphone, at: number, pieces: readonly Piece[], hand: Hand): Channel => {
  const piece = pieces.find((p) => p.name === pieceName(microphone));
  const mirrored = piece && forHand(piece, "right", hand) !== piece;
  return {
    ...BLANK_CHANNEL,
    id: `s${at + 1}`,
    name: microphone.name,
    numbers: [at + 1],
    kind: "drum",
    piece: piece?.id ?? null,
    pan: mirrored ? mirrorPan(microphone.pan) : microphone.pan,
    inverted: microphone.inverted ?? false,
    gatedRms: microphone.level,
    peak: microphone.peak,
  };
};

/** Level of every send of a template: leaves room for eight microphones and more. A design choice. */
const SEND_DB: Db = -6;

/**
 * A setup to begin one's own with: so many drum microphones in one pair, panned for the audience, patched into the
 * first two inputs, heard by the drummer. Places, pans and levels are invented typical ones (common practice, no source).
 */
export const templateSetup = (microphones: MicrophoneCount, hand: Hand): SetupFile => {
  const set: readonly Microphone[] = SETS[microphones];
  const pieces = piecesFor(set);
  const channels = set.map((microphone, at) => channelFor(microphone, at, pieces, hand));
  const drums: Bus = {
    ...BLANK_BUS,
    id: "m1",
    name: "Drums",
    numbers: [5, 6],
    stereo: true,
    sends: channels.map((channel) => ({ ...BLANK_SEND, channel: channel.id, level: SEND_DB })),
  };
  const blank = blankSetup(`${microphones} drum microphones`);
  const sides = (["left", "right"] as const).map((side) => ({
    ...BLANK_INPUT,
    feed: { kind: "bus", bus: drums.id, side } as const,
  }));
  return {
    ...blank,
    kit: { ...blank.kit, hand, pieces: pieces.map((piece) => forHand(piece, "right", hand)) },
    channels,
    buses: [drums],
    listeners: blank.listeners.map((l) => (l.id === DRUMMER.id ? { ...l, bus: drums.id } : l)),
    monitor: { ...BLANK_MONITOR, inputs: BLANK_MONITOR.inputs.map((_, at) => sides[at] ?? null) },
  };
};
