import type { InputName } from "../inputs/names";
import type { Id } from "../model/setup";
import type { NamedChannel } from "./people";

/** What tells one microphone or line of an instrument from another. Common practice, no source. */
const MARKS: readonly string[] = [
  ...["in", "out", "sub", "top", "bottom", "side", "high", "mid", "low"],
  ...["di", "amp", "mic"],
];

const isMarked = (name: InputName): boolean =>
  name.side !== null || name.words.some((word) => MARKS.includes(word));

/** What a name says but for the microphone: "kick" of "Kick In", "bass" of "Bass DI", "electric guitar 2" of "EG 2 amp". */
const stemOf = ({ words, numbers }: InputName): string =>
  [...words.filter((word) => !MARKS.includes(word)), ...numbers].join(" ");

/**
 * The instrument of each channel that has several: kick in and out, bass by DI and amp, keys left and right. All of them
 * but one must say which they are, or they are several instruments of one name.
 */
export const instrumentsOf = (channels: readonly NamedChannel[]): ReadonlyMap<Id, string> => {
  const groups = new Map<string, NamedChannel[]>();
  for (const named of channels) {
    const key = JSON.stringify([named.channel.kind, stemOf(named.name)]);
    groups.set(key, [...(groups.get(key) ?? []), named]);
  }
  return new Map(
    [...groups.values()].flatMap((group) => {
      const plain = group.filter(({ name }) => !isMarked(name));
      if (group.length < 2 || plain.length > 1) return [];
      return group.flatMap(({ channel, name }) => {
        const stem = stemOf(name);
        return stem ? [[channel.id, stem] as const] : [];
      });
    }),
  );
};
