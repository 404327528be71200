import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../src/core/evaluate";
import { ceilingLevelsOf } from "../../../src/core/headroom/ceilings";
import { directOutFigures } from "../../../src/core/headroom/direct-outs";
import { directOutGain, inputGain, sendGain } from "../../../src/core/mix/taps";
import type { Channel, MonitorSystem, Send, SendTap, Setup, TapPoint } from "../../../src/core/model/setup";
import { BLANK_DESK } from "../../../src/document/blank";
import { expectNear } from "../../near";
import { bus, channel, direct, setup, side } from "../inputs/setups";

/** A desk whose mute takes what is behind the fader, and these besides. */
const muting = (preFaderSends: boolean, directOuts: readonly TapPoint[] = []) => ({
  ...BLANK_DESK,
  muteRule: { preFaderSends, directOuts },
});
const PLAIN = muting(false);

describe("a send", () => {
  const send = (tap: SendTap, more: Partial<Send> = {}): Send => ({
    channel: "a",
    on: true,
    level: -5,
    tap,
    pan: null,
    ...more,
  });
  const at = (fader: number | null, muted = false) => channel("a", { fader, muted });

  it("moves with the fader behind it, and not before it", () => {
    // −5 dB and −6 dB are −11 dB: 0.2818; −5 dB alone 0.5623.
    expectNear(sendGain(PLAIN, at(-6), send("post-fader")), 0.2818, 5e-5);
    expectNear(sendGain(PLAIN, at(-6), send("pre-fader")), 0.5623, 5e-5);
    expect(sendGain(PLAIN, at(null), send("post-fader"))).toBe(0);
    expectNear(sendGain(PLAIN, at(null), send("pre-fader")), 0.5623, 5e-5);
  });

  it("dies with the mute behind the fader, before it only by the desk's rule", () => {
    expect(sendGain(PLAIN, at(0, true), send("post-fader"))).toBe(0);
    expectNear(sendGain(PLAIN, at(0, true), send("pre-fader")), 0.5623, 5e-5);
    expect(sendGain(muting(true), at(0, true), send("pre-fader"))).toBe(0);
    expectNear(sendGain(muting(true), at(0), send("pre-fader")), 0.5623, 5e-5);
  });

  it("passes nothing off or at −∞", () => {
    expect(sendGain(PLAIN, at(0), send("pre-fader", { on: false }))).toBe(0);
    expect(sendGain(PLAIN, at(0), send("pre-fader", { level: null }))).toBe(0);
  });
});

describe("a direct out", () => {
  const at = (tap: TapPoint, more: Partial<Channel> = {}, on = true) =>
    channel("a", { fader: -6, directOut: { tap, on, trim: -3.5 }, ...more });

  it.each(["pre-hpf", "pre-eq", "pre-fader"] as const)("taken %s does not move with the fader", (tap) => {
    // −3.5 dB is 0.6683.
    expectNear(directOutGain(PLAIN, at(tap)), 0.6683, 5e-5);
    expectNear(directOutGain(PLAIN, at(tap, { muted: true })), 0.6683, 5e-5);
    expect(directOutGain(muting(false, [tap]), at(tap, { muted: true }))).toBe(0);
    expectNear(directOutGain(muting(false, [tap]), at(tap)), 0.6683, 5e-5);
  });

  it("taken post-fader moves with it and dies with the mute", () => {
    // −3.5 dB and −6 dB are −9.5 dB: 0.3350.
    expectNear(directOutGain(PLAIN, at("post-fader")), 0.335, 5e-5);
    expect(directOutGain(PLAIN, at("post-fader", { muted: true }))).toBe(0);
    expect(directOutGain(PLAIN, at("post-fader", { fader: null }))).toBe(0);
  });

  it("that is off passes nothing, nor does an input that is off", () => {
    expect(directOutGain(PLAIN, at("pre-fader", {}, false))).toBe(0);
    const s = { desk: PLAIN, channels: [at("pre-fader")] };
    // −3.5 dB and +2 dB are −1.5 dB: 0.8414.
    expectNear(inputGain(s, direct("a", "both", { trim: 2 })), 0.8414, 5e-5);
    expect(inputGain(s, direct("a", "both", { on: false }))).toBe(0);
    expectNear(inputGain(s, side("m", "left", { trim: -3.5 })), 0.6683, 5e-5);
  });
});

