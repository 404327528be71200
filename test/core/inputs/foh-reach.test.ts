import { expect, it } from "vitest";
import { arrivalsOf } from "../../../src/core/inputs/arrivals";
import { fohTakes, idleDirectOuts, inputsWithoutPort } from "../../../src/core/inputs/foh-reach";
import { fohGain } from "../../../src/core/mix/taps";
import type { Listener, Setup, TapPoint } from "../../../src/core/model/setup";
import { bus, channel, direct, listener, setup, side } from "./setups";

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

it("a direct out that no input takes is to be off, whatever the plan says of it", () => {
  expect(idleDirectOuts(band("pre-eq", false, []))).toEqual(["bass", "nobody"]);
});

it("inputs that take something without a port are named", () => {
  expect(inputsWithoutPort(band("pre-eq", false, []))).toEqual([1]);
});

it.each<[TapPoint, boolean, readonly TapPoint[]]>([
  ["pre-eq", false, []],
  ["pre-eq", true, []],
  ["pre-eq", true, ["pre-eq"]],
  ["pre-eq", true, ["pre-fader"]],
  ["pre-fader", false, ["pre-fader"]],
  ["post-fader", false, []],
])(
  "FOH takes from each musician what then does not arrive by what they hear: %s, %s, %j",
  (tap, sends, outs) => {
    const of = band(tap, sends, outs);
    const inputs = [...of.monitor.inputs, side("own", "left", { port: 4 })];
    const own = of.buses.flatMap((b) => (b.id === "drums" ? [{ ...b, id: "own" }] : []));
    const both: Setup = {
      ...of,
      buses: [...of.buses, ...own],
      monitor: { ...of.monitor, inputs },
      listeners: [
        listener("mara", { kind: "drummer", bus: "own" }),
        listener("tobi", { bus: "drums" }),
        listener("lene", { bus: null }),
        listener("all", { kind: "audience", bus: null }),
      ],
    };
    /** Ways that are on for somebody who hears every bus but these. */
    const heard = (setup: Setup, channel: string, without: readonly (string | null)[]) =>
      arrivalsOf(setup, channel)
        .filter((a) => a.isOn && !without.includes(a.bus))
        .map((a) => a.bus);
    const changed = (change: object): Setup => ({
      ...both,
      channels: both.channels.map((c) => ({ ...c, ...change })),
    });
    for (const [at, without] of [["drums"], ["own"], ["drums", "own"]].entries()) {
      const takes = fohTakes(both, both.listeners[at] as Listener);
      for (const { id } of both.channels) {
        const ways = heard(both, id, without);
        if (id === "kick") expect(ways.slice(0, 1)).toEqual([null]);
        const left = (setup: Setup) => ways.filter((way) => !heard(setup, id, without).includes(way));
        const down = changed({ fader: null });
        expect(down.channels.every((c) => fohGain(c) === 0)).toBe(true);
        const [cut, moved] = [left(changed({ muted: true })), left(down)];
        const take = takes.find((t) => t.channel === id);
        expect(take).toEqual(cut.length + moved.length > 0 ? { channel: id, ways, cut, moved } : undefined);
      }
    }
    expect(fohTakes(both, both.listeners[3] as Listener)).toEqual([]);
  },
);
