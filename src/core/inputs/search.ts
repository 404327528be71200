/** One way to free inputs of one thing. */
export interface Choice<T> {
  readonly frees: number;
  /** More than 0. */
  readonly cost: number;
  readonly move: T;
}

/** One thing in the inputs: at most one choice is made of it, or it joins the one group of its family. */
export interface SearchItem<T> {
  readonly choices: readonly Choice<T>[];
  /** Things of one family may go into one group, which keeps one input; null where it can't. */
  readonly join: { readonly family: string; readonly frees: number; readonly cost: number } | null;
}

/** A set of choices. */
export interface SearchResult<T> {
  readonly cost: number;
  readonly frees: number;
  readonly moves: readonly T[];
  /** By group: indexes of the items in it, at least two. */
  readonly groups: readonly (readonly number[])[];
}

type Picks<T> = readonly { readonly item: number; readonly choice: Choice<T> | "join" }[];

/** A group has to have two members: how many the open one has, two standing for more. */
const MEMBERS = 3;

const familyOf = <T>(item: SearchItem<T> | undefined): string | null => item?.join?.family ?? null;

/** Whether nothing of it could be left undone. */
const isLean = <T>(
  found: SearchResult<T>,
  picks: Picks<T>,
  items: readonly SearchItem<T>[],
  needed: number,
): boolean => {
  const spare = found.frees - needed;
  const joined = (item: number): number => items[item]?.join?.frees ?? 0;
  return (
    picks.every(({ choice }) => choice === "join" || choice.frees > spare) &&
    found.groups.every((group) =>
      group.length > 2
        ? group.every((item) => joined(item) > spare)
        : group.reduce((sum, item) => sum + joined(item), -1) > spare,
    )
  );
};

const foundOf = <T>(
  picks: Picks<T>,
  items: readonly SearchItem<T>[],
  cost: number,
  frees: number,
): SearchResult<T> => {
  const groups = new Map<string | null, number[]>();
  const moves: T[] = [];
  for (const { item, choice } of picks) {
    const family = familyOf(items[item]);
    if (choice === "join") groups.set(family, [...(groups.get(family) ?? []), item]);
    else moves.push(choice.move);
  }
  return { cost, frees, moves, groups: [...groups.values()] };
};

/**
 * The cheapest sets of choices that free at least so many inputs, of which none could be left out, cheapest first.
 * Exact: a table holds the least cost of everything still to come, and what can't beat the worst set kept is not tried.
 * @param items those of one family one after the other
 * @param newGroup cost of each group
 * @param most how many sets at most
 */
export const cheapest = <T>(
  items: readonly SearchItem<T>[],
  needed: number,
  newGroup: number,
  most: number,
): SearchResult<T>[] => {
  const width = needed + 1;
  const least = Array.from({ length: items.length + 1 }, () =>
    Array<number>(MEMBERS * width).fill(Number.POSITIVE_INFINITY),
  );
  /** Whether an item, or the end, is of another family than the one before. */
  const begins = (item: number): boolean => familyOf(items[item]) !== familyOf(items[item - 1]);
  /** Least cost from an item on, with so many members in the open group and so many inputs still to free. */
  const still = (item: number, members: number, missing: number): number => {
    const isNew = begins(item);
    if (isNew && members === 1) return Number.POSITIVE_INFINITY;
    return least[item]?.[(isNew ? 0 : members) * width + Math.max(0, missing)] ?? Number.POSITIVE_INFINITY;
  };
  const ways = (at: number, members: number) => {
    const { choices, join } = items[at] as SearchItem<T>;
    const first = members === 0 ? 1 : 0;
    return [
      { choice: null, frees: 0, cost: 0, members },
      ...choices.map((choice) => ({ choice, frees: choice.frees, cost: choice.cost, members })),
      ...(join
        ? [
            {
              choice: "join" as const,
              frees: join.frees - first,
              cost: join.cost + first * newGroup,
              members: Math.min(MEMBERS - 1, members + 1),
            },
          ]
        : []),
    ];
  };
  for (let members = 0; members < MEMBERS; members += 1)
    (least[items.length] as number[])[members * width] = 0;
  for (let item = items.length - 1; item >= 0; item -= 1) {
    for (let members = 0; members < MEMBERS; members += 1) {
      for (const way of ways(item, members)) {
        for (let missing = 0; missing < width; missing += 1) {
          const cost = way.cost + still(item + 1, way.members, missing - way.frees);
          const at = members * width + missing;
          const row = least[item] as number[];
          if (cost < (row[at] as number)) row[at] = cost;
        }
      }
    }
  }
  const kept: SearchResult<T>[] = [];
  const worst = (): number => kept[most - 1]?.cost ?? Number.POSITIVE_INFINITY;
  const descend = (item: number, members: number, frees: number, cost: number, picks: Picks<T>): void => {
    if (item === items.length) {
      const found = foundOf(picks, items, cost, frees);
      if (!isLean(found, picks, items, needed)) return;
      kept.push(found);
      kept.sort((a, b) => a.cost - b.cost);
      kept.length = Math.min(kept.length, most);
      return;
    }
    ways(item, members)
      .map((way) => ({
        ...way,
        bound: cost + way.cost + still(item + 1, way.members, needed - frees - way.frees),
      }))
      .filter(({ choice }) => frees < needed || choice === null || (choice === "join" && members === 1))
      .sort((a, b) => a.bound - b.bound)
      .forEach((way) => {
        if (way.bound >= worst()) return;
        const next = way.choice === null ? picks : [...picks, { item, choice: way.choice }];
        descend(item + 1, begins(item + 1) ? 0 : way.members, frees + way.frees, cost + way.cost, next);
      });
  };
  if (needed > 0 && Number.isFinite(still(0, 0, needed))) descend(0, 0, 0, 0, []);
  return kept;
};
