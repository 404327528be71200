import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import type { SideFigures } from "../../../src/core/headroom/side";
import { fullScaleSine } from "../../../src/core/level/analog";
import { withBusSwapped } from "../../../src/core/mix/pair-order";
import type { Bus, Channel, Setup } from "../../../src/core/model/setup";
import type { Sides } from "../../../src/core/model/units";
import { swapBus } from "../../../src/document/commands/buses";
import { exampleSetup } from "../../../src/document/example";
import { expectNear, printed, TINY } from "../../near";
import { EQUAL_SOURCES, EXAMPLE_KIT, EXAMPLE_SUMS } from "../../tables/example-kit";
import { anySetup, channel, onlyBus, recordingOf, setupOf } from "./setups";

const figuresOf = (setup: Setup) => busFigures(setup, onlyBus(setup));

const expectAtMost = (low: number, high: number, what: string): void =>
  expect(low, what).toBeLessThanOrEqual(high + TINY);

const outletsOf = (setup: Setup): SideFigures[] => {
  const { sides, mono } = figuresOf(setup);
  return [...sides, mono];
};

/** Paths of everything that is NaN or undefined. */
const holes = (value: unknown, path = ""): string[] => {
  if (value === undefined || Number.isNaN(value)) return [path];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, v]) => holes(v, `${path}.${key}`));
};

const withBus = (setup: Setup, change: (bus: Bus) => Partial<Bus>): Setup => {
  const bus = onlyBus(setup);
  return { ...setup, buses: [{ ...bus, ...change(bus) }] };
};

describe("the invented kit, computed at 40 digits", () => {
  const channels = EXAMPLE_KIT.map(([id, pan, peak]) => channel(id, { pan, peak, gatedRms: peak }));

  it.each(EXAMPLE_SUMS)("%s", (law, peakLeft, peakRight, powerLeft, powerRight, peakMono) => {
    const { sides, mono } = figuresOf(setupOf(channels, { console: { law } }));
    expectNear(sides[0].allAtOnce, peakLeft, printed(4));
    expectNear(sides[1].allAtOnce, peakRight, printed(4));
    expectNear(sides[0].level, powerLeft, printed(4));
    expectNear(sides[1].level, powerRight, printed(4));
    expectNear(mono.allAtOnce, peakMono, printed(4));
  });

  it.each(EXAMPLE_SUMS)("%s mirrored", (law, peakLeft, peakRight, powerLeft, powerRight, peakMono) => {
    const mirrored = channels.map((s) => ({ ...s, pan: -s.pan }));
    const { sides, mono } = figuresOf(setupOf(mirrored, { console: { law } }));
    expectNear(sides[1].allAtOnce, peakLeft, printed(4));
    expectNear(sides[0].allAtOnce, peakRight, printed(4));
    expectNear(sides[1].level, powerLeft, printed(4));
    expectNear(sides[0].level, powerRight, printed(4));
    expectNear(mono.allAtOnce, peakMono, printed(4));
  });
});

describe("equal channels in a mono bus", () => {
  const mono = (n: number) =>
    figuresOf(
      setupOf(
        Array.from({ length: n }, (_, i) => channel(`s${i}`, { gatedRms: -20, peak: -6 })),
        { bus: { stereo: false } },
      ),
    );

  it.each(EQUAL_SOURCES)("%d of them", (n, level, peak) => {
    const { sides, mono: fold } = mono(n);
    expectNear(sides[0].level + 20, level, printed(4));
    expectNear(sides[0].allAtOnce + 6, peak, printed(4));
    expect(sides[1]).toEqual(sides[0]);
    expect(fold).toEqual(sides[0]);
  });

  it("likely peak is the loudest and the root-sum-square of the rest", () => {
    // Five at 0.5: 0.5 + 0.5·√4 = 1.5.
    const peak = 20 * Math.log10(0.5);
    const setup = setupOf(
      Array.from({ length: 5 }, (_, i) => channel(`s${i}`, { peak })),
      { bus: { stereo: false } },
    );
    expectNear(figuresOf(setup).sides[0].likely, 20 * Math.log10(1.5), 1e-12);
  });
});

