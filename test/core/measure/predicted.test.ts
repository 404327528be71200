import { describe, expect, it } from "vitest";
import { busFigures } from "../../../src/core/headroom/figures";
import { fullScaleSine } from "../../../src/core/level/analog";
import { levelOf } from "../../../src/core/level/decibels";
import { gainsInBus, type TrackPlace } from "../../../src/core/measure/bus-gains";
import type { MeasuredFigures } from "../../../src/core/measure/figures";
import { levelThrough } from "../../../src/core/measure/levels";
import { type BusPredicted, type PredictedName, predictedOf } from "../../../src/core/measure/predicted";
import { BLANK_SEND } from "../../../src/core/model/defaults";
import type { Bus, Setup } from "../../../src/core/model/setup";
import type { Outlet } from "../../../src/core/model/units";
import { figuresOf } from "../../measure/job";
import { expectNear } from "../../near";
import { noise } from "../../tools/chance.mjs";
import { channel, onlyBus, recordingOf, setupOf } from "../headroom/setups";

/** A kick, a hat and both channels of the keys; they share some noise, so that they correlate. */
const PLACES: readonly TrackPlace[] = [
  { channel: "kick", line: 0 },
  { channel: "hat", line: 0 },
  { channel: "keys", line: 0 },
  { channel: "keys", line: 1 },
];
const tracks = PLACES.map((_, t) => {
  const own = noise(t + 1);
  const common = noise(7);
  return Float64Array.from(
    { length: 96_000 },
    (_, i) => 0.2 * Math.exp(-((i + 3000 * t) % 20_000) / 4000) * (own() + common()),
  );
});
const band = (bus: Partial<Bus> = {}, console: Partial<Setup["desk"]> = {}): Setup =>
  setupOf(
    [
      channel("kick"),
      channel("hat", { pan: 0.7 }),
      channel("keys", { lines: 2, pan: -0.2 }),
      channel("bass"),
    ],
    { bus, console, inputMaxDbu: 15 },
  );

const measure = (setup: Setup): Promise<MeasuredFigures> =>
  figuresOf(tracks, gainsInBus(setup, onlyBus(setup), PLACES));

/** What stands beside each other after a change from one setup to another, by the first one's measurement. */
const figuresAfter = (figures: MeasuredFigures, was: Setup, now: Setup): BusPredicted =>
  predictedOf(now, onlyBus(now), figures, PLACES, gainsInBus(was, onlyBus(was), PLACES));

const row = (of: BusPredicted, mix: Outlet, name: PredictedName) =>
  of.mixes.find((m) => m.mix === mix)?.rows.find((r) => r.name === name) ?? null;
const measuredOf = (of: BusPredicted, mix: Outlet, name: PredictedName): number | null =>
  row(of, mix, name)?.measured ?? null;

