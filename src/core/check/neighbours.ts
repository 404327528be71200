import type { ChannelGains } from "../channels";
import { gainOf } from "../decibels";
import { channelsOf } from "../legs";
import { partsOf, polarity } from "../mix";
import { isReversed, slotOfLeg } from "../patched";
import type { Feed, Setup, Slot, Source, Sum } from "../setup";
import type { Gain, Legs, Side } from "../units";
import { type Strike, soundThrough } from "./strikes";

/** What lies in the slots, and which slot each ear takes as planned. */
interface Taken {
  readonly slots: readonly (Pick<Slot, "feed" | "trim"> | null)[];
  readonly ears: Legs<number>;
}

/** A sum that is not patched yet is thought of as lying between two empty slots. */
const takenSlots = (setup: Setup, sum: Sum): Taken => {
  const left = slotOfLeg(setup.monitor, sum, "left");
  const right = sum.stereo ? slotOfLeg(setup.monitor, sum, "right") : left;
  const reversed = isReversed(setup, sum);
  if (left >= 0 && right >= 0) {
    const slots = setup.monitor.slots.map((s) => (s?.on ? s : null));
    return { slots, ears: reversed ? [right, left] : [left, right] };
  }
  const leg = (side: Side) => ({ feed: { kind: "leg", sum: sum.id, leg: side } as const, trim: 0 });
  if (!sum.stereo) return { slots: [null, leg("left"), null], ears: [1, 1] };
  const pair = reversed ? [leg("right"), leg("left")] : [leg("left"), leg("right")];
  return { slots: [null, ...pair, null], ears: [1, 2] };
};

/** One channel of a source as it lies in a slot. */
interface Content {
  readonly source: Source;
  readonly channel: number;
  readonly gain: Gain;
}

const contentOf = (setup: Setup, feed: Feed | null | undefined): Content[] => {
  if (feed?.kind === "leg") {
    const sum = setup.sums.find((s) => s.id === feed.sum);
    const leg = feed.leg === "left" ? 0 : 1;
    return (sum ? partsOf(setup, sum) : []).flatMap(({ source, channels }) =>
      channels.map((gains, channel) => ({ source, channel, gain: gains[leg] })),
    );
  }
  const source = setup.sources.find((s) => s.id === feed?.source);
  if (!feed || !source || source.muted) return [];
  return channelsOf(source).flatMap((side, channel) =>
    feed.channel === "both" || side === "both" || feed.channel === side
      ? [{ source, channel, gain: polarity(source.inverted) }]
      : [],
  );
};

/**
 * What a listener's two inputs get of every hit when the slots are taken one too far: each input gets what lies
 * in the neighbouring slot, silence where that is free, off or past the end.
 * @param by 1 is one slot up, −1 one down
 */
export const neighbourChannels = (
  setup: Setup,
  sum: Sum,
  strikes: readonly Strike[],
  by: 1 | -1,
): ChannelGains[] => {
  const { slots, ears } = takenSlots(setup, sum);
  const contents = ears.map((at) => {
    const slot = slots[at + by];
    const through = gainOf(slot?.trim ?? 0);
    return contentOf(setup, slot?.feed).map((c) => ({ ...c, gain: c.gain * through }));
  });
  return strikes.map((strike) => {
    // The same channel in both ears is one signal: only then can its polarity be compared.
    const rows = new Map<string, [left: Gain, right: Gain]>();
    contents.forEach((content, ear) => {
      for (const { source, channel, gain } of content) {
        const through = soundThrough(strike, source);
        if (through === 0) continue;
        const key = `${channel} ${source.id}`;
        const row = rows.get(key) ?? [0, 0];
        row[ear] = gain * through;
        rows.set(key, row);
      }
    });
    return [...rows.values()];
  });
};
