import { radians } from "../lib/angle";
import { LISTENER_KINDS } from "../model/kinds";
import type { Kit, Listener, Piece } from "../model/setup";
import type { Degrees, Metres } from "../model/units";
import type { EarPlace } from "./position";

/** A piece nearer than this to the middle line is in the middle. A design choice: a hand's width. */
const CENTRE_M: Metres = 0.12;
/** A listener turned closer than this to side-on with the kit has no left and right of it. A design choice. */
const SIDE_ON: Degrees = 20;
/** What a difference of two turns may be off by. */
const ROUNDING: Degrees = 1e-9;
/** What a place may be off by once it is turned. */
const ROUNDING_M: Metres = 1e-9;

/** Sine and cosine, exact at quarter turns so that a mirror is exact. */
const turn = (angle: Degrees): { readonly sin: number; readonly cos: number } => {
  const quarters = angle / 90;
  if (!Number.isInteger(quarters)) return { sin: Math.sin(radians(angle)), cos: Math.cos(radians(angle)) };
  const at = ((quarters % 4) + 4) % 4;
  return { sin: [0, 1, 0, -1][at] as number, cos: [1, 0, -1, 0][at] as number };
};

/** Metres from the throne. */
type Spot = Pick<Piece, "x" | "y">;

/** Between the kit and the stage plan. The drummer's right is house left: a mirror, turned, which is its own way back. */
const mirrored = ({ yaw }: Pick<Kit, "yaw">, { x, y }: Spot): Spot => {
  const { sin, cos } = turn(yaw);
  return { x: -x * cos + y * sin, y: x * sin + y * cos };
};

/** A place of the kit on the stage plan, from the throne: `x` to house right, `y` towards the audience. */
export const onStage = mirrored;

/** The other way: a place on the stage plan, from the throne, in the kit's own metres. */
export const offStage = mirrored;

/** The way a listener faces: the drummer with the throne, the audience towards the stage, others as set. */
export const facingOf = (kit: Kit, { kind, facing }: Pick<Listener, "kind" | "facing">): Degrees => {
  const { faces } = LISTENER_KINDS[kind];
  if (faces === "as set") return facing;
  return faces === "throne" ? kit.yaw : 180;
};

/**
 * How far a piece stands to a listener's right across their facing, metres from the throne; negative is left.
 * Exact mirror: the drummer's is the piece's own x whatever the yaw.
 */
export const offsetFor = (
  kit: Kit,
  listener: Pick<Listener, "kind" | "facing">,
  piece: Pick<Piece, "x" | "y">,
): Metres => {
  // Only the difference of the two turns matters, so the drummer's own is exact.
  const { sin, cos } = turn(facingOf(kit, listener) - kit.yaw);
  return piece.x * cos + piece.y * sin;
};

/** Whether a listener sees the kit side-on, so that its left and right are only nearer and farther. */
export const isSideOn = (kit: Kit, listener: Pick<Listener, "kind" | "facing">): boolean =>
  Math.abs((Math.abs(facingOf(kit, listener) - kit.yaw) % 180) - 90) < SIDE_ON - ROUNDING;

/** Whether an offset is in the middle; one at the limit is not, whatever the arithmetic makes of it. */
export const isMiddle = (offset: Metres): boolean => Math.abs(offset) < CENTRE_M - ROUNDING_M;

/** Side of an offset. */
export const placeOfOffset = (offset: Metres): EarPlace =>
  isMiddle(offset) ? "middle" : offset < 0 ? "left" : "right";
