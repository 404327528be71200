import type { Bus, Channel, Send, Setup } from "../model/setup";

/** One channel in a bus. */
export interface BusContent {
  readonly bus: Bus;
  readonly channel: Channel;
  readonly send: Send;
}

const firstNumber = ({ numbers }: { readonly numbers: readonly number[] }): number => numbers[0] ?? Infinity;

/** By number at the desk; without numbers behind, in the order of the setup. */
const byNumber = <T extends { readonly numbers: readonly number[] }>(list: readonly T[]): T[] =>
  [...list].sort((a, b) => (firstNumber(a) < firstNumber(b) ? -1 : firstNumber(a) > firstNumber(b) ? 1 : 0));

/** What is in each bus, for paper and spreadsheet: buses and channels by their numbers at the desk. */
export const busContents = (
  setup: Pick<Setup, "buses" | "channels">,
): readonly { readonly bus: Bus; readonly contents: readonly BusContent[] }[] => {
  const channels = byNumber(setup.channels);
  return byNumber(setup.buses).map((bus) => ({
    bus,
    contents: channels.flatMap((channel): BusContent[] => {
      const send = bus.sends.find((s) => s.channel === channel.id);
      return send ? [{ bus, channel, send }] : [];
    }),
  }));
};