describe("a whole setup", () => {
  const fader = fc.double({ min: -60, max: 10, noNaN: true });
  const level = fc.double({ min: -30, max: 10, noNaN: true });
  const pan = fc.double({ min: -1, max: 1, noNaN: true });
  const of = (the: Partial<Channel>, sent: Partial<Send>, desk = PLAIN): Setup => {
    const drums = bus("m", ["a", "b"], { padDb: 3 });
    const [first, ...rest] = drums.sends;
    const sends = [{ ...(first as Send), ...sent }, ...rest];
    const s = setup(
      [channel("a", the), channel("b", { pan: 0.3, peak: -20 })],
      [{ ...drums, sends }],
      [side("m", "left"), side("m", "right")],
      16,
      [],
    );
    return { ...s, desk: { ...desk, outputDbu: 18 } };
  };
  /** What headroom and image show of it. */
  const figuresOf = (s: Setup): readonly number[] => {
    const figures = evaluate(s);
    const its = figures.buses.get("m");
    const mixed = figures.mixed.get("m") ?? [];
    if (!its) throw new Error("no bus");
    return [
      ...its.sides.flatMap(({ likely, playable, average }) => [likely, playable, average].map((x) => x ?? 0)),
      ...its.ceilings.map(({ headroom }) => headroom),
      ...mixed.flatMap(({ sides }) => sides),
    ];
  };
  const expectSame = (one: Setup, other: Setup): void => {
    const [a, b] = [figuresOf(one), figuresOf(other)];
    expect(a.length).toBe(b.length);
    a.forEach((value, i) => {
      expectNear(value, b[i] as number, 1e-9);
    });
  };

  it("has the figures of a pre-fader send with the fader added, where the send is post-fader", () => {
    fc.assert(
      fc.property(fader, level, pan, (f, l, p) => {
        expectSame(
          of({ fader: f, pan: p }, { tap: "post-fader", level: l }),
          of({ fader: 0, pan: p }, { tap: "pre-fader", level: l + f }),
        );
      }),
    );
  });

  it("has a muted channel's figures as without its send, behind the fader or by the desk's rule", () => {
    const out = of({}, { on: false });
    expectSame(of({ muted: true }, { tap: "post-fader" }), out);
    expectSame(of({ muted: true }, { tap: "pre-fader" }, muting(true)), out);
    expectSame(of({ muted: true }, { tap: "pre-fader" }), of({}, { tap: "pre-fader" }));
  });

  it("has a mono bus whatever was left of a stereo bus's sides", () => {
    const mono = (sideTrim: readonly [number, number], sideInverted: readonly [boolean, boolean]) => {
      const s = of({}, {});
      const [m] = s.buses;
      if (!m) throw new Error("no bus");
      return { ...s, buses: [{ ...m, stereo: false, sideTrim, sideInverted }] };
    };
    expectSame(mono([6, -20], [true, false]), mono([0, 0], [false, false]));
  });
});

describe("a monitor input's ceiling", () => {
  const of = (more: Partial<MonitorSystem>): Setup => {
    const s = setup(
      [channel("a", { peak: -10 })],
      [bus("m", ["a"], { padDb: 3 })],
      [side("m", "left", { trim: 4 }), side("m", "right"), direct("a", "both", { trim: 4 })],
    );
    return {
      ...s,
      desk: { ...BLANK_DESK, outputDbu: 18 },
      monitor: { ...s.monitor, maxInputDbu: 16, ...more },
    };
  };
  const inputOf = (s: Setup) =>
    ceilingLevelsOf(s, s.buses[0] as Setup["buses"][0]).find(({ place }) => place === "input")?.at;
  const directOf = (s: Setup) =>
    directOutFigures(s)[0]?.ceilings.find(({ place }) => place === "input")?.ceiling;

  it("is lower by a trim that lies before its input stage, and by none behind it", () => {
    // +16 dBu behind +18 dBu at 0 dBFS is −2 dBFS; the pad of the bus gives 3 dB, a trim of +4 dB takes 4.
    expect(inputOf(of({ trimBeforeInput: true }))).toEqual([-3, 1]);
    expect(inputOf(of({ trimBeforeInput: false }))).toEqual([1, 1]);
    expect(directOf(of({ trimBeforeInput: true }))).toBe(-6);
    expect(directOf(of({ trimBeforeInput: false }))).toBe(-2);
  });

  it("is 0 dBFS by a digital link, which has no dBu and no pad", () => {
    expect(inputOf(of({ link: "digital", trimBeforeInput: true }))).toEqual([-4, 0]);
    expect(inputOf(of({ link: "digital", trimBeforeInput: false }))).toEqual([0, 0]);
    expect(directOf(of({ link: "digital", trimBeforeInput: true }))).toBe(-4);
  });

  it("of the bus itself stands only where the desk's buses can overload", () => {
    const places = (busOverloads: boolean) => {
      const s = of({});
      const [m] = s.buses;
      if (!m) throw new Error("no bus");
      return ceilingLevelsOf({ ...s, desk: { ...s.desk, busOverloads } }, { ...m, fader: -5, trim: 2 });
    };
    expect(places(false).map(({ place }) => place)).toEqual(["output", "input"]);
    // The fader acts behind the bus, so its ceiling moves with it: −5 + 2.
    expect(places(true)[0]).toEqual({ place: "bus", at: [-3, -3] });
  });
});
