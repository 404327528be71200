import { describe, expect, it } from "vitest";
import { partsOf } from "../../src/core/mix";
import type { Send, Source, Sum } from "../../src/core/setup";
import { kit, SUM, source } from "./repair/setups";

const on = (id: string): Send => ({ source: id, level: 0, pan: null });

const parts = (sources: readonly Source[], over: Partial<Sum>) =>
  partsOf(kit({ sources }), { ...SUM, sends: sources.map((s) => on(s.id)), ...over });

describe("a mono sum", () => {
  const placed = (over: Partial<Source>) => parts([source("tom", over)], { stereo: false })[0]?.channels;

  it("takes a source of one channel at unity, whatever its pan", () => {
    for (const pan of [-1, 0, 0.4]) expect(placed({ pan })).toEqual([[1, 1]]);
  });

  it("takes each channel of a source of two at unity, whatever its pan", () => {
    for (const pan of [-1, 0, 0.4])
      expect(placed({ channels: 2, pan })).toEqual([
        [1, 1],
        [1, 1],
      ]);
  });
});

it("what is muted, sent at no level, or not there any more does not sound in a sum", () => {
  const sources = [source("hat"), source("tom"), source("kick", { muted: true })];
  const sends = [on("hat"), { ...on("tom"), level: null }, on("kick"), on("gone")];
  expect(parts(sources, { sends }).map((p) => p.source.id)).toEqual(["hat"]);
});
