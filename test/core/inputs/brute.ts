import type { Choice, SearchItem } from "../../../src/core/inputs/search";

interface EarPath {
  readonly cost: number;
  readonly frees: number;
}

/** Every assignment of one choice, nothing or the group to every item, one by one. */
const everything = <T>(
  items: readonly SearchItem<T>[],
  newGroup: number,
): { picks: (string | number)[] }[] => {
  let all: { picks: (string | number)[] }[] = [{ picks: [] }];
  for (const { choices, join } of items) {
    const options: (string | number)[] = ["keep", ...choices.keys(), ...(join ? ["join"] : [])];
    all = all.flatMap(({ picks }) => options.map((o) => ({ picks: [...picks, o] })));
  }
  return newGroup >= 0 ? all : [];
};

/** Cost and freed inputs of an assignment; null where a group has one member. */
const worth = <T>(
  items: readonly SearchItem<T>[],
  picks: readonly (string | number)[],
  newGroup: number,
): EarPath | null => {
  let cost = 0;
  let frees = 0;
  const members = new Map<string, number>();
  items.forEach(({ choices, join }, i) => {
    const pick = picks[i];
    if (typeof pick === "number") {
      cost += (choices[pick] as Choice<T>).cost;
      frees += (choices[pick] as Choice<T>).frees;
    } else if (pick === "join" && join) {
      cost += join.cost;
      frees += join.frees;
      members.set(join.family, (members.get(join.family) ?? 0) + 1);
    }
  });
  for (const count of members.values()) {
    if (count === 1) return null;
    cost += newGroup;
    frees -= 1;
  }
  return { cost, frees };
};

/** Costs of the cheapest sets, by trying all: enough freed, and not enough any more with any of it left out. */
export const bruteForce = <T>(
  items: readonly SearchItem<T>[],
  needed: number,
  newGroup: number,
  most: number,
): number[] =>
  everything(items, newGroup)
    .flatMap(({ picks }) => {
      const whole = worth(items, picks, newGroup);
      if (!whole || whole.frees < needed) return [];
      const lessOne = picks.flatMap((p, i) =>
        p === "keep" ? [] : [picks.map((o, k) => (k === i ? "keep" : o))],
      );
      const families = new Set(items.flatMap((i) => (i.join ? [i.join.family] : [])));
      const lessGroup = [...families].map((family) =>
        picks.map((p, i) => (p === "join" && items[i]?.join?.family === family ? "keep" : p)),
      );
      const spare = [...lessOne, ...lessGroup].some((fewer) => {
        if (fewer.every((p, i) => p === picks[i])) return false;
        const left = worth(items, fewer, newGroup);
        return left !== null && left.frees >= needed;
      });
      return spare ? [] : [whole.cost];
    })
    .sort((a, b) => a - b)
    .slice(0, most);
