import { describe, expect, it } from "vitest";
import { sheetRows } from "../../../src/core/inputs/sheet";
import type { MonitorInput } from "../../../src/core/model/setup";
import { feedKey, feedOptions } from "../../../src/screens/patch/feeds";
import { bus, channel, setup } from "../../core/inputs/setups";

const patched = (inputs: readonly (MonitorInput | null)[] = []) =>
  setup(
    [channel("Kick"), channel("Keys", { lines: 2 })],
    [bus("Drums", ["Kick"]), bus("Band", ["Kick"], { stereo: false })],
    inputs,
  );

describe("what an input can take", () => {
  it("is each side and each channel, and both channels to mono, each with a key of its own", () => {
    const options = feedOptions(patched());
    expect(options.map(([key, name]) => [key, name])).toEqual([
      ["side Drums left", "Drums, left side"],
      ["side Drums right", "Drums, right side"],
      ["side Band left", "Band, mono bus"],
      ["channel Kick both", "Kick"],
      ["channel Keys left", "Keys, left channel"],
      ["channel Keys right", "Keys, right channel"],
      ["channel Keys both", "Keys, both channels to mono"],
    ]);
    for (const [key, , feed] of options) expect(feedKey(feed)).toBe(key);
    expect(feedKey(undefined)).toBe("");
  });

  it("is called as on the patch sheet, but for a channel that has one channel only", () => {
    const options = feedOptions(patched());
    const rows = sheetRows(patched(options.map(([, , feed]) => ({ feed, port: null, on: true, trim: 0 }))));
    expect(rows.slice(0, options.length).map((r) => r.from.replace(", direct", ""))).toEqual(
      options.map(([, name]) => name),
    );
  });
});
