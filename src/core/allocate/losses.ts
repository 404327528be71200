import { keysOf } from "../lib/keys";
/**
 * What an allocation can lose, worst first. The one objective: of two allocations the better is the one that loses less
 * of the worst thing on which they differ, however much it loses further down (lexicographic).
 * The order is common practice, no source; the last six only decide between equals, and nothing is put on an input for
 * its own sake.
 */
export const LOSSES = {
  unheard: "Somebody does not hear what they must: for each channel and musician.",
  "must-own-shared": "A channel that must have an input of its own shares one.",
  "sides-lost": "A stereo that must keep L/R is folded, or swapped where that was allowed.",
  "own-voice-shared": "A singer does not have their own voice apart.",
  "left-out": "A channel is on no input.",
  "families-share": "A channel shares an input with another family.",
  "sections-share": "A channel shares an input with another section of its family.",
  "image-folded": "What is panned across (the kit) had better be in stereo and is folded.",
  "own-shared": "A channel that had better have an input of its own shares one with its family.",
  "stereo-folded": "A stereo that had better stay one is folded.",
  "spare-own-shared": "A channel that would be apart with inputs to spare is not.",
  "not-all-apart": "Not every channel that could be apart is, but shares: counted once.",
  "own-input-lost": "A channel that has an input of its own now loses it.",
  "input-used": "An input is used.",
  "bus-made": "A bus is needed.",
  changed: "A channel that is heard now does not come in as it does: apart or in that bus, mono or stereo.",
  "channel-shares": "A channel is not alone, whatever it asks for.",
  "early-yields": "What stands early in the order shares or is folded: counted from the end of the order.",
} as const;

/** One thing that can be lost. */
export type LossCode = keyof typeof LOSSES;

/** How many times each thing is lost. */
export type Charges = { readonly [code in LossCode]?: number };

/** The codes, worst first. */
export const WORST_FIRST = keysOf(LOSSES);

/** Adds up charges. */
export const totalOf = (all: readonly Charges[]): Charges => {
  const total: { [code in LossCode]?: number } = {};
  for (const charges of all)
    for (const code of WORST_FIRST) {
      const count = charges[code];
      if (count) total[code] = (total[code] ?? 0) + count;
    }
  return total;
};

/** Less than zero where the first loses less. */
export const compareCharges = (a: Charges, b: Charges, order = WORST_FIRST): number => {
  for (const code of order) {
    const difference = (a[code] ?? 0) - (b[code] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
};

/** Charges as a few numbers that are added and compared one after the other. */
export interface Packing {
  readonly words: number;
  readonly pack: (charges: Charges) => readonly number[];
}

/**
 * Packs a lexicographic order into as few doubles as hold it exactly: each code is a digit whose base is one more than
 * it can ever count, so that no digit carries into the next, and no word exceeds 2^53.
 * @param most the largest count of each code in any allocation of the problem
 */
export const packing = (
  order: readonly LossCode[],
  most: { readonly [code in LossCode]: number },
): Packing => {
  const places = new Map<LossCode, { word: number; factor: number }>();
  let word = 0;
  let factor = 1;
  for (const code of [...order].reverse()) {
    if (factor * (most[code] + 1) > Number.MAX_SAFE_INTEGER) {
      word += 1;
      factor = 1;
    }
    places.set(code, { word, factor });
    factor *= most[code] + 1;
  }
  const words = word + 1;
  return {
    words,
    pack: (charges) => {
      const packed = new Array<number>(words).fill(0);
      for (const [code, place] of places) {
        const at = words - 1 - place.word;
        packed[at] = (packed[at] ?? 0) + place.factor * (charges[code] ?? 0);
      }
      return packed;
    },
  };
};
