import { expect, it } from "vitest";
import { arrivalsOf } from "../../../src/core/inputs/arrivals";
import type { Setup } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "./setups";

const band = (): Setup => {
  const of = setup(
    [channel("kick"), channel("keys", { lines: 2 }), channel("bass")],
    [
      bus("drums", ["kick"]),
      bus("band", ["kick", "keys"], { stereo: false }),
      bus("others", ["bass"]),
      bus("unheard", ["bass"]),
    ],
    [
      side("drums", "left"),
      side("drums", "right"),
      direct("kick"),
      direct("keys", "left"),
      direct("keys", "right"),
      side("band", "left"),
      side("band", "left"),
      side("others", "left"),
    ],
  );
  return { ...of, desk: { ...of.desk, muteRule: { preFaderSends: false, directOuts: ["post-fader"] } } };
};

it("a channel arrives by its direct out, and by each bus that has an input, whether it is sent there or not", () => {
  expect(arrivalsOf(band(), "kick")).toEqual([
    { bus: null, inputs: [2], isOn: true },
    { bus: "drums", inputs: [0, 1], isOn: true },
    { bus: "band", inputs: [5], isOn: true },
    { bus: "band", inputs: [6], isOn: true },
    { bus: "others", inputs: [7], isOn: false },
  ]);
});

it("left and right are one way, the same side twice are two", () => {
  const ways = arrivalsOf(band(), "keys").filter((a) => a.isOn);
  expect(ways.map((a) => a.inputs)).toEqual([[3, 4], [5], [6]]);
});

it("what is off, muted, down or beyond the last input does not arrive", () => {
  const of = band();
  const on = (changed: Setup) =>
    arrivalsOf(changed, "kick").flatMap((a) => (a.isOn ? [`${a.bus} ${a.inputs}`] : []));
  const kick = (more: object): Setup => ({
    ...of,
    channels: of.channels.map((c) => (c.id === "kick" ? { ...c, ...more } : c)),
  });
  expect(on(kick({ muted: true }))).toEqual(["null 2"]);
  expect(on(kick({ directOut: { tap: "pre-fader", on: false, trim: 0 } }))).toEqual([
    "drums 0,1",
    "band 5",
    "band 6",
  ]);
  expect(on({ ...of, buses: of.buses.map((b) => (b.id === "band" ? { ...b, fader: null } : b)) })).toEqual([
    "null 2",
    "drums 0,1",
  ]);
  expect(on({ ...of, monitor: { ...of.monitor, inputCount: 3 } })).toEqual(["null 2", "drums 0,1"]);
  const inputs = of.monitor.inputs.map((i, at) => (i && at === 2 ? { ...i, on: false } : i));
  expect(on({ ...of, monitor: { ...of.monitor, inputs } })).not.toContain("null 2");
});

it("a channel that is not there arrives nowhere", () => {
  expect(arrivalsOf(band(), "nobody")).toEqual([]);
});
