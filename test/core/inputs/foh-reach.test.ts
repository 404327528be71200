import { expect, it } from "vitest";
import { arrivalsOf } from "../../../src/core/inputs/arrivals";
import { fohReach, idleDirectOuts, inputsWithoutPort } from "../../../src/core/inputs/foh-reach";
import { fohGain } from "../../../src/core/mix/taps";
import type { Setup, TapPoint } from "../../../src/core/model/setup";
import { bus, channel, direct, setup, side } from "./setups";

const band = (tap: TapPoint, preFaderSends: boolean, directOuts: readonly TapPoint[]): Setup => {
  const of = setup(
    [
      channel("kick", { directOut: { tap, on: true, trim: 0 } }),
      channel("bass", { directOut: { tap, on: true, trim: 0 } }),
      channel("off", { directOut: { tap, on: false, trim: 0 } }),
      channel("nobody"),
    ],
    [bus("drums", ["kick", "bass"]), bus("unheard", ["nobody"])],
    [side("drums", "left", { port: 1 }), direct("kick"), direct("off", "both", { port: 2 })],
  );
  const drums = of.buses.map((b) => ({
    ...b,
    sends: b.sends.map((s) => ({
      ...s,
      on: s.channel === "kick" || b.id !== "drums",
      tap: tap === "post-fader" ? tap : ("pre-fader" as const),
    })),
  }));
  return { ...of, buses: drums, desk: { ...of.desk, muteRule: { preFaderSends, directOuts } } };
};

it.each<[TapPoint, boolean, readonly TapPoint[]]>([
  ["pre-eq", false, []],
  ["pre-eq", true, ["pre-eq"]],
  ["pre-eq", true, ["pre-fader"]],
  ["pre-fader", false, ["pre-fader"]],
  ["post-fader", false, []],
])("FOH takes what then does not arrive: %s, %s, %j", (tap, sends, outs) => {
  const of = band(tap, sends, outs);
  const reach = fohReach(of);
  expect(reach.map((r) => [r.channel, r.bus])).toEqual([
    ["kick", null],
    ["kick", "drums"],
  ]);
  const arrives = (change: object) => {
    const changed = { ...of, channels: of.channels.map((c) => ({ ...c, ...change })) };
    expect(changed.channels.every((c) => fohGain(c) === 0)).toBe(true);
    const ways = arrivalsOf(changed, "kick");
    return reach.map(({ bus: by }) => ways.find((a) => a.bus === by)?.isOn);
  };
  expect(reach.map((r) => !r.byMute)).toEqual(arrives({ muted: true }));
  expect(reach.map((r) => !r.byFader)).toEqual(arrives({ fader: null }));
});

it("a direct out that no input takes is to be off, whatever the plan says of it", () => {
  expect(idleDirectOuts(band("pre-eq", false, []))).toEqual(["bass", "nobody"]);
});

it("inputs that take something without a port are named", () => {
  expect(inputsWithoutPort(band("pre-eq", false, []))).toEqual([1]);
});
