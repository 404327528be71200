import { isolated } from "../core/lib/direction";
import type { Listener } from "../core/model/setup";
import { mixerName } from "./names";
import { formatCount, formatList } from "./words";

/** What was said of something: its own words for a control that is set, for an input on the line check. */
interface Word {
  readonly control: string;
  readonly said: boolean | null;
  readonly at: string;
  readonly by: string;
}

const SAID = { true: "OK", false: "no signal", null: "unticked" } as const;

/** What was said: "OK", "no signal", "set", "unticked". */
export const formatSaid = ({ control, said }: Pick<Word, "control" | "said">): string =>
  said === true && control !== "line check" ? "set" : SAID[`${said}`];

/**
 * Who said what when: "OK: Jo, 18:20"; of nobody by name only the time.
 * @param time how a time is written
 */
export const describeWord = (word: Word, time: (at: string) => string): string =>
  `${formatSaid(word)}: ${[isolated(word.by), time(word.at)].filter(Boolean).join(", ")}`;

/** At whose mixers an input has no signal; "" where it has one at each. */
export const describeSilent = (who: readonly Pick<Listener, "name">[]): string =>
  who.length === 0 ? "" : `No signal at ${formatList(who.map(mixerName))}`;

const parts = (counts: readonly (readonly [count: number, where: string])[]): string =>
  formatList(counts.filter(([count]) => count > 0).map(([count, where]) => `${count} ${where}`));

/** What came back from a helper: "By Ada: 8 of the line check and 4 of the desk list." */
export const describeTicks = (ticks: readonly Word[]): string => {
  if (ticks.length === 0) return "There are no ticks in it.";
  const line = ticks.filter((t) => t.control === "line check").length;
  const names = [...new Set(ticks.map((t) => isolated(t.by)).filter(Boolean))];
  const says = parts([
    [line, "of the line check"],
    [ticks.length - line, "of the desk list"],
  ]);
  return names.length === 0 ? `${says}.` : `By ${formatList(names)}: ${says}.`;
};

/** What was merged, and how much of it is about what is not there: "12 ticks merged". */
export const describeMerged = (merged: number, leftOut: number): string =>
  `${formatCount(merged, "tick")} merged${leftOut > 0 ? `; ${leftOut} left out: the plan has changed there` : ""}`;
