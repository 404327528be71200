import type { Id } from "./setup";

/** What an id begins with: channel, piece, sum (mix), listener. */
export type Prefix = "s" | "p" | "m" | "l";

/** The next free id of a list: no chance, so that the same commands give the same file. */
export const nextId = (prefix: Prefix, list: readonly { readonly id: Id }[]): Id => {
  const taken = new Set(list.map((item) => item.id));
  let n = list.length + 1;
  while (taken.has(`${prefix}${n}`)) n += 1;
  return `${prefix}${n}`;
};

/** A name that gets a number grows up to so many characters, as many as can be typed; a longer one stays as long as it is. */
const ROOM = 80;

/**
 * A name that no other in the list has: itself, else with the next free number. What has no name stays without.
 * @example uniqueName("Tom 2", [{ name: "Tom 1" }, { name: "Tom 2" }]) // "Tom 3"
 */
export const uniqueName = (name: string, list: readonly { readonly name: string }[]): string => {
  const taken = new Set(list.map((item) => item.name));
  if (name === "" || !taken.has(name)) return name;
  const [, stem = name, number] = /^(.*) (\d{1,6})$/.exec(name) ?? [];
  const most = Math.max([...name].length, ROOM);
  const letters = [...stem];
  const numbered = (n: number): string => `${letters.slice(0, most - 1 - String(n).length).join("")} ${n}`;
  let n = Number(number ?? 1) + 1;
  while (taken.has(numbered(n))) n += 1;
  return numbered(n);
};