describe("estimate beside measurement", () => {
  it("as measured: the mixes themselves, and the estimate of what is in the recording only", async () => {
    const setup = band();
    const figures = await measure(setup);
    const of = figuresAfter(figures, setup, setup);
    expect(of.missing).toEqual(["bass"]);
    expect(of.stale).toBe(false);
    const bus = onlyBus(setup);
    const without = busFigures(setup, { ...bus, sends: bus.sends.filter((s) => s.channel !== "bass") });
    const estimates = { left: without.sides[0], right: without.sides[1], mono: without.mono };
    for (const mix of ["left", "right", "mono"] as const) {
      const is = figures.mixes[mix];
      expectNear(measuredOf(of, mix, "average"), is.rms, 1e-6);
      for (const name of ["likely", "playable", "allAtOnce"] as const) {
        expect(measuredOf(of, mix, name)).toBe(is.peak);
        expect(row(of, mix, name)?.estimate).toBe(estimates[mix][name]);
        expectNear(row(of, mix, name)?.difference ?? null, estimates[mix][name] - is.peak, 1e-12);
      }
      expect(row(of, mix, "truePeak")).toMatchObject({
        estimate: null,
        measured: is.truePeak,
        difference: null,
      });
    }
  });

  it("headroom goes by the higher peak between the samples, at every ceiling", async () => {
    // 18 dBu at full scale into an input of 15 dBu behind a pad of 1 dB: its ceiling lies at −2 dBFS.
    const setup = band({ trim: -4, padDb: 1 });
    const figures = await measure(setup);
    const { ceilings } = figuresAfter(figures, setup, setup);
    const top = Math.max(figures.mixes.left.truePeak, figures.mixes.right.truePeak);
    expect(ceilings.map((c) => c.place)).toEqual(["bus", "output", "input"]);
    [-4, 0, -2].forEach((ceiling, i) => {
      expectNear(ceilings[i]?.measured ?? null, ceiling - top, 1e-9);
      expect(ceilings[i]?.state).toBe(["under target", "fine", "fine"][i]);
      const { estimate, measured, difference } = ceilings[i] ?? {};
      expectNear(difference ?? null, (estimate ?? 99) - (measured ?? 0), 1e-12);
    });
  });

  it.each<[string, Partial<Bus>, Partial<Setup["desk"]>]>([
    ["another law", {}, { law: "linear" }],
    ["one polarity", { sideInverted: [true, false], sideTrim: [0, -3] }, {}],
    ["folded", { folded: true }, {}],
    [
      "other sends and pans",
      {
        sends: [
          { channel: "kick", on: true, level: -3, tap: "post-fader" as const, pan: 1 },
          { channel: "keys", on: true, level: 2, tap: "post-fader" as const, pan: null },
        ],
      },
      {},
    ],
  ])("%s: levels follow exactly without the samples", async (_, bus, console) => {
    const [was, now] = [band(), band(bus, console)];
    const of = figuresAfter(await measure(was), was, now);
    const again = await measure(now);
    for (const mix of ["left", "right", "mono"] as const)
      expectNear(measuredOf(of, mix, "average"), again.mixes[mix].rms, 1e-6, mix);
  });

  it("peaks follow what is alike for all tracks, and are stale after anything else", async () => {
    const was = band();
    const figures = await measure(was);
    const { peak, truePeak } = figures.mixes.left;
    const trimmed = figuresAfter(figures, was, band({ trim: -3, sideInverted: [true, true] }));
    expect(trimmed.stale).toBe(false);
    expectNear(measuredOf(trimmed, "left", "likely"), peak - 3, 1e-9);
    expectNear(measuredOf(trimmed, "left", "truePeak"), truePeak - 3, 1e-9);

    const one = figuresAfter(figures, was, band({ sideTrim: [-3, 0] }));
    expect(one.mixes.map((m) => m.stale)).toEqual([false, false, true]);
    expect(one.stale).toBe(true);

    const panned = figuresAfter(figures, was, band({}, { law: "linear" }));
    expect(panned.mixes.every((m) => m.stale)).toBe(true);
    expect(measuredOf(panned, "left", "likely")).toBe(peak);

    const off = figuresAfter(figures, was, band({ sends: [] }));
    expect(off.stale).toBe(false);
    expect(measuredOf(off, "left", "likely")).toBe(Number.NEGATIVE_INFINITY);
    expect(row(off, "left", "likely")?.difference).toBeNull();
    // From silence nothing follows.
    const silent = band({ sends: [] });
    expect(figuresAfter(await measure(silent), silent, was).stale).toBe(true);
  });

  it("the correlated level has a row where the recording tells it, and none elsewhere", async () => {
    const setup = band();
    const figures = await measure(setup);
    const names = (of: BusPredicted): PredictedName[][] => of.mixes.map((m) => m.rows.map((r) => r.name));
    const others: PredictedName[] = ["level", "likely", "playable", "allAtOnce", "truePeak"];
    const without: PredictedName[] = ["average", ...others];
    expect(names(figuresAfter(figures, setup, setup))).toEqual([without, without, without]);

    const recorded = { ...setup, recording: recordingOf(["kick", "hat", "keys"], 0.5) };
    const of = figuresAfter(figures, recorded, recorded);
    const all: PredictedName[] = ["average", "correlated", ...others];
    expect(names(of)).toEqual([all, all, all]);
    for (const mix of ["left", "right", "mono"] as const) {
      const { estimate, measured, difference } = row(of, mix, "correlated") ?? {};
      expect(measured).toBe(measuredOf(of, mix, "average"));
      // Three channels of −20 dBFS that correlate by half are louder together than three that do not.
      expect(estimate).toBeGreaterThan(row(of, mix, "average")?.estimate ?? Number.NaN);
      expectNear(difference ?? null, (estimate ?? 99) - (measured ?? 0), 1e-12);
    }
  });

  it("what is estimated silent and was measured sounding has no difference", async () => {
    const none = Number.NEGATIVE_INFINITY;
    const setup = band();
    const silent = { ...setup, channels: setup.channels.map((s) => ({ ...s, gatedRms: none, peak: none })) };
    const of = figuresAfter(await measure(setup), setup, silent);
    for (const name of ["average", "likely"] as const) {
      expect(row(of, "left", name)).toMatchObject({ estimate: none, difference: null });
      expect(measuredOf(of, "left", name)).toBeGreaterThan(-40);
    }
  });

  it("the average of copied figures is the measured one, but for what the tracks have in common", async () => {
    const setup = band({ sends: [{ ...BLANK_SEND, channel: "kick" }] });
    const figures = await measure(setup);
    const kick = figures.tracks[0];
    if (!kick) throw new Error("no track");
    const copied = {
      ...setup,
      channels: setup.channels.map((c) =>
        c.id === "kick" ? { ...c, gatedRms: kick.gatedRms, activity: kick.activity } : c,
      ),
    };
    // What lies more than 20 dB under the loudest block is in the mean of all, and in no gated level.
    expectNear(row(figuresAfter(figures, copied, copied), "left", "average")?.difference ?? null, 0, 0.05);
  });

  it("the level when everybody plays stands beside what it is measured as, in the console's convention", async () => {
    const setup = band({}, { rms: "aes17" });
    const figures = await measure(setup);
    const of = figuresAfter(figures, setup, setup);
    const gains = gainsInBus(setup, onlyBus(setup), PLACES);
    const { together } = levelThrough(
      figures,
      gains.map(([left]) => left),
    );
    expectNear(measuredOf(of, "left", "level"), (together ?? 0) - fullScaleSine("sample"), 1e-9);
    const drums = { ...onlyBus(setup), sends: onlyBus(setup).sends.filter((s) => s.channel !== "bass") };
    expect(row(of, "left", "level")?.estimate).toBe(busFigures(setup, drums).sides[0].level);
    // A bass is no drum, but is not in the recording either; keys are, so nobody knows how good the estimate is.
    expect(of.levelErrors).toBeNull();
  });

  it("the ceiling that decides is the first of those that are equal but for rounding", async () => {
    // 18.1 dBu into an input of 18 dBu behind a pad of 0.1 dB: 0 dBFS, but for the last digit.
    const setup = { ...band({ padDb: 0.1 }, { outputDbu: 18.1 }) };
    const same = { ...setup, monitor: { ...setup.monitor, maxInputDbu: 18 } };
    const { ceilings, lowest } = figuresAfter(await measure(same), same, same);
    const [first, , last] = ceilings.map((c) => c.measured ?? 0);
    expect(last).not.toBe(first);
    expect(last).toBeLessThan(first ?? 0);
    expect(lowest).toBe(ceilings[0]);
    const low = { ...same, monitor: { ...same.monitor, maxInputDbu: 15 } };
    expect(figuresAfter(await measure(low), low, low).lowest.place).toBe("input");
  });

  it("a mono bus has one side", async () => {
    // The trim of a right side that it does not have means nothing.
    const setup = band({ stereo: false, sideTrim: [0, 6] });
    const figures = await measure(setup);
    const of = figuresAfter(figures, setup, setup);
    expect(of.mixes.map((m) => m.mix)).toEqual(["left"]);
    expectNear(of.ceilings[1]?.measured ?? null, -figures.mixes.left.truePeak, 1e-9);
  });

  it("levels are in the console's convention, peaks the same in both", async () => {
    const [samples, aes17] = [band(), band({}, { rms: "aes17" })];
    const figures = await measure(samples);
    const [a, b] = [figuresAfter(figures, samples, samples), figuresAfter(figures, aes17, aes17)];
    expectNear(
      measuredOf(b, "left", "average"),
      (measuredOf(a, "left", "average") ?? 0) - fullScaleSine("sample"),
      1e-9,
    );
    expectNear(-fullScaleSine("sample"), levelOf(Math.SQRT2), 1e-12);
    expect(measuredOf(b, "left", "likely")).toBe(measuredOf(a, "left", "likely"));
  });

  it("without a bus the tracks go nowhere", () => {
    expect(gainsInBus(band(), null, PLACES)).toEqual(PLACES.map(() => [0, 0]));
  });
});
