import { expect } from "vitest";
import { NOT_WORDS } from "../not-words";

/** At least one of every code that can be said: one that is missing does not compile. */
export type OfEach<Said extends { readonly code: string }> = {
  readonly [Code in Said["code"]]: readonly Extract<Said, { readonly code: Code }>[];
};

/** Sentences as a snapshot holds them, one a line; each is whole. */
export const heldSentences = (texts: readonly string[]): string => {
  for (const text of texts) {
    expect(text).toMatch(/\.$/);
    expect(text).not.toMatch(/undefined|NaN|\[object|\.\./);
    expect(text).not.toMatch(NOT_WORDS);
  }
  return `\n${texts.join("\n")}\n`;
};
