/** The little of the library that is used; its published types would bring those of another platform into this room. */
declare module "papaparse" {
  /** What was read. */
  interface Parsed {
    readonly data: string[][];
    readonly errors: readonly { readonly type: string; readonly code: string; readonly row?: number }[];
    readonly meta: { readonly delimiter: string; readonly truncated: boolean };
  }
  interface ParseSettings {
    readonly delimiter: string;
    readonly newline: string;
    /** Rows at most; 0 is all. */
    readonly preview: number;
    readonly delimitersToGuess?: readonly string[];
  }
  interface Papa {
    parse(text: string, settings: ParseSettings): Parsed;
    unparse(
      rows: readonly (readonly string[])[],
      settings: { readonly delimiter: string; readonly newline: string },
    ): string;
  }
  const papa: Papa;
  export default papa;
}
