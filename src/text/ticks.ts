import { isolated } from "../core/lib/direction";

/** What was said of something: its own words for a control that is set, for an input on the line check. */
interface Word {
  readonly control: string;
  readonly said: boolean | null;
  readonly at: string;
  readonly by: string;
}

const SAID = { true: "OK", false: "no signal", null: "tick taken off" } as const;

/** What was said: "OK", "no signal", "set", "tick taken off". */
export const formatSaid = ({ control, said }: Pick<Word, "control" | "said">): string =>
  said === true && control !== "line check" ? "set" : SAID[`${said}`];

/**
 * Who said what when: "OK: Jo, 18:20"; of nobody by name only the time.
 * @param time how a time is written
 */
export const describeWord = (word: Word, time: (at: string) => string): string =>
  `${formatSaid(word)}: ${[isolated(word.by), time(word.at)].filter(Boolean).join(", ")}`;
