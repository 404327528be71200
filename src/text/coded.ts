/** Texts by code, each made of the values of its code. */
export interface CodedTexts {
  readonly [code: string]: (values: never) => string;
}

type ValuesOf<Text> = Text extends (values: infer Values) => string ? Values : never;

/**
 * What can be said by a table of texts: a code and its values. A room gives no other, so that a code without its text
 * does not compile.
 */
export type CodeOf<Texts extends CodedTexts> = {
  [Code in keyof Texts]: { readonly code: Code } & (unknown extends ValuesOf<Texts[Code]>
    ? unknown
    : ValuesOf<Texts[Code]>);
}[keyof Texts];

/** A text for each code of something that a room gives, made of the values of its code and of what else is at hand. */
export type TextsOf<Said extends { readonly code: string }, More extends readonly unknown[] = []> = {
  readonly [Code in Said["code"]]: (values: Extract<Said, { readonly code: Code }>, ...more: More) => string;
};

/** The text of a code and its values. */
export const textOf = <Said extends { readonly code: string }, More extends readonly unknown[]>(
  texts: TextsOf<Said, More>,
  said: Said,
  ...more: More
): string =>
  // The table pairs each code with its own values, which the compiler cannot follow through the union.
  (texts[said.code as Said["code"]] as (values: Said, ...more: More) => string)(said, ...more);
