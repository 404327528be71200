import type { ExtraColumn } from "../model/setup";

const key = (head: string): string => head.trim().toLowerCase();

/** Columns that the app has no field for, with what a list says of them over what was there; blank cells say nothing. */
export const withExtra = (
  before: readonly ExtraColumn[],
  says: readonly ExtraColumn[],
): readonly ExtraColumn[] => {
  const said = new Map(says.map((column) => [key(column.head), column]));
  const stays = before.map(({ head, value }) => {
    const here = said.get(key(head));
    said.delete(key(head));
    return { head, value: here?.value ?? value };
  });
  return [...stays, ...said.values()];
};

/** What stands under a head; "" where nothing does. */
export const extraUnder = (extra: readonly ExtraColumn[], head: string): string =>
  extra.find((column) => key(column.head) === key(head))?.value ?? "";

/** Further columns of two lines that become one channel: what differs as "a / b". */
export const joinedExtra = (
  first: readonly ExtraColumn[] = [],
  second: readonly ExtraColumn[] = [],
): readonly ExtraColumn[] =>
  withExtra(
    first,
    second.map(({ head, value }) => {
      const beside = extraUnder(first, head);
      return { head, value: beside === "" || beside === value ? value : `${beside} / ${value}` };
    }),
  );

/** All heads that channels have, each once, in the order in which they come. */
export const extraHeads = (
  rows: readonly { readonly extra: readonly ExtraColumn[] }[],
): readonly string[] => {
  const heads = new Map<string, string>();
  for (const { extra } of rows)
    for (const { head } of extra) if (!heads.has(key(head))) heads.set(key(head), head);
  return [...heads.values()];
};
