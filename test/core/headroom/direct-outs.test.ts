import { expect, it } from "vitest";
import { directOutFigures, worstFirst } from "../../../src/core/headroom/direct-outs";
import type { Channel } from "../../../src/core/model/setup";
import { describeDirectOut } from "../../../src/text/direct-outs";
import { channel, direct, setup } from "../inputs/setups";

const withTrim = (of: Channel, trim: number, on = true): Channel => ({
  ...of,
  directOut: { ...of.directOut, trim, on },
});
const CHANNELS = [
  channel("Unknown", { peak: null }),
  channel("Off", { peak: -3, directOut: { tap: "pre-fader", on: false, trim: 0 } }),
  channel("Quiet", { peak: -30 }),
  withTrim(channel("Loud", { peak: -3 }), 5),
  channel("Unfed", { peak: 0 }),
];
const of = (link: "analog" | "digital") => {
  const s = setup(
    CHANNELS,
    [],
    ["Unknown", "Off", "Quiet", "Loud"].map((id) => direct(id)),
  );
  return { ...s, desk: { ...s.desk, outputDbu: 18 }, monitor: { ...s.monitor, maxInputDbu: 16, link } };
};

it("direct outs stand by their headroom, what is not known behind", () => {
  const all = directOutFigures(of("analog"));
  expect(worstFirst(all).map((f) => f.channel)).toEqual(["Loud", "Quiet", "Off", "Unknown"]);
  expect(all.map((f) => f.channel)).toEqual(["Unknown", "Off", "Quiet", "Loud"]);
});

it("a direct out reads as peak, headroom and limiting stage", () => {
  const rows = (link: "analog" | "digital") =>
    worstFirst(directOutFigures(of(link))).map((f) => describeDirectOut(of(link), f));
  // An input of +16 dBu behind an output of +18 dBu clips at −2 dBFS; +2 − −2 and −30 − −2.
  expect(rows("analog")).toEqual([
    ["Loud", "2.0", "−4.0", "monitor input"],
    ["Quiet", "−30.0", "28.0", "monitor input"],
    ["Off", "silent", "–", "–"],
    ["Unknown", "not entered", "–", "–"],
  ]);
  expect(rows("digital").map((r) => r[2])).toEqual(["−2.0", "30.0", "–", "–"]);
});
