import { gainOf, levelOf, levelOfPower } from "../decibels";
import { type Part, partsOf, polarity } from "../mix";
import type { Id, Setup, Slot, Sum } from "../setup";
import type { Db, Gain, Legs } from "../units";
import { firstOfSide, type Patched, patchedThings, sideOf, sidesReversed } from "./sides";
import { sumsFed } from "./usage";

/** A source that comes in twice: by slots of its own and inside a patched sum. */
export interface Twice {
  readonly source: Id;
  readonly sum: Id;
  /** Its own slots that are on. */
  readonly direct: readonly number[];
  /** The sum's slots that are on. */
  readonly within: readonly number[];
  /**
   * By ear: level of both together over the louder of the two, dB, with both up alike at the listener's own mixer and
   * nothing but level between them. +6.02 where they are equal; negative where polarity makes them cancel;
   * null where neither is heard.
   */
  readonly rise: Legs<Db | null>;
}

/** Gains into the left and right ear at a listener's own mixer: a pair goes apart, anything else to both. */
const earsOf = (setup: Setup, thing: Patched, slot: Slot): Legs => {
  const gain = gainOf(slot.trim);
  const side = sideOf(slot);
  const apart = firstOfSide(setup, thing, "left") >= 0 && firstOfSide(setup, thing, "right") >= 0;
  if (side === "both" || !apart) return [gain, gain];
  return (side === "left") !== sidesReversed(setup, thing) ? [gain, 0] : [0, gain];
};

/** What of each channel of a source reaches each ear. */
type Ears = readonly Legs[];

const slotsOn = (setup: Setup, thing: Patched): readonly { readonly index: number; readonly slot: Slot }[] =>
  thing.slots.flatMap((index) => {
    const slot = setup.monitor.slots[index];
    return slot?.on ? [{ index, slot }] : [];
  });

const total = (parts: readonly Legs[]): Legs =>
  parts.reduce(([l, r], [left, right]) => [l + left, r + right], [0, 0] as Legs);

const direct = (setup: Setup, thing: Patched, channels: 1 | 2): Ears =>
  Array.from({ length: channels }, (_, channel) => {
    const mine = channel === 0 ? "left" : "right";
    return total(
      slotsOn(setup, thing)
        .filter(({ slot }) => sideOf(slot) === "both" || sideOf(slot) === mine)
        .map(({ slot }) => earsOf(setup, thing, slot)),
    );
  });

const within = (setup: Setup, thing: Patched, part: Part): Ears => {
  // A polarity switch at the source turns its own slots as well.
  const sign = polarity(part.source.inverted);
  return part.channels.map((legs) =>
    total(
      slotsOn(setup, thing).map(({ slot }) => {
        const gain = sign * legs[sideOf(slot) === "right" ? 1 : 0];
        const [left, right] = earsOf(setup, thing, slot);
        return [gain * left, gain * right];
      }),
    ),
  );
};

const riseAt = (ear: 0 | 1, a: Ears, b: Ears): Db | null => {
  const power = (of: (i: number) => Gain): number => a.reduce((sum, _, i) => sum + of(i) ** 2, 0);
  const one = (i: number): Gain => a[i]?.[ear] ?? 0;
  const other = (i: number): Gain => b[i]?.[ear] ?? 0;
  const louder = Math.max(power(one), power(other));
  return louder === 0 ? null : levelOfPower(power((i) => one(i) + other(i)) / louder);
};

/** Every source that comes in twice, sum by sum. A source or slot that is silent does not. */
export const heardTwice = (setup: Setup): Twice[] => {
  const things = patchedThings(setup);
  const thing = (kind: Patched["kind"], id: Id): Patched | undefined =>
    things.find((t) => t.kind === kind && t.id === id);
  return sumsFed(setup).flatMap((sum: Sum) => {
    const whole = thing("sum", sum.id);
    return partsOf(setup, sum).flatMap((part): Twice[] => {
      const own = thing("source", part.source.id);
      const ownOn = own ? slotsOn(setup, own) : [];
      if (!whole || !own || ownOn.length === 0) return [];
      const a = direct(setup, own, part.source.channels);
      const b = within(setup, whole, part);
      return [
        {
          source: part.source.id,
          sum: sum.id,
          direct: ownOn.map((s) => s.index),
          within: slotsOn(setup, whole).map((s) => s.index),
          rise: [riseAt(0, a, b), riseAt(1, a, b)],
        },
      ];
    });
  });
};

/** Rise when the very same thing comes in by two slots with these trims: 20 lg((a + b)/max(a, b)); +6.02 dB when equal. */
export const riseOfCopy = (first: Db, second: Db): Db => levelOf(1 + gainOf(-Math.abs(first - second)));
