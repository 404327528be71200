import type { Db } from "./units";

/** Lowest level of a send, dB; under it there is only off. A design choice: far under every noise. */
export const LOWEST_SEND: Db = -120;
/** Lowest trim of a bus, side or input, dB. A design choice. */
export const LOWEST_TRIM: Db = -60;
/** Highest trim of a bus, side or input, dB. A design choice. */
export const HIGHEST_TRIM: Db = 20;

/** Characters that a further column of an imported list holds, a channel. A design choice. */
export const LONGEST_EXTRA = 200;
