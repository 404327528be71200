import { busOf } from "../mix/ear-gains";
import { pairOrder } from "../mix/pair-order";
import type { Id, Listener, Setup } from "../model/setup";
import type { Sides } from "../model/units";
import type { Image, ImageRow } from "./image";
import { type SwitchedOff, switchedOff } from "./switched-off";

/** The first thing to know of what a listener gets; what stands above in the list hides what stands below. */
export type ImageCode =
  /** Listens to no bus. */
  | "no bus"
  /** Nothing is sent, or everything is muted. */
  | "silent"
  | "switched off"
  /** Left and right mean nothing from there. */
  | "side-on"
  /** Both ears get the same: at the listener's own mixer, by a mono bus, by a bus folded to mono. */
  | "mono mixer"
  | "mono bus"
  | "folded bus"
  /** No channel is placed at the kit. */
  | "nothing placed"
  | "one placed"
  /** More than half of what stands at a side is on the wrong one. */
  | "swapped"
  /** Some are on the wrong side. */
  | "mixed up"
  | "all belong in the centre"
  | "all centred"
  | "right"
  /** None wrong, some centred that should not be. */
  | "partly centred";

/** What one listener gets, judged. */
export interface ImageVerdict {
  readonly code: ImageCode;
  readonly hears: Image["hears"];
  readonly bus: Id | null;
  /** Rows of the channels that can be judged, in the order of the image. */
  readonly placed: readonly ImageRow[];
  readonly wrong: readonly Id[];
  readonly centred: readonly Id[];
  /** How many channels of a bus have no place at the kit; at FOH there always are some, and none count. */
  readonly unplaced: number;
  /** How many of them are drums: those belong somewhere at the kit, and nobody has said where. */
  readonly drumsUnplaced: number;
  /** Channels that must keep L/R and have lost it. */
  readonly sidesLost: readonly Id[];
  /** The bus has no input yet: this is what will be heard. */
  readonly unassigned: boolean;
  readonly off: SwitchedOff | null;
  /** Whether anything arrives in the left and the right ear. */
  readonly heardIn: Sides<boolean>;
}

/** Of channels that stand somewhere: how they stand and are heard. */
const placementCode = (placed: readonly ImageRow[], wrong: number, centred: number): ImageCode => {
  if (placed.length === 1) return "one placed";
  if (wrong > 0) {
    const atSides = placed.filter((r) => r.stands !== "middle").length;
    return wrong * 2 > atSides ? "swapped" : "mixed up";
  }
  if (placed.every((r) => r.heard === "middle"))
    return centred === 0 ? "all belong in the centre" : "all centred";
  return centred === 0 ? "right" : "partly centred";
};

/** What a listener gets, judged, whatever the case. */
export const imageVerdict = (setup: Setup, listener: Listener, image: Image): ImageVerdict => {
  const heard = image.hears === "bus" ? busOf(setup, listener) : undefined;
  const placed = image.rows.filter((r) => r.placement !== "unplaced");
  const drums = new Set(
    setup.channels.filter(({ kind, piece }) => kind === "drum" && piece === null).map(({ id }) => id),
  );
  const idsOf = (rows: readonly ImageRow[]): Id[] => rows.map((r) => r.channel);
  const wrong = idsOf(placed.filter((r) => r.placement === "wrong"));
  const centred = idsOf(placed.filter((r) => r.placement === "centred"));
  const off = heard ? switchedOff(setup.monitor, heard) : null;
  const code = (): ImageCode => {
    if (image.hears === "nothing") return "no bus";
    if (image.rows.length === 0) return "silent";
    // Before a side is on again, nothing else is worth a word.
    if (off) return "switched off";
    if (image.sideOn) return "side-on";
    if (listener.mono) return "mono mixer";
    if (heard && !heard.stereo) return "mono bus";
    if (heard?.folded) return "folded bus";
    return placed.length === 0 ? "nothing placed" : placementCode(placed, wrong.length, centred.length);
  };
  return {
    code: code(),
    hears: image.hears,
    bus: heard?.id ?? null,
    placed,
    wrong,
    centred,
    unplaced: heard ? image.rows.length - placed.length : 0,
    drumsUnplaced: heard ? image.rows.filter((r) => drums.has(r.channel)).length : 0,
    sidesLost: idsOf(image.rows.filter((r) => r.sidesLost)),
    unassigned: heard !== undefined && pairOrder(setup.monitor, heard) === "unassigned",
    off,
    heardIn: [image.rows.some((r) => r.sides[0] > 0), image.rows.some((r) => r.sides[1] > 0)],
  };
};
