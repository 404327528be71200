const TURNS = /[\u202A-\u202E\u2066-\u2069]/;
const OPENS = /[\u202A\u202B\u202D\u202E]/;
const OPENS_APART = /[\u2066-\u2068]/;
/** End what the characters above began: PDF and PDI of the Unicode bidirectional algorithm. */
const ENDS = "\u202C";
const ENDS_APART = "\u2069";

const count = (text: string, of: RegExp | string): number => text.split(of).length - 1;

/**
 * A text that a person or a file gave, for a sentence: where it turns the direction of writing and does not turn
 * it back, that is done at its end, so that the words behind it stand as they should. Any other text is itself.
 * Source: Unicode Standard Annex 9, explicit formatting characters; a PDI also ends what was begun within it.
 */
export const isolated = (text: string): string => {
  if (!TURNS.test(text)) return text;
  const apart = Math.max(0, count(text, OPENS_APART) - count(text, ENDS_APART));
  const open = Math.max(0, count(text, OPENS) - count(text, ENDS));
  return text + ENDS_APART.repeat(apart) + ENDS.repeat(open);
};

/** A name or text from outside, whole, in quotation marks for a sentence. */
export const quoted = (text: string): string => `“${isolated(text)}”`;

/** Letters of a text from outside that a sentence shows; what a file or a paste brings may be endless. */
const SHOWN = 24;

/** As much of such a text as `excerpt` looks at. */
export const beginning = (text: string): string =>
  [...text.slice(0, 2 * (SHOWN + 1))].slice(0, SHOWN + 1).join("");

/** The beginning of such a text. */
export const excerpt = (text: string): string => {
  // A letter takes at most two units, so these hold one more than is shown.
  const letters = [...text.slice(0, 2 * (SHOWN + 1))];
  return isolated(letters.length > SHOWN ? `${letters.slice(0, SHOWN).join("")}…` : text);
};