describe("a full-scale sine", () => {
  it.each(["sample", "aes17"] as const)("in the %s convention", (rms) => {
    const level = fullScaleSine(rms);
    const alone = setupOf([channel("s", { gatedRms: level, peak: 0 })], {
      console: { rms },
      bus: { stereo: false },
    });
    const { sides, ceilings } = figuresOf(alone);
    expectNear(sides[0].level, rms === "sample" ? -3.01 : 0, printed(2));
    // Its crest factor: peak over the rms of the samples themselves, whatever rms prints as.
    expectNear(
      sides[0].likely - (sides[0].level - fullScaleSine(rms) + fullScaleSine("sample")),
      3.0103,
      printed(4),
    );
    // The peak meets the ceilings alike: full scale is the top of the bus and of the output.
    expect(ceilings.slice(0, 2).map((c) => c.headroom)).toEqual([0, 0]);
  });
});

describe("channels, polarity and fold", () => {
  it("takes both channels of a channel into one side: power sum for the level, peak sum for the peak", () => {
    // Two-channel pan hard left by the W3C law puts both channels at unity into the left.
    const setup = setupOf([channel("s", { lines: 2, pan: -1, gatedRms: -20, peak: -6 })], {
      console: { stereoLaw: "pan" },
    });
    const { sides } = figuresOf(setup);
    expectNear(sides[0].level, -20 + 3.0103, printed(4));
    expectNear(sides[0].allAtOnce, -6 + 6.0206, printed(4));
    expect([sides[1].level, sides[1].allAtOnce]).toEqual([-Infinity, -Infinity]);
  });

  it("counts the peaks of both channels against each other as meeting", () => {
    // In the fold with a side inverted the channels arrive with opposite signs: +1 and −1, peaks up to 2.
    const setup = setupOf([channel("s", { lines: 2, gatedRms: -20, peak: -6 })], {
      bus: { sideInverted: [false, true] },
    });
    const { mono } = figuresOf(setup);
    expectNear(mono.allAtOnce, -6 + 6.0206, printed(4));
    expectNear(mono.level, -20 + 3.0103, printed(4));
  });

  it("folds channel by source: with a side inverted the centre vanishes and the sides stay", () => {
    const setup = setupOf([channel("centre"), channel("side", { pan: 1 })], {
      bus: { sideInverted: [false, true] },
    });
    const { mono, folds } = figuresOf(setup);
    expect(mono.contributions.map((c) => c.peak)).toEqual([-Infinity, expect.closeTo(-6, 10)]);
    expect(folds.map((f) => f.rise)).toEqual([-Infinity, 0]);
  });

  it.each([
    ["sine", 3.0103],
    ["root", 3.0103],
    ["linear", 0],
    ["mean45", 1.505],
    ["cosine2", 0],
  ] as const)("the centre rises against the sides: %s", (law, rise) => {
    const channels = [channel("left", { pan: -1 }), channel("centre"), channel("right", { pan: 1 })];
    const setup = setupOf(channels, { console: { law }, bus: { trim: -7 } });
    const [left, centre, right] = figuresOf(setup).folds.map((f) => f.rise) as [number, number, number];
    expectNear(centre - left, rise, printed(3));
    expectNear(right - left, 0, TINY);
    expectNear(left, 0, TINY);
  });

  it("says what the far side drops to in one ear, by the way the pair is patched", () => {
    const channels = [
      channel("a", { pan: -1 }),
      channel("b", { pan: 0.5 }),
      channel("c", { pan: 0.2 }),
      channel("d"),
    ];
    const straight = figuresOf(setupOf(channels)).oneEar;
    expect(straight.map((far) => far.map((f) => f.channel))).toEqual([["b", "c"], ["a"]]);
    // sin/cos at ±0.5: 7.656 dB, at ±0.2: 2.775 dB between the sides.
    expectNear(straight[0][0]?.drop ?? null, -7.656, printed(3));
    expectNear(straight[0][1]?.drop ?? null, -2.775, printed(3));
    expect(straight[1][0]?.drop).toBe(-Infinity);
    const reversed = figuresOf(setupOf(channels, { bus: { swapped: true } })).oneEar;
    expect(reversed).toEqual([straight[1], straight[0]]);
    const mono = setupOf(channels, { bus: { stereo: false, sideTrim: [0, 9] } });
    expect(figuresOf(mono).oneEar).toEqual([[], []]);
  });

  const patched = (setup: Setup, inputs: Setup["monitor"]["inputs"]): Setup => ({
    ...setup,
    monitor: { ...setup.monitor, inputs },
  });
  const sideInput = (side: "left" | "right", trim = 0, on = true) => ({
    port: null,
    feed: { kind: "bus", bus: "m", side } as const,
    on,
    trim,
  });

  it("counts the trims and switches of the inputs, as the image does", () => {
    const setup = setupOf([channel("a", { pan: 0.5 }), channel("b", { pan: 0.2 })]);
    const trimmed = figuresOf(patched(setup, [sideInput("left", 6), sideInput("right")])).oneEar;
    // 7.656 dB to the right between the sides, 6 dB back by the input; 2.775 dB are turned over by it.
    expect(trimmed.map((far) => far.map((f) => f.channel))).toEqual([["a"], ["b"]]);
    expectNear(trimmed[0][0]?.drop ?? null, -7.656 + 6, printed(3));
    expectNear(trimmed[1][0]?.drop ?? null, 2.775 - 6, printed(3));
    const off = figuresOf(patched(setup, [sideInput("left", 0, false), sideInput("right")])).oneEar;
    expect(off[0].map((f) => f.drop)).toEqual([-Infinity, -Infinity]);
    const turned = figuresOf(patched(setup, [sideInput("right", 6), sideInput("left")])).oneEar;
    expectNear(turned[1][0]?.drop ?? null, -7.656 - 6, printed(3));
  });

  it("a swap at the patch changes what one ear gets and nothing else, whatever lies in the inputs", () => {
    const input = fc.option(
      fc.record({
        feed: fc.oneof(
          fc.constantFrom(sideInput("left").feed, sideInput("right").feed),
          fc.constant({ kind: "channel", channel: "s1", side: "both" } as const),
        ),
        port: fc.constant(null),
        on: fc.boolean(),
        trim: fc.integer({ min: -10, max: 6 }),
      }),
      { freq: 4 },
    );
    let ears = 0;
    fc.assert(
      fc.property(anySetup(6), fc.array(input, { maxLength: 6 }), (any, inputs) => {
        const before = patched(
          withBus(any, () => ({ stereo: true })),
          inputs,
        );
        const after = withBusSwapped(before, onlyBus(before));
        const { oneEar: was, ...all } = figuresOf(before);
        const { oneEar: is, ...same } = figuresOf(after);
        expect(same).toEqual(all);
        expect(after.channels).toBe(before.channels);
        if (JSON.stringify(was) !== JSON.stringify(is)) ears += 1;
      }),
    );
    // The command does the same, in a setup as it is kept.
    const file = exampleSetup();
    const swapped = swapBus("m1").apply(file);
    const { oneEar: was, ...all } = busFigures(file, onlyBus(file));
    const { oneEar: is, ...same } = busFigures(swapped, onlyBus(swapped));
    expect(same).toEqual(all);
    expect(is).toEqual([was[1], was[0]]);
    expect(ears).toBeGreaterThan(0);
  });
});

