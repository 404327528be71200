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

/** The text of a code and its values. */
export const textOf = <Texts extends CodedTexts>(texts: Texts, said: CodeOf<Texts>): string =>
  // The table pairs each code with its own values, which the compiler cannot follow through the union.
  (texts[said.code] as (values: CodeOf<Texts>) => string)(said);
