/** The numbers of a channel and the name without them. */
export interface Numbered {
  readonly name: string;
  /** As they stand; none, one, two of a stereo channel, or more. */
  readonly channels: readonly number[];
}

/** More channels than any desk has: above it a number is part of the name ("808 Kick"). A design choice. */
const MOST_CHANNELS = 512;
/** What a cell of channel numbers may say: all that three digits can. */
const MOST_IN_CELL = 999;
/** A pair of higher numbers behind a name is the channel's; "Toms 1/2" counts toms. A design choice. */
const MOST_COUNTED = 4;

const NUMBER = "(\\d{1,3})(?:\\s*([-–/+&])\\s*(\\d{1,3}))?(?!\\d)";
const CH = "(?:\\bch(?:an(?:nel)?)?\\b\\.?[\\s-]*|\\bch(?=\\d)|#\\s*)";
/** In front, with or without "Ch" before: "12 Bass", "12. Bass", "12_Bass", "Ch 12: Bass"; no "12-string", no "10″ tom". */
const IN_FRONT = new RegExp(`^${CH}?${NUMBER}(?!-str)(?:\\s*[-–—_.:,)|]\\s*|\\s+)(?=\\S)`, "iu");
/** Anywhere, with "Ch" or "#" before, in brackets or not. */
const NAMED = new RegExp(`[([]?${CH}${NUMBER}[)\\]]?`, "iu");
/** Two neighbours at the end. */
const BEHIND = /[([]?\b(\d{1,3})\s*([-–/+&])\s*(\d{1,3})[)\]]?\.?$/u;
/** Phantom power, which says nothing of what the input is. */
const PHANTOM = /\b48 ?v\b/giu;

const numbersOf = ([, first, between = "", last]: RegExpExecArray, most: number): number[] => {
  const [from, to] = [Number(first), Number(last ?? first)];
  if (from < 1 || to < 1 || Math.max(from, to) > most) return [];
  if (to === from) return [from];
  if (!/[-–]/u.test(between)) return [from, to];
  if (to < from) return [from];
  return Array.from({ length: to - from + 1 }, (_, i) => from + i);
};

/** Takes the channel's numbers off a line; a line of numbers alone is a name. */
export const channelNumbers = (typed: string): Numbered => {
  const line = typed.normalize("NFC").replace(PHANTOM, "").trim();
  const behind = BEHIND.exec(line);
  const isPair = behind && Number(behind[3]) === Number(behind[1]) + 1 && Number(behind[1]) > MOST_COUNTED;
  for (const found of [IN_FRONT.exec(line), NAMED.exec(line), isPair ? behind : null]) {
    if (!found) continue;
    const name = (line.slice(0, found.index) + line.slice(found.index + found[0].length)).trim();
    const channels = numbersOf(found, MOST_CHANNELS);
    if (channels.length > 0 && /\p{L}/u.test(name)) return { name, channels };
  }
  return { name: line || typed.trim(), channels: [] };
};

const CELL = new RegExp(`^${CH}?${NUMBER}$`, "iu");

/** The numbers that a cell of a column of channel numbers says: "12", "13-14", "14 & 11"; null where it says none. */
export const channelCell = (cell: string): readonly number[] | null => {
  const found = CELL.exec(cell.trim());
  const channels = found ? numbersOf(found, MOST_IN_CELL) : [];
  return channels.length > 0 ? channels : null;
};