describe("correlations of a recording", () => {
  const two = (correlation: number, inverted = false) =>
    figuresOf(
      setupOf([channel("a"), channel("b", { inverted }), channel("c", { gatedRms: -30 })], {
        bus: { stereo: false },
        recording: recordingOf(["a", "b"], correlation),
      }),
    ).sides[0].correlated;
  const withThird = (power: number) => 10 * Math.log10(power * 0.01 + 0.001);

  it("add with their sign and with the polarity", () => {
    expectNear(two(1), withThird(4), TINY);
    expectNear(two(0.5), withThird(3), TINY);
    expectNear(two(0), withThird(2), TINY);
    expectNear(two(0.5, true), withThird(1), TINY);
    expectNear(two(1, true), withThird(0), TINY);
  });

  it("say nothing of fewer than two of the channels", () => {
    const of = (ids: string[]) =>
      figuresOf(setupOf([channel("a"), channel("b")], { recording: recordingOf(ids, 0.5) })).sides[0]
        .correlated;
    expect(of(["a", "x"])).toBeNull();
    expect(of(["a", "b"])).not.toBeNull();
  });
});

describe("loss, shares and laws", () => {
  it("counts against the loudest single channel before its pan", () => {
    // Two equal channels at one side: likely peak 6.0206 dB above one; trims do not count.
    const two = [channel("a", { pan: -1 }), channel("b", { pan: -1 })];
    const { loss, alone } = figuresOf(setupOf(two, { bus: { trim: -5, sideTrim: [2, 0] } }));
    expectNear(alone, -6, TINY);
    expectNear(loss[0], 6.0206, printed(4));
    expect(loss[1]).toBeNull();
  });

  it("takes the loudest after its send", () => {
    const sends = [
      { channel: "a", on: true, level: -10, tap: "post-fader" as const, pan: null },
      { channel: "b", on: true, level: -2, tap: "post-fader" as const, pan: null },
    ];
    const { alone, loss } = figuresOf(
      setupOf([channel("a"), channel("b")], { bus: { stereo: false, sends } }),
    );
    expectNear(alone, -8, TINY);
    // The other is 8 dB under it.
    expectNear(loss[0], 20 * Math.log10(1 + 10 ** (-8 / 20)), TINY);
  });

  it.each([
    ["sine", 3.0103],
    ["root", 3.0103],
    ["linear", 6.0206],
    ["mean45", 4.5154],
    ["cosine2", 6.0206],
  ] as const)("centre at 0 dB costs a fully panned channel its boost: %s", (law, boost) => {
    const { laws } = figuresOf(setupOf([channel("a", { pan: 1 }), channel("b", { pan: 0.3, peak: -30 })]));
    const row = (reference: string) => laws.find((l) => l.law === law && l.reference === reference);
    expectNear((row("centre")?.loss ?? 0) - (row("sides")?.loss ?? 0), boost, printed(3));
    expectNear((row("sides")?.headroom ?? 0) - (row("centre")?.headroom ?? 0), boost, printed(3));
  });

  it("the believed law's row is what the figures say, and there is one such row", () => {
    fc.assert(
      fc.property(anySetup(6), (setup) => {
        const { laws, sides, mono, loss, lowest } = figuresOf(setup);
        const believed = laws.filter((l) => l.believed);
        expect(believed).toHaveLength(1);
        const losses = loss.filter((l) => l !== null);
        expect(believed[0]).toMatchObject({
          likely: [sides[0].likely, sides[1].likely],
          likelyMono: mono.likely,
          loss: losses.length === 0 ? null : Math.max(...losses),
          headroom: lowest.headroom,
          lowest: lowest.place,
        });
      }),
    );
  });

  it("shares add up, and the costliest has the most", () => {
    fc.assert(
      fc.property(anySetup(8), (setup) => {
        for (const side of outletsOf(setup)) {
          const energy = side.contributions.map((c) => c.energyShare);
          const peak = side.contributions.map((c) => c.peakShare);
          if (side.level > -Infinity)
            expectNear(
              energy.reduce((a, b) => a + b, 0),
              1,
              TINY,
            );
          if (side.allAtOnce > -Infinity)
            expectNear(
              peak.reduce((a, b) => a + b, 0),
              1,
              TINY,
            );
          expect(side.costliest.energy?.share ?? 0).toBe(Math.max(0, ...energy));
          expect(side.costliest.peak?.share ?? 0).toBe(Math.max(0, ...peak));
        }
      }),
    );
  });
});

