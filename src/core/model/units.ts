/** Level or level difference in decibels; −Infinity is silence. */
export type Db = number;
/** Amplitude ratio, 0 (silence) upward; negative only where a polarity is carried. */
export type Gain = number;
/** Position of a pan control: −1 house left, 0 centre, +1 house right. */
export type Pan = number;
/** Metres on the stage or round the throne. */
export type Metres = number;
/** Degrees; facings count from "towards the audience", positive to one's own left. */
export type Degrees = number;
/** Frequency in hertz. */
export type Hertz = number;
/** Duration in seconds. */
export type Seconds = number;
/** Left and right of one thing, in that order. */
export type Sides<T = Gain> = readonly [left: T, right: T];
/** Which side of a pair, or which side. */
export type Side = "left" | "right";
/** Where a bus comes out: one of its sides, or left + right plainly added. */
export type Outlet = Side | "mono";
