import { describe, expect, it } from "vitest";
import { sheetRows } from "../../../src/core/inputs/sheet";
import type { MonitorInput } from "../../../src/core/model/setup";
import { feedKey, feedOptions } from "../../../src/screens/patch/feeds";
import { SHEET_COLUMNS } from "../../../src/text/sheet";
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
      ["side Drums left", "Drums L, stereo bus"],
      ["side Drums right", "Drums R, stereo bus"],
      ["side Band left", "Band, mono bus"],
      ["channel Kick both", "Kick, direct out"],
      ["channel Keys left", "Keys L, direct out"],
      ["channel Keys right", "Keys R, direct out"],
      ["channel Keys both", "Keys, direct out, L+R"],
    ]);
    for (const [key, , feed] of options) expect(feedKey(feed)).toBe(key);
    expect(feedKey(undefined)).toBe("");
  });

  it("is named as on the patch sheet", () => {
    const options = feedOptions(patched());
    const all = patched(options.map(([, , feed]) => ({ feed, port: null, on: true, trim: 0 })));
    const { name, from } = SHEET_COLUMNS;
    const rows = sheetRows(all).slice(0, options.length);
    expect(rows.map((row) => `${name.cell(row, all)}, ${from.cell(row, all)}`.toLowerCase())).toEqual(
      options.map(([, text]) => text.toLowerCase()),
    );
  });
});
