/** A name taken apart: words in one spelling each, numbers, and a side. */
export interface Words {
  readonly words: ReadonlySet<string>;
  readonly numbers: ReadonlySet<number>;
  /** Number in front of a name: the track's or channel's. */
  readonly running: number | null;
  readonly side: "left" | "right" | null;
}

/** Spellings met on drum recordings, longest first where one holds another. Common practice, no source. */
const SPELLINGS: readonly (readonly [spelling: RegExp, word: string])[] = [
  [/\b(bass ?drum|kick ?drum|kik|kick|kck|bd|kd|gran ?cassa)\b/g, " kick "],
  [/\b(snare ?drum|snare|snr|sn|sd)\b/g, " snare "],
  [/\b(hi ?hats?|high ?hats?|hats?|hh)\b/g, " hat "],
  [/\b(floor ?toms?|flr|floor|ft)\b/g, " floor tom "],
  [/\b(rack ?toms?|rack|rt|toms?|tm|t)\b/g, " tom "],
  [/\b(over ?heads?|ovhd|ovh|oh|ohs)\b/g, " overhead "],
  [/\b(ride|rd)\b/g, " ride "],
  [/\b(crash|cr)\b/g, " crash "],
  [/\b(rooms?|rm|amb|ambience)\b/g, " room "],
  [/\b(percussion|perc|congas?|bongos?)\b/g, " percussion "],
  [/\b(vocals?|vox|voc|voice|singer)\b/g, " voice "],
  [/\b(guitars?|gtr|git)\b/g, " guitar "],
  [/\b(keyboards?|keys?|piano|organ|synth)\b/g, " keys "],
  [/\b(click|metronome|clk)\b/g, " click "],
  [/\b(playback|backing|tracks|pb)\b/g, " playback "],
  [/\b(bottom|btm|bot|under)\b/g, " bottom "],
  [/\b(inside)\b/g, " in "],
  [/\b(outside)\b/g, " out "],
];

/** Words that say nothing of what was recorded. */
const EMPTY = new Set([
  "wav",
  "mic",
  "mics",
  "track",
  "audio",
  "chan",
  "channel",
  "ch",
  "mono",
  "stereo",
  "take",
  "drum",
  "the",
]);

const LEFT = new Set(["l", "left", "lt"]);
const RIGHT = new Set(["r", "right", "rt"]);

/** Letters and digits apart, both cases alike, "OHL" as overhead and left. */
const spread = (name: string): string =>
  name
    .replace(/\.[a-z0-9]{2,4}$/i, "")
    .replace(/([a-z])([A-Z])/g, "$1 $2")
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .replace(/(\p{L})(\p{N})/gu, "$1 $2")
    .replace(/(\p{N})(\p{L})/gu, "$1 $2")
    .replace(/\b(oh|rm|room|ovh|tom|keys|gtr)([lr])\b/g, "$1 $2");

/**
 * Takes a name of a file or channel apart.
 * @example wordsOf("07_OHL.wav") // words: overhead; running: 7; side: left
 */
export const wordsOf = (name: string): Words => {
  let side: Words["side"] = null;
  let bare = spread(name)
    .split(" ")
    .filter((w) => w !== "");
  const running = bare.length > 1 && /^\d+$/.test(bare[0] ?? "") ? Number(bare[0]) : null;
  if (running !== null) bare = bare.slice(1);
  // A tom may be called "RT" (rack tom); a side stands alone, at the end.
  const last = bare.at(-1) ?? "";
  if (bare.length > 1 && (LEFT.has(last) || RIGHT.has(last))) {
    side = LEFT.has(last) ? "left" : "right";
    bare = bare.slice(0, -1);
  }
  let text = ` ${bare.join(" ")} `;
  for (const [spelling, word] of SPELLINGS) text = text.replace(spelling, word);
  const words = new Set<string>();
  const numbers = new Set<number>();
  for (const word of text.split(" ")) {
    if (word === "" || EMPTY.has(word)) continue;
    if (/^\d+$/.test(word)) numbers.add(Number(word));
    else words.add(word);
  }
  return { words, numbers, running, side };
};
