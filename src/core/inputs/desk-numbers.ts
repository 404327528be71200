/** A channel or a bus: what has numbers at the desk. */
interface Numbered {
  readonly numbers: readonly number[];
}

/** A number at the desk and who has it. */
export interface SharedNumber<T> {
  readonly number: number;
  readonly all: readonly T[];
}

/** Numbers that more than one channel, or more than one bus, has, rising. */
export const sharedNumbers = <T extends Numbered>(things: readonly T[]): SharedNumber<T>[] => {
  const by = new Map<number, T[]>();
  for (const thing of things)
    for (const number of new Set(thing.numbers)) by.set(number, [...(by.get(number) ?? []), thing]);
  return [...by]
    .filter(([, all]) => all.length > 1)
    .map(([number, all]) => ({ number, all }))
    .sort((a, b) => a.number - b.number);
};

/** Channels, or buses, with a number that a desk of so many does not have. */
export const beyondDesk = <T extends Numbered>(things: readonly T[], count: number): T[] =>
  things.filter(({ numbers }) => numbers.some((n) => n > count));
