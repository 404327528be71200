import { computed } from "@preact/signals";
import { once } from "../core/lib/memo";
import type { TickEntry } from "../document/schema";
import { current } from "../document/store";
import { logOf, wordsBySubject } from "../document/tick-log";
import { describeWord } from "../text/ticks";
import { capitalised } from "../text/words";

// The first format costs a slow phone a tenth of a second: made when it is wanted, not when this is loaded.
const hour = once(() => new Intl.DateTimeFormat("en-GB", { timeStyle: "short" }));
const day = once(() => new Intl.DateTimeFormat("en-GB", { day: "numeric", month: "short" }));

/** A time as it is written beside a tick: "18:20", of another day "4 May, 18:20". */
export const formatTime = (at: string): string => {
  const time = new Date(at);
  const isToday = time.toDateString() === new Date().toDateString();
  return `${isToday ? "" : `${day().format(time)}, `}${hour().format(time)}`;
};

/** What was said of something in the open setup, the latest first. */
export const wordsOn = computed(() => wordsBySubject(logOf(current.value)));

/** Who said what when, in one line. */
export const formatWords = (words: readonly TickEntry[]): string =>
  capitalised(words.map((word) => describeWord(word, formatTime)).join("; "));

/** Who said what when, under a line of a list. */
export const WhoTicked = ({ words }: { words: readonly TickEntry[] }) =>
  words.length === 0 ? null : <span class="small soft who">{formatWords(words)}</span>;
