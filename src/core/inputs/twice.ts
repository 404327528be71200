import { gainOf, levelOf, levelOfPower } from "../level/decibels";
import { type MixedChannel, mixedChannelsOf, polarity } from "../mix/bus";
import { inputGain } from "../mix/taps";
import type { Bus, Id, MonitorInput, Setup } from "../model/setup";
import type { Db, Gain, Sides } from "../model/units";
import { firstOfSide, type PatchedThing, patchedThings, sideOf, sidesSwapped } from "./patched";
import { busesFed } from "./usage";

/** A channel that comes in twice: by inputs of its own and inside a patched sum. */
export interface Twice {
  readonly channel: Id;
  readonly bus: Id;
  /** Its own inputs that are on. */
  readonly direct: readonly number[];
  /** The bus's inputs that are on. */
  readonly within: readonly number[];
  /**
   * By ear: level of both together over the louder of the two, dB, with both up alike at the listener's own mixer and
   * nothing but level between them. +6.02 where they are equal; negative where polarity makes them cancel;
   * null where neither is heard.
   */
  readonly rise: Sides<Db | null>;
}

/** Gains into the left and right ear at a listener's own mixer: a pair goes apart, anything else to both. */
const earsOf = (setup: Setup, thing: PatchedThing, input: MonitorInput): Sides => {
  const gain = inputGain(setup, input);
  const side = sideOf(input);
  const apart = firstOfSide(setup, thing, "left") >= 0 && firstOfSide(setup, thing, "right") >= 0;
  if (side === "both" || !apart) return [gain, gain];
  return (side === "left") !== sidesSwapped(setup, thing) ? [gain, 0] : [0, gain];
};

/** What of each channel of a channel reaches each ear. */
type Ears = readonly Sides[];

const inputsOn = (
  setup: Setup,
  thing: PatchedThing,
): readonly { readonly index: number; readonly input: MonitorInput }[] =>
  thing.inputs.flatMap((index) => {
    const input = setup.monitor.inputs[index];
    return input && inputGain(setup, input) > 0 ? [{ index, input }] : [];
  });

const total = (parts: readonly Sides[]): Sides =>
  parts.reduce(([l, r], [left, right]) => [l + left, r + right], [0, 0] as Sides);

const direct = (setup: Setup, thing: PatchedThing, channels: 1 | 2): Ears =>
  Array.from({ length: channels }, (_, channel) => {
    const mine = channel === 0 ? "left" : "right";
    return total(
      inputsOn(setup, thing)
        .filter(({ input }) => sideOf(input) === "both" || sideOf(input) === mine)
        .map(({ input }) => earsOf(setup, thing, input)),
    );
  });

const within = (setup: Setup, thing: PatchedThing, part: MixedChannel): Ears => {
  // A polarity switch at the channel turns its own inputs as well.
  const sign = polarity(part.channel.inverted);
  return part.gains.map((sides) =>
    total(
      inputsOn(setup, thing).map(({ input }) => {
        const gain = sign * sides[sideOf(input) === "right" ? 1 : 0];
        const [left, right] = earsOf(setup, thing, input);
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

/** Every channel that comes in twice, sum by sum. A channel or input that is silent does not. */
export const heardTwice = (setup: Setup): Twice[] => {
  const things = patchedThings(setup);
  const byId = (kind: PatchedThing["kind"]): ReadonlyMap<Id, PatchedThing> =>
    new Map(things.filter((t) => t.kind === kind).map((t) => [t.id, t]));
  const [owns, wholes] = [byId("channel"), byId("bus")];
  return busesFed(setup).flatMap((bus: Bus) => {
    const whole = wholes.get(bus.id);
    const sends = bus.sends.filter((send) => owns.has(send.channel));
    return mixedChannelsOf(setup, { ...bus, sends }).flatMap((part): Twice[] => {
      const own = owns.get(part.channel.id);
      const ownOn = own ? inputsOn(setup, own) : [];
      if (!whole || !own || ownOn.length === 0) return [];
      const a = direct(setup, own, part.channel.lines);
      const b = within(setup, whole, part);
      return [
        {
          channel: part.channel.id,
          bus: bus.id,
          direct: ownOn.map((s) => s.index),
          within: inputsOn(setup, whole).map((s) => s.index),
          rise: [riseAt(0, a, b), riseAt(1, a, b)],
        },
      ];
    });
  });
};

/** Rise when the very same thing comes in by two inputs with these trims: 20 lg((a + b)/max(a, b)); +6.02 dB when equal. */
export const riseOfCopy = (first: Db, second: Db): Db => levelOf(1 + gainOf(-Math.abs(first - second)));
