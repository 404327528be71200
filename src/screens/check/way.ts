import { signal } from "@preact/signals";

/** Who says where a hit is: somebody’s ears, or an audio input of this device. */
export type CheckWay = "ear" | "input";

/** The way that was chosen last. */
export const checkWay = signal<CheckWay>("ear");

/** A check by input is under way and takes the whole screen. */
export const isHearing = signal(false);
