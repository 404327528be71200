import type { Id } from "../core/model/setup";

/** A thing with an id of its own. */
interface Keyed {
  readonly id: Id;
}

/** A thing with a patch over it; the very same object when nothing differs. */
export const amend = <T extends object>(thing: T, patch: Partial<NoInfer<T>>): T =>
  (Object.keys(patch) as (keyof T)[]).every((key) => Object.is(thing[key], patch[key]))
    ? thing
    : { ...thing, ...patch };

/** A list with every item through a function; the very same list when no item changes. */
export const mapped = <T>(list: readonly T[], change: (item: T, at: number) => T): readonly T[] => {
  const next = list.map(change);
  return next.every((item, at) => item === list[at]) ? list : next;
};

/** A list with the items that pass; the very same list when all do. */
export const kept = <T>(list: readonly T[], passes: (item: T, at: number) => boolean): readonly T[] => {
  const next = list.filter(passes);
  return next.length === list.length ? list : next;
};

/** A list with one item amended. */
export const amendIn = <T extends Keyed>(
  list: readonly T[],
  id: Id,
  patch: Partial<Omit<T, "id">>,
): readonly T[] => mapped(list, (item) => (item.id === id ? amend(item, patch as Partial<T>) : item));

/** A list with something put behind one of its items. */
export const insertAfter = <T extends Keyed>(list: readonly T[], id: Id, item: T): readonly T[] =>
  list.flatMap((each) => (each.id === id ? [each, item] : [each]));

/** A list with one item moved to the other side of another; the very same list when one of them is not in it. */
export const movePast = <T extends Keyed>(list: readonly T[], id: Id, past: Id): readonly T[] => {
  const item = list.find((each) => each.id === id);
  const to = list.findIndex((each) => each.id === past);
  if (!item || to < 0 || id === past) return list;
  const rest = list.filter((each) => each !== item);
  return [...rest.slice(0, to), item, ...rest.slice(to)];
};

/** Whether two things say the same, all the way down; parts that they share are not looked into. */
export const alike = (a: unknown, b: unknown): boolean => {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  const [left, right] = [Object.entries(a), new Map(Object.entries(b))];
  return (
    left.length === right.size && left.every(([key, value]) => right.has(key) && alike(value, right.get(key)))
  );
};
