import { readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../src/core/evaluate";
import { imagesOf } from "../../src/core/stereo/image";
import { readSetup } from "../../src/document/read-setup";
import { RANDOM_FILES, randomV2 } from "./random-v2";

/**
 * Figures of every file of `random-v2.ts`, then of the fixtures of versions 1 and 2, as the last code that wrote
 * version 2 computed them: 64-bit floats, little-endian, in the order of `figuresOf` below (there the words were sums,
 * legs, flat and unplaceable); NaN stands for null. That code is no longer here, so they cannot be made anew.
 */
const frozen = (): Float64Array => {
  const packed = readFileSync(new URL("../fixtures/figures-v2.bin.gz", import.meta.url));
  return new Float64Array(new Uint8Array(gunzipSync(packed)).buffer);
};

/** Relative to the figure, absolute below 1. */
const TOLERANCE = 1e-12;

type Figure = readonly [what: string, value: number | null];

/** What is compared of one setup, with names to find a difference by. */
const figuresOf = (value: unknown): Figure[] => {
  const read = readSetup(value);
  if (!read.ok) throw new Error(read.why.code);
  expect(read.notes).toEqual([]);
  const { buses } = evaluate(read.file);
  const figures: Figure[] = [];
  for (const { id } of read.file.buses) {
    const bus = buses.get(id);
    if (!bus) throw new Error(`no figures of ${id}`);
    bus.sides.forEach((side, at) => {
      for (const what of ["level", "likely", "playable", "allAtOnce"] as const)
        figures.push([`${id} ${at} ${what}`, side[what]]);
    });
    for (const { place, headroom } of bus.ceilings) figures.push([`${id} headroom at ${place}`, headroom]);
    bus.loss.forEach((loss, at) => {
      figures.push([`${id} ${at} loss`, loss]);
    });
  }
  for (const { listener, rows, score, count, sidesLost } of imagesOf(read.file)) {
    const differences = rows.map((row) => Math.abs(row.difference)).filter(Number.isFinite);
    figures.push(
      [`${listener} differences`, differences.reduce((sum, one) => sum + one, 0)],
      [`${listener} score`, score],
      [`${listener} right`, count.right],
      [`${listener} wrong`, count.wrong],
      [`${listener} centred`, count.centred],
      [`${listener} unplaced`, count.unplaced],
      [`${listener} sides lost`, sidesLost],
    );
  }
  return figures;
};

const isSame = (now: number | null, then: number): boolean =>
  now === null
    ? Number.isNaN(then)
    : now === then || Math.abs(now - then) <= TOLERANCE * Math.max(1, Math.abs(then));

const fixture = (version: number): unknown =>
  JSON.parse(readFileSync(new URL(`../fixtures/setup-v${version}.json`, import.meta.url), "utf8"));

describe("figures of older files", () => {
  it(`are what they were, of ${RANDOM_FILES} files by chance and of the frozen ones`, () => {
    const then = frozen();
    let at = 0;
    const differ: string[] = [];
    const compare = (name: string, file: unknown): void => {
      for (const [what, now] of figuresOf(file)) {
        const was = then[at] as number;
        if (!isSame(now, was)) differ.push(`${name}, ${what}: ${now}, was ${was}`);
        at += 1;
      }
    };
    for (let number = 0; number < RANDOM_FILES; number += 1) compare(`file ${number}`, randomV2(number));
    for (const version of [1, 2]) compare(`version ${version}`, fixture(version));
    expect(differ.slice(0, 40)).toEqual([]);
    expect(at).toBe(then.length);
  });
});
