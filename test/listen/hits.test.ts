import { describe, expect, it } from "vitest";
import type { PieceKind } from "../../src/core/model/setup";
import { GAPS, hitOf, renderHits, roundOf } from "../../src/listen/hits";
import { turnOf } from "./rounds";

const KINDS: readonly PieceKind[] = [
  "kick",
  "snare",
  "hat",
  "tom",
  "floor",
  "ride",
  "crash",
  "percussion",
  "overhead",
  "other",
];
const largest = (samples: Float32Array): number => samples.reduce((top, x) => Math.max(top, Math.abs(x)), 0);
/** How often the signal changes its sign, a second: a rough pitch. */
const crossings = (samples: Float32Array, rate: number): number => {
  let count = 0;
  for (let i = 1; i < samples.length; i += 1) if ((samples[i] ?? 0) * (samples[i - 1] ?? 0) < 0) count += 1;
  return (count * rate) / samples.length;
};

describe("a hit", () => {
  it.each(KINDS)("%s: peaks at a half, begins and ends at nothing, is always the same", (kind) => {
    const hit = hitOf(kind, 48_000);
    expect(largest(hit)).toBeCloseTo(0.5, 6);
    expect(Math.abs(hit[0] ?? 1)).toBe(0);
    expect(Math.abs(hit.at(-1) ?? 1)).toBe(0);
    expect(hitOf(kind, 48_000)).toEqual(hit);
    // Over before the round of pieces comes back to it.
    expect(hit.length).toBeLessThanOrEqual(3 * 48_000);
  });

  it("pieces are told apart: high ones are high, low ones low", () => {
    const pitch = (kind: PieceKind) => crossings(hitOf(kind, 48_000), 48_000);
    expect(pitch("kick")).toBeLessThan(pitch("floor"));
    expect(pitch("floor")).toBeLessThan(pitch("tom"));
    expect(pitch("tom")).toBeLessThan(pitch("snare"));
    expect(pitch("snare")).toBeLessThan(pitch("hat"));
  });
});

describe("a round", () => {
  it("has one track a piece, all equally long, each with the same energy as its hit", async () => {
    const tracks = turnOf(roundOf(KINDS, await renderHits(44_100), GAPS.round));
    expect(new Set(tracks.map((t) => t.length)).size).toBe(1);
    const energy = (samples: Float32Array) => samples.reduce((sum, x) => sum + x * x, 0);
    tracks.forEach((track, i) => {
      expect(energy(track)).toBeCloseTo(energy(hitOf(KINDS[i] as PieceKind, 44_100)), 6);
    });
  });

  it("one after the other: half a second apart", async () => {
    const [kick, snare] = turnOf(roundOf(["kick", "snare"], await renderHits(48_000), GAPS.round));
    expect(kick?.findIndex((x) => x !== 0)).toBeLessThan(10);
    const from = snare?.findIndex((x) => x !== 0) ?? 0;
    expect(from).toBeGreaterThanOrEqual(24_000);
    expect(from).toBeLessThan(24_010);
  });

  it("as a fill: an eighth of a second apart, then a rest until the last has sounded", async () => {
    const [kick, snare] = turnOf(roundOf(["kick", "snare"], await renderHits(48_000), GAPS.fill));
    expect(kick?.length).toBe(3 * 48_000);
    const from = snare?.findIndex((x) => x !== 0) ?? 0;
    expect(from).toBeGreaterThanOrEqual(6_000);
    expect(from).toBeLessThan(6_010);
  });

  it("of 256 pieces holds the samples of each kind once: less than 3 MB", async () => {
    const kinds = Array.from({ length: 256 }, (_, i) => KINDS[i % KINDS.length] as PieceKind);
    const { voices } = roundOf(kinds, await renderHits(48_000), GAPS.round);
    expect(voices).toHaveLength(256);
    const held = new Set(voices.map((v) => v.samples));
    expect(held.size).toBe(KINDS.length);
    const bytes = [...held].reduce((sum, samples) => sum + samples.byteLength, 0);
    expect(bytes).toBeGreaterThan(1e6);
    expect(bytes).toBeLessThan(3e6);
  });
});