describe("on any setup", () => {
  it("nothing is NaN", () => {
    fc.assert(
      fc.property(anySetup(10), (setup) => {
        expect(holes(figuresOf(setup))).toEqual([]);
      }),
    );
  });

  it("loudest ≤ likely peak and playable ceiling ≤ all at once", () => {
    fc.assert(
      fc.property(anySetup(10), (setup) => {
        for (const { loudest, likely, playable, allAtOnce } of outletsOf(setup)) {
          expectAtMost(loudest?.peak ?? -Infinity, likely, "loudest, likely");
          expectAtMost(loudest?.peak ?? -Infinity, playable, "loudest, playable");
          expectAtMost(likely, allAtOnce, "likely, all at once");
          expectAtMost(playable, allAtOnce, "playable, all at once");
        }
      }),
    );
  });

  it("level ≤ coherent level: all correlations 1, no polarity switched", () => {
    fc.assert(
      fc.property(anySetup(8), (setup) => {
        const ids = setup.channels.map((s) => s.id);
        const coherent: Setup = {
          ...setup,
          channels: setup.channels.map((s) => ({ ...s, inverted: false })),
          recording: recordingOf(ids, 1),
        };
        const { sides } = figuresOf(coherent);
        for (const side of sides) {
          if (side.correlated !== null) expectAtMost(side.level, side.correlated, "level, coherent");
          const amplitudes = side.contributions.map((c) => 10 ** ((c.level ?? -Infinity) / 20));
          const bound = 20 * Math.log10(amplitudes.reduce((a, b) => a + b, 0));
          if (side.correlated !== null) expectNear(side.correlated, bound, TINY);
        }
      }),
    );
  });

  it("adding or unmuting a channel lowers nothing, muting one raises nothing", () => {
    fc.assert(
      fc.property(anySetup(8), fc.nat(7), (setup, at) => {
        const mute = (muted: boolean): Setup => ({
          ...setup,
          channels: setup.channels.map((s, i): Channel => (i === at ? { ...s, muted } : s)),
        });
        const without = outletsOf(mute(true));
        const removed = withBus(setup, (bus) => ({ sends: bus.sends.filter((_, i) => i !== at) }));
        expect(outletsOf(removed)).toEqual(without);
        outletsOf(mute(false)).forEach((side, i) => {
          for (const figure of ["level", "likely", "playable", "allAtOnce"] as const)
            expectAtMost(without[i]?.[figure] ?? 0, side[figure], figure);
        });
      }),
    );
  });

  it("a mirror swaps the columns and nothing else, and leaves the mono figures", () => {
    const swap = <T>([left, right]: Sides<T>): Sides<T> => [right, left];
    /** Below this, dB, what is left of two equal gains is rounding. */
    const GONE = -200;
    const close = (a: unknown, b: unknown, path: string): void => {
      if (typeof a === "number" && typeof b === "number")
        expectNear(Math.max(a, GONE), Math.max(b, GONE), 1e-6, path);
      else if (typeof a === "object" && a !== null && typeof b === "object" && b !== null) {
        expect(Object.keys(a), path).toEqual(Object.keys(b));
        for (const [key, value] of Object.entries(a))
          close(value, (b as Record<string, unknown>)[key], `${path}.${key}`);
      } else expect(a, path).toEqual(b);
    };
    fc.assert(
      fc.property(anySetup(8), (any) => {
        const setup = withBus(any, () => ({ stereo: true }));
        const bus = onlyBus(setup);
        const mirrored: Setup = {
          ...setup,
          channels: setup.channels.map((s) => ({ ...s, pan: -s.pan })),
          buses: [
            {
              ...bus,
              sends: bus.sends.map((s) => ({ ...s, pan: s.pan === null ? null : -s.pan })),
              sideTrim: swap(bus.sideTrim),
              sideInverted: swap(bus.sideInverted),
            },
          ],
        };
        const a = figuresOf(setup);
        const b = figuresOf(mirrored);
        // Which of two equal shares is called the costliest, and the loudest of equals, is rounding.
        const figures = (side: SideFigures) => ({
          ...side,
          costliest: null,
          loudest: side.loudest?.peak ?? 0,
        });
        close(a.sides.map(figures), swap(b.sides).map(figures), "legs");
        close(figures(a.mono), figures(b.mono), "mono");
        close(a.loss, swap(b.loss), "loss");
        close(a.folds, b.folds, "folds");
        close(
          a.ceilings.map((c) => [c.place, c.headroom]),
          b.ceilings.map((c) => [c.place, c.headroom]),
          "ceilings",
        );
        close(
          a.laws.map((l) => l.likely),
          b.laws.map((l) => swap(l.likely)),
          "laws",
        );
      }),
    );
  });

  it("names what is not known and leaves it out", () => {
    const setup = setupOf([channel("a"), channel("b", { gatedRms: null }), channel("c", { peak: null })]);
    const { unknown, sides } = figuresOf(setup);
    expect(unknown).toEqual({ level: ["b"], peak: ["c"] });
    expect(sides[0].contributions.map((c) => [c.level === null, c.peak === null])).toEqual([
      [false, false],
      [true, false],
      [false, true],
    ]);
    expectNear(sides[0].level, 10 * Math.log10(2 * 0.5 * 10 ** -2), TINY);
  });

  it("an empty bus is silent, one channel is itself, 512 and +40 dB are finite", () => {
    const empty = figuresOf(setupOf([]));
    expect([empty.sides[0].level, empty.sides[0].likely, empty.mono.playable]).toEqual([
      -Infinity,
      -Infinity,
      -Infinity,
    ]);
    expect(empty.loss).toEqual([null, null]);
    expect(empty.lowest).toMatchObject({ headroom: Infinity, state: "silent" });
    const one = figuresOf(setupOf([channel("a", { pan: -1 })])).sides[0];
    expect([one.level, one.likely, one.playable, one.allAtOnce]).toEqual(
      [-20, -6, -6, -6].map((x) => expect.closeTo(x, 10)),
    );
    const many = Array.from({ length: 512 }, (_, i) => channel(`s${i}`, { pan: i / 256 - 1 }));
    const sends = many.map((s) => ({
      channel: s.id,
      on: true,
      level: 40,
      tap: "post-fader" as const,
      pan: null,
    }));
    const full = figuresOf(setupOf(many, { bus: { sends } }));
    expect(holes(full)).toEqual([]);
    expect(full.lowest.state).toBe("over");
    expect(Number.isFinite(full.sides[0].allAtOnce)).toBe(true);
  });
});
