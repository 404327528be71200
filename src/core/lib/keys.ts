/** The keys of a table that has one row for each of its kind. */
export const keysOf = <Key extends string>(table: { readonly [key in Key]: unknown }): readonly Key[] =>
  Object.keys(table) as Key[];
