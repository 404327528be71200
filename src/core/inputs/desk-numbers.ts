import type { Channel, Desk } from "../model/setup";

/** What of a channel its number needs. */
type Numbered = Pick<Channel, "numbers">;

/** A channel number of the desk and who has it. */
export interface SharedNumber<T> {
  readonly number: number;
  readonly channels: readonly T[];
}

/** Channel numbers that more than one channel has, rising. */
export const sharedNumbers = <T extends Numbered>(channels: readonly T[]): SharedNumber<T>[] => {
  const by = new Map<number, T[]>();
  for (const channel of channels)
    for (const number of new Set(channel.numbers)) by.set(number, [...(by.get(number) ?? []), channel]);
  return [...by]
    .filter(([, its]) => its.length > 1)
    .map(([number, its]) => ({ number, channels: its }))
    .sort((a, b) => a.number - b.number);
};

/** Channels with a number that the desk does not have. */
export const beyondDesk = <T extends Numbered>(
  channels: readonly T[],
  { channelCount }: Pick<Desk, "channelCount">,
): T[] => channels.filter(({ numbers }) => numbers.some((n) => n > channelCount));
