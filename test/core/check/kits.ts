import { BLANK_BUS, BLANK_CHANNEL } from "../../../src/core/model/defaults";
import type { Bus, LawId, Listener, Piece, PieceKind, Setup } from "../../../src/core/model/setup";
import type { Pan } from "../../../src/core/model/units";
import { DESK, MONITOR_REST } from "../desk";

interface Place {
  readonly name: string;
  readonly kind: PieceKind;
  readonly x: number;
  readonly y: number;
  /** Channel pan of its microphone, as an audience sees a right-handed kit. */
  readonly pan: Pan;
}

/** A right-handed kit with pans for the audience. Invented, as a band might set them. */
const PLACES = {
  kick: { name: "Kick", kind: "kick", x: 0, y: 0.6, pan: 0 },
  snare: { name: "Snare", kind: "snare", x: -0.1, y: 0.3, pan: 0 },
  hat: { name: "Hat", kind: "hat", x: -0.5, y: 0.3, pan: 0.6 },
  tom1: { name: "Tom 1", kind: "tom", x: -0.2, y: 0.6, pan: 0.4 },
  tom2: { name: "Tom 2", kind: "tom", x: 0.2, y: 0.6, pan: -0.3 },
  tom3: { name: "Tom 3", kind: "tom", x: 0.4, y: 0.5, pan: -0.5 },
  floor: { name: "Floor tom", kind: "floor", x: 0.5, y: 0.25, pan: -0.7 },
  ride: { name: "Ride", kind: "ride", x: 0.65, y: 0.5, pan: -0.8 },
  crash: { name: "Crash", kind: "crash", x: -0.6, y: 0.7, pan: 0.8 },
  cowbell: { name: "Cowbell", kind: "percussion", x: 0.1, y: 0.7, pan: -0.2 },
  overLeft: { name: "Over left", kind: "overhead", x: -0.5, y: 0.5, pan: 1 },
  overRight: { name: "Over right", kind: "overhead", x: 0.5, y: 0.5, pan: -1 },
} satisfies { readonly [id: string]: Place };

type PlaceId = keyof typeof PLACES;

/** Which places have a microphone, by the number of drum microphones. */
export const KITS: { readonly [microphones: number]: readonly PlaceId[] } = {
  3: ["kick", "overLeft", "overRight"],
  4: ["kick", "snare", "overLeft", "overRight"],
  8: ["kick", "snare", "hat", "tom1", "tom2", "floor", "overLeft", "overRight"],
  10: ["kick", "snare", "hat", "tom1", "tom2", "floor", "ride", "crash", "overLeft", "overRight"],
  12: [
    "kick",
    "snare",
    "hat",
    "tom1",
    "tom2",
    "tom3",
    "floor",
    "ride",
    "crash",
    "cowbell",
    "overLeft",
    "overRight",
  ],
};

/** The pieces that stand there even without a microphone. */
const STANDING: readonly PlaceId[] = ["kick", "snare", "hat", "tom1", "floor", "ride", "crash"];

const pieceOf = (id: PlaceId): Piece => {
  const { name, kind, x, y } = PLACES[id];
  const limbs =
    kind === "overhead"
      ? (["whole"] as const)
      : kind === "kick"
        ? (["kick-foot"] as const)
        : (["hand"] as const);
  return { id, name, kind, x, y, limbs, player: "drummer" };
};

export const drummer: Listener = {
  id: "drummer",
  name: "Drummer",
  kind: "drummer",
  x: 0,
  y: 0,
  facing: 0,
  bus: "drums",
  flipped: false,
  mono: false,
};

const pair = (channels: readonly PlaceId[]): Bus => ({
  ...BLANK_BUS,
  id: "drums",
  name: "Drums",
  stereo: true,
  sends: channels.map((channel) => ({ channel, on: true, level: 0, tap: "post-fader" as const, pan: null })),
  swapped: true,
});

/** A setup with this many drum microphones in one pair, patched in reverse for the drummer in inputs 3 and 4 of 16. */
export const setupWith = (microphones: keyof typeof KITS, law: LawId): Setup => {
  const channels = KITS[microphones] ?? [];
  const places = [...new Set([...channels, ...STANDING])];
  const side = (side: "left" | "right") => ({
    feed: { kind: "bus", bus: "drums", side: side } as const,
    port: null,
    on: true,
    trim: 0,
  });
  const inputs = Array.from({ length: 16 }, (_, at) =>
    at === 2 ? side("right") : at === 3 ? side("left") : null,
  );
  return {
    kit: { hand: "right", yaw: 0, pieces: places.map(pieceOf) },
    desk: { ...DESK, law },
    channels: channels.map((id) => ({
      ...BLANK_CHANNEL,
      id,
      name: PLACES[id].name,
      kind: "drum",
      piece: id,
      pan: PLACES[id].pan,
    })),
    buses: [pair(channels)],
    listeners: [drummer],
    monitor: { inputCount: 16, inputs, maxInputDbu: 18, ...MONITOR_REST },
    preferences: { first: "drummer", fohFixed: true, inputsFixed: false, targetHeadroom: 6 },
    earphone: null,
    recording: null,
  };
};

/** A setup of many channels, every one at a piece of its own that can be struck: for the time a question takes. */
export const crowd = (channels: number): Setup => {
  const setup = setupWith(8, "sine");
  const ids = Array.from({ length: channels }, (_, at) => `piece ${at}`);
  const across = (at: number): number => (2 * at) / (channels - 1) - 1;
  const [channel] = setup.channels;
  const [bus] = setup.buses;
  if (!channel || !bus) throw new Error("No source to copy");
  return {
    ...setup,
    kit: {
      ...setup.kit,
      pieces: ids.map((id, at) => ({ ...pieceOf("tom1"), id, name: id, x: across(at) })),
    },
    channels: ids.map((id, at) => ({ ...channel, id, name: id, piece: id, pan: -across(at) })),
    buses: [
      {
        ...bus,
        sends: ids.map((id) => ({ channel: id, on: true, level: 0, tap: "post-fader" as const, pan: null })),
      },
    ],
  };
};
