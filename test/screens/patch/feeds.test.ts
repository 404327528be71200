import { describe, expect, it } from "vitest";
import { sheetRows } from "../../../src/core/patch/sheet";
import type { Slot } from "../../../src/core/setup";
import { feedKey, feedOptions } from "../../../src/screens/patch/feeds";
import { setup, source, sum } from "../../core/patch/setups";

const patched = (slots: readonly (Slot | null)[] = []) =>
  setup(
    [source("Kick"), source("Keys", { channels: 2 })],
    [sum("Drums", ["Kick"]), sum("Band", ["Kick"], { stereo: false })],
    slots,
  );

describe("what a slot can take", () => {
  it("is each leg and each channel, and both channels to mono, each with a key of its own", () => {
    const options = feedOptions(patched());
    expect(options.map(([key, name]) => [key, name])).toEqual([
      ["leg Drums left", "Drums, left leg"],
      ["leg Drums right", "Drums, right leg"],
      ["leg Band left", "Band, mono sum"],
      ["source Kick both", "Kick"],
      ["source Keys left", "Keys, left channel"],
      ["source Keys right", "Keys, right channel"],
      ["source Keys both", "Keys, both channels to mono"],
    ]);
    for (const [key, , feed] of options) expect(feedKey(feed)).toBe(key);
    expect(feedKey(undefined)).toBe("");
  });

  it("is called as on the patch sheet, but for a source that has one channel only", () => {
    const options = feedOptions(patched());
    const rows = sheetRows(patched(options.map(([, , feed]) => ({ feed, on: true, trim: 0 }))));
    expect(rows.slice(0, options.length).map((r) => r.from.replace(", direct", ""))).toEqual(
      options.map(([, name]) => name),
    );
  });
});
