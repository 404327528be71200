import { describe, expect, it } from "vitest";
import { BLOCK_FRAMES } from "../../src/hear/block";
import type { EarNews } from "../../src/hear/protocol";
import { newEar } from "../../src/hear/worker/ear";
import { gatherer } from "../../src/hear/worklet/gather";

const RATE = 48_000;
/** What a browser hands over at once. */
const QUANTUM = 128;

type Wave = (t: number) => number;

/** A worklet and a worker by hand: samples go in as a browser gives them, news come out. */
const line = (channels: readonly Wave[]) => {
  const news: EarNews[] = [];
  const ear = newEar(RATE, (told) => void news.push(told));
  const into = gatherer((block) => {
    ear.take(block);
    into.giveBack(block.samples);
  });
  let at = 0;
  const play = (seconds: number): EarNews[] => {
    const end = at + seconds * RATE;
    for (; at < end; at += QUANTUM)
      into.take(channels.map((of) => Float32Array.from({ length: QUANTUM }, (_, i) => of((at + i) / RATE))));
    return news.splice(0);
  };
  return { ear, play };
};

const tone =
  (level: number): Wave =>
  (t) =>
    10 ** (level / 20) * Math.sin(2 * Math.PI * 997 * t);

/** A hit every second, from half a second on. */
const hits =
  (level: number): Wave =>
  (t) => {
    const since = (t % 1) - 0.5;
    const hiss = 1e-4 * Math.sin(12_345 * t);
    return since < 0
      ? hiss
      : hiss + 10 ** (level / 20) * Math.exp(-since / 0.03) * Math.sin(2 * Math.PI * 180 * since);
  };

const readings = (news: readonly EarNews[]) =>
  news.flatMap((told) => (told.kind === "reading" ? [told] : []));
const found = (news: readonly EarNews[]) => news.flatMap((told) => (told.kind === "hit" ? [told.found] : []));

describe("what hears an input", () => {
  it("tells the meters about ten times a second, with the difference of the sides to a hundredth of a dB", () => {
    const told = readings(line([tone(-12), tone(-18)]).play(2));
    expect(told.length).toBeGreaterThanOrEqual(17);
    expect(told.length).toBeLessThanOrEqual(20);
    const last = told.at(-1);
    expect(last?.channels).toBe(2);
    expect(last?.reading.difference).toBeCloseTo(-6, 2);
    expect(last?.reading.kind).toBe("pair");
  });

  it("says of one channel that it is one", () => {
    const told = readings(line([tone(-12)]).play(2)).at(-1);
    expect(told?.channels).toBe(1);
    expect(told?.reading.kind).toBe("identical");
  });

  it("looks for hits only while it is told to, and measures each", () => {
    const { ear, play } = line([hits(-12), hits(-16)]);
    expect(found(play(2))).toEqual([]);
    ear.obey({ kind: "hits", wanted: true });
    const heard = found(play(3));
    expect(heard.map(({ kind }) => kind)).toEqual(["hit", "hit", "hit"]);
    for (const one of heard) expect(one.kind === "hit" && one.hit.difference).toBeCloseTo(-4, 1);
    ear.obey({ kind: "hits", wanted: false });
    expect(found(play(2))).toEqual([]);
  });

  it("says a hit within 300 ms of its beginning", () => {
    const { ear, play } = line([hits(-12), hits(-16)]);
    ear.obey({ kind: "hits", wanted: true });
    play(0.5);
    expect(found(play(0.3))).toHaveLength(1);
  });

  it("takes no hit that a gap lies in", () => {
    const { ear, play } = line([hits(-12), hits(-16)]);
    ear.obey({ kind: "hits", wanted: true });
    play(0.55);
    ear.take({ samples: new Float32Array(2 * BLOCK_FRAMES), channels: 2, isAfterGap: true });
    expect(found(play(0.4))).toEqual([]);
    expect(found(play(1))).toHaveLength(1);
  });

  it("forgets the highest levels when it is told to", () => {
    const loudFirst: Wave = (t) => tone(t < 1 ? -6 : -40)(t);
    const { ear, play } = line([loudFirst, loudFirst]);
    play(1);
    expect(readings(play(1)).at(-1)?.reading.sides[0].maxPeak).toBeCloseTo(-6, 1);
    ear.obey({ kind: "reset" });
    expect(readings(play(1)).at(-1)?.reading.sides[0].maxPeak).toBeCloseTo(-40, 1);
  });

  it("measures a steady sound for as long as it is told to, once, the noise taken off", () => {
    const { ear, play } = line([tone(-12), tone(-18)]);
    const steady = (news: readonly EarNews[]) =>
      news.flatMap((told) => (told.kind === "steady" ? [told.steady] : []));
    ear.obey({ kind: "steady", seconds: 1, noise: [-60, -60] });
    expect(steady(play(0.9))).toEqual([]);
    const [measured, ...more] = steady(play(2));
    expect(more).toEqual([]);
    expect((measured?.levels[1] ?? 0) - (measured?.levels[0] ?? 0)).toBeCloseTo(-6, 2);
    expect(measured?.error).toBeLessThan(0.01);
  });
});
