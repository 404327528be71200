import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SLACK } from "../../../src/core/headroom/ceilings";
import { type BusFigures, busFigures } from "../../../src/core/headroom/figures";
import type { Bus, Channel, Setup } from "../../../src/core/model/setup";
import { RANGES } from "../../../src/document/limits";
import { expectNear } from "../../near";
import { ALIGNMENTS } from "../../tables/analogue-levels";
import { anySetup, channel, onlyBus, setupOf } from "./setups";

const figuresOf = (setup: Setup) => busFigures(setup, onlyBus(setup));

const changed = (setup: Setup, change: Partial<Bus>): Setup => ({
  ...setup,
  buses: [{ ...onlyBus(setup), ...change }],
});

/** The bus with some sends lowered. */
const lowered = (setup: Setup, by: ReadonlyMap<string, number>): Setup =>
  changed(setup, {
    sends: onlyBus(setup).sends.map((s) =>
      s.level === null ? s : { ...s, level: s.level - (by.get(s.channel) ?? 0) },
    ),
  });

const allLowered = (setup: Setup, by: number) =>
  lowered(setup, new Map(setup.channels.map((s) => [s.id, by])));
const hasMargin = ({ lowest }: BusFigures, margin: number) => lowest.headroom >= margin - 2 * SLACK;

describe("ceilings", () => {
  // EBU R 68, SMPTE RP 155 and others: a sine at alignment leaves the output with the alignment's dBu.
  it.each(ALIGNMENTS)("%d dBu at %d dBFS, full scale at %d dBu", (dbu, dbfs, atFullScale) => {
    const setup = setupOf([channel("sine", { pan: -1, peak: dbfs })], {
      console: { outputDbu: atFullScale },
      inputMaxDbu: dbu,
    });
    const [bus, output, input] = figuresOf(setup).ceilings;
    expectNear(bus?.headroom ?? null, -dbfs, 1e-9);
    expectNear(output?.headroom ?? null, -dbfs, 1e-9);
    expectNear(input?.ceiling ?? null, dbfs, 1e-12);
    expectNear(input?.headroom ?? null, 0, 1e-9);
  });

  it("EBU R 68: the permitted maximum 9 dB above alignment keeps 9 dB under full scale", () =>
    expectNear(
      figuresOf(setupOf([channel("sine", { pan: -1, peak: -18 + 9 })])).ceilings[1]?.headroom ?? null,
      9,
      1e-9,
    ));

  const one = (bus: Partial<Bus>, inputMaxDbu: number) =>
    figuresOf(setupOf([channel("a", { pan: -1, peak: -6 })], { bus, inputMaxDbu }));
  const rooms = (f: BusFigures) => f.ceilings.map((c) => expect.closeTo(c.headroom, 9));

  it("a trim gives the output and the input room, not the bus before it; a pad only the input", () => {
    expect([6, 6, 3]).toEqual(rooms(one({}, 15)));
    expect([6, 16, 13]).toEqual(rooms(one({ trim: -10 }, 15)));
    expect([6, 4, 1]).toEqual(rooms(one({ sideTrim: [2, -20] }, 15)));
    expect([6, 6, 13]).toEqual(rooms(one({ padDb: 10 }, 15)));
  });

  it("a mono bus has no right side to trim", () => {
    const mono = one({ stereo: false, sideTrim: [0, -20] }, 15);
    expect([6, 6, 3]).toEqual(rooms(mono));
    expect(mono.loss[1]).toBe(mono.loss[0]);
  });

  it("names the lowest, the first of equals, and the side that comes closest", () => {
    expect(one({}, 15).lowest).toMatchObject({ place: "input", side: "left", state: "under target" });
    expect(one({}, 24).lowest).toMatchObject({ place: "bus", state: "fine" });
    expect(one({ trim: 3 }, 24).lowest).toMatchObject({ place: "output", state: "under target" });
    expect(one({ trim: 7 }, 24).lowest).toMatchObject({ place: "output", state: "over" });
    expect(figuresOf(setupOf([channel("a", { pan: 0.4 })])).lowest.side).toBe("right");
  });

  it("knows silence from not knowing", () => {
    expect(figuresOf(setupOf([channel("a", { muted: true })])).lowest.state).toBe("silent");
    expect(figuresOf(setupOf([channel("a", { peak: null })])).lowest.state).toBe("unknown");
  });
});

describe("what restores the margin", () => {
  it("is nothing where every ceiling has it, on any setup", () => {
    fc.assert(
      fc.property(anySetup(8), (setup) => {
        const { remedy, ceilings } = figuresOf(setup);
        const short = ceilings.some((c) => c.state === "over" || c.state === "under target");
        expect(remedy !== null).toBe(short);
      }),
    );
  });

  it("the trim: on the desk's steps, restores every ceiling, a step more does not", () => {
    fc.assert(
      fc.property(anySetup(8), (setup) => {
        const trim = figuresOf(setup).remedy?.trim;
        if (trim?.code !== "enough") return;
        const step = setup.desk.levelStep;
        expectNear(trim.to / step, Math.round(trim.to / step), 1e-9);
        expectNear(onlyBus(setup).trim - trim.by, trim.to, 1e-9);
        const { targetHeadroom } = setup.preferences;
        expect(hasMargin(figuresOf(changed(setup, { trim: trim.to })), targetHeadroom)).toBe(true);
        const more = figuresOf(changed(setup, { trim: trim.to + step }));
        expect(more.lowest.headroom).toBeLessThan(targetHeadroom);
      }),
    );
  });

  it("no trim where the bus itself lacks headroom: the lowest there is does not restore it", () => {
    let found = 0;
    fc.assert(
      fc.property(anySetup(8), (setup) => {
        const trim = figuresOf(setup).remedy?.trim;
        if (trim?.code !== "bus before trim") return;
        found += 1;
        const lowest = figuresOf(changed(setup, { trim: RANGES.trim.min }));
        expect(hasMargin(lowest, setup.preferences.targetHeadroom)).toBe(false);
      }),
    );
    expect(found).toBeGreaterThan(5);
  });

  it("all sends: enough everywhere, a step less is not", () => {
    fc.assert(
      fc.property(anySetup(8), (setup) => {
        const { remedy } = figuresOf(setup);
        if (!remedy) return;
        expect(hasMargin(figuresOf(allLowered(setup, remedy.all.by)), setup.preferences.targetHeadroom)).toBe(
          true,
        );
        const less = allLowered(setup, remedy.all.by - setup.desk.levelStep);
        expect(figuresOf(less).lowest.headroom).toBeLessThan(setup.preferences.targetHeadroom);
      }),
    );
  });

  it("all sends: what rounding alone makes of a step costs no further one", () => {
    const setup = setupOf([channel("a", { peak: 0 })], {
      bus: { stereo: false, sideTrim: [1e-9, 0] },
      margin: 10,
    });
    // At the bus, or at the output by so much more.
    expectNear(figuresOf(setup).remedy?.all.by ?? 0, 10, 1e-9);
  });

  /** Peaks as they arrive at a side, dBFS, lowered by so many dB each: the loudest, and the rest by their squares. */
  const plainPeak = (peaks: readonly number[], by: readonly number[]): number => {
    const [top = 0, ...rest] = peaks.map((p, i) => 10 ** ((p - (by[i] ?? 0)) / 20)).sort((a, b) => b - a);
    return 20 * Math.log10(top + Math.sqrt(rest.reduce((sum, x) => sum + x * x, 0)));
  };

  /** What a side may come to at most: each ceiling by itself, from the fields of the setup. */
  const plainLimit = (setup: Setup, at: 0 | 1): number => {
    const { trim, fader, stereo, sideTrim, padDb } = onlyBus(setup);
    const { desk, monitor } = setup;
    const atBus = desk.busOverloads ? trim + (fader ?? 0) + (stereo ? sideTrim[at] : 0) : Infinity;
    return (
      Math.min(atBus, 0, monitor.maxInputDbu - desk.outputDbu + padDb) - setup.preferences.targetHeadroom
    );
  };

  /** Whether both sides keep to their limits with each send, in the order of what sounds, lowered by so much. */
  const plainFits = (setup: Setup, sides: BusFigures["sides"], by: readonly number[]): boolean =>
    ([0, 1] as const).every((at) => {
      const peaks = sides[at].contributions.map((c) => c.peak ?? Number.NEGATIVE_INFINITY);
      return plainPeak(peaks, by) <= plainLimit(setup, at) + 2 * SLACK;
    });

  /** The definition word for word, by trying every send and every step. */
  const loneByTrying = (setup: Setup): { readonly channel: string; readonly by: number } | null => {
    const { sides } = figuresOf(setup);
    const rows = sides[0].contributions;
    if (rows.some((row) => row.peak === null)) return null;
    const found = rows.flatMap((row, i) => {
      const only = (loud: number, quiet: number) => rows.map((_, j) => (j === i ? loud : quiet));
      const isFineAlone = plainFits(setup, sides, only(0, Number.POSITIVE_INFINITY));
      if (isFineAlone || !plainFits(setup, sides, only(Number.POSITIVE_INFINITY, 0))) return [];
      const level = onlyBus(setup).sends.find((s) => s.channel === row.channel)?.level ?? 0;
      const { levelStep } = setup.desk;
      let by = levelStep;
      while (!plainFits(setup, sides, only(by, 0))) by += levelStep;
      const isLoudest = ([0, 1] as const).every((at) => {
        const peaks = sides[at].contributions.map((c) => c.peak ?? Number.NEGATIVE_INFINITY);
        const own = peaks[i] as number;
        const isOver = own > plainLimit(setup, at) + SLACK;
        return !isOver || peaks.every((p, j) => j === i || p <= own - by + 1e-9);
      });
      return isLoudest && level - by >= RANGES.send.min - 1e-9 ? [{ channel: row.channel, by }] : [];
    });
    expect(found.length).toBeLessThan(2);
    return found[0] ?? null;
  };

  /** Setups of which about every third has one source far over the others. */
  const anyWithOneLoud = fc
    .tuple(
      anySetup(6),
      fc.nat(5),
      fc.integer({ min: 0, max: 30 }),
      fc.constantFrom(null, -24, -16),
      fc.boolean(),
    )
    .map(([setup, loud, more, rest, busOverloads]) =>
      changed(
        {
          ...setup,
          desk: { ...setup.desk, busOverloads },
          channels: setup.channels.map((c) => (rest !== null && c.peak === null ? { ...c, peak: rest } : c)),
        },
        {
          sends: onlyBus(setup).sends.map((s, i) =>
            i === loud ? { ...s, level: more } : rest === null ? s : { ...s, level: rest },
          ),
        },
      ),
    );

  it("one send alone: where, and only where, its source alone is the reason, as trying everything finds", () => {
    let one = 0;
    let none = 0;
    fc.assert(
      fc.property(anyWithOneLoud, (setup) => {
        const { remedy } = figuresOf(setup);
        if (!remedy) return;
        const { lone, all } = remedy;
        const tried = all.sends.length === 1 ? null : loneByTrying(setup);
        expect(lone && { channel: lone.sends[0]?.channel, by: lone.by }).toEqual(
          tried && { channel: tried.channel, by: expect.closeTo(tried.by, 9) },
        );
        if (lone) one += 1;
        else none += 1;
      }),
      { numRuns: 300 },
    );
    expect(Math.min(one, none)).toBeGreaterThan(20);
  });

  it("whatever is offered fits by a plain sum of the peaks, and a step less does not", () => {
    const seen = { all: 0, lone: 0, trim: 0 };
    fc.assert(
      fc.property(anyWithOneLoud, (setup) => {
        const { remedy, sides } = figuresOf(setup);
        if (!remedy) return;
        const rows = sides[0].contributions;
        const { levelStep } = setup.desk;
        for (const kind of ["all", "lone"] as const) {
          const way = remedy[kind];
          if (!way) continue;
          seen[kind] += 1;
          const down = (by: number) =>
            rows.map(({ channel }) => (way.sends.some((s) => s.channel === channel) ? by : 0));
          expect(plainFits(setup, sides, down(way.by))).toBe(true);
          expect(plainFits(setup, sides, down(way.by - levelStep - 4 * SLACK))).toBe(false);
          // And so it is once it is done.
          const steps = new Map(way.sends.map((s) => [s.channel, way.by]));
          const after = figuresOf(lowered(setup, steps));
          expect(hasMargin(after, setup.preferences.targetHeadroom)).toBe(true);
          for (const { channel, to } of way.sends) {
            const was = onlyBus(setup).sends.find((s) => s.channel === channel)?.level ?? 0;
            if (to !== null) expectNear(to, was - way.by, 1e-9);
          }
        }
        if (remedy.trim.code !== "enough") return;
        seen.trim += 1;
        const { trim } = remedy;
        // Lower by the trim, all alike; the bus before it stays within its own.
        const isFine = (by: number) =>
          ([0, 1] as const).every((at) => {
            const peaks = sides[at].contributions.map((c) => c.peak ?? Number.NEGATIVE_INFINITY);
            const { padDb } = onlyBus(setup);
            const input = setup.monitor.maxInputDbu - setup.desk.outputDbu + padDb;
            const most = Math.min(0, input) - setup.preferences.targetHeadroom;
            return (
              plainPeak(
                peaks,
                peaks.map(() => by),
              ) <=
              most + 2 * SLACK
            );
          });
        expect(isFine(trim.by)).toBe(true);
        expect(isFine(trim.by - levelStep - 4 * SLACK)).toBe(false);
      }),
      { numRuns: 300 },
    );
    expect(Math.min(seen.all, seen.lone, seen.trim)).toBeGreaterThan(20);
  });

  it("all sends keep the balance: each is lowered by as much, also one that is off", () => {
    const sends = [
      { channel: "kick", on: true, level: 3, tap: "post-fader" as const, pan: null },
      { channel: "hat", on: false, level: -12, tap: "post-fader" as const, pan: null },
    ];
    const setup = setupOf([channel("kick", { peak: -2, pan: -1 }), channel("hat", { pan: -1 })], {
      bus: { sends },
    });
    expect(figuresOf(setup).remedy?.all).toEqual({
      by: expect.closeTo(7, 9),
      sends: [
        { channel: "kick", to: expect.closeTo(-4, 9) },
        { channel: "hat", to: expect.closeTo(-19, 9) },
      ],
    });
  });

  const loneOf = (kick: number, hat: number | null, more: readonly Channel[] = []) =>
    figuresOf(
      setupOf([channel("kick", { peak: kick, pan: -1 }), channel("hat", { peak: hat, pan: -1 }), ...more]),
    ).remedy?.lone;

  it("one send alone: one that dominates, by the steps it needs", () =>
    expect(loneOf(-2, -60)).toEqual({
      by: expect.closeTo(4.1, 9),
      sends: [{ channel: "kick", to: expect.closeTo(-4.1, 9) }],
    }));

  it("one send alone: none where the sum is the reason, where the others do not fit either, or where it would no more be the loudest", () => {
    // −7 and −14 dBFS are −3.3 together: each fits alone.
    expect(loneOf(-7, -14)).toBeNull();
    expect(loneOf(-2, -5)).toBeNull();
    // −6.5 fits without the kick, and the kick would have to go 20 dB under it.
    expect(loneOf(-2, -6.5)).toBeNull();
    // Beside −13 there is room for one as loud: 20 lg(10^(−9.4/20) … ) stays over it.
    expect(loneOf(-2, -13)?.sends.map((s) => s.channel)).toEqual(["kick"]);
  });

  it("one send alone: none while a peak is not entered, for nobody knows that the others fit", () => {
    expect(loneOf(-2, -60, [channel("ride", { peak: -60, pan: -1 })])).not.toBeNull();
    expect(loneOf(-2, -60, [channel("ride", { peak: null, pan: -1 })])).toBeNull();
  });

  it("lowers no send that is at −∞", () => {
    const sends = [
      { channel: "kick", on: true, level: 0, tap: "post-fader" as const, pan: null },
      { channel: "hat", on: true, level: null, tap: "post-fader" as const, pan: null },
    ];
    const remedy = figuresOf(
      setupOf([channel("kick", { peak: 0 }), channel("hat")], { bus: { sends } }),
    ).remedy;
    expect(remedy?.all.sends.map((send) => send.channel)).toEqual(["kick"]);
    expect(remedy?.lone).toBeNull();
  });

  it("stays in the range of a send and of a trim, on any setup with sends far down", () => {
    const low = fc.constantFrom(-120, -119.9, -119, -112, -108, -107, -100, null);
    let off = 0;
    fc.assert(
      fc.property(
        anySetup(6),
        fc.array(low, { minLength: 6, maxLength: 6 }),
        fc.nat(5),
        (any, levels, loud) => {
          const setup = changed(any, {
            sends: onlyBus(any).sends.map((s, i) => (i === loud ? s : { ...s, level: levels[i] ?? null })),
          });
          const { remedy } = figuresOf(setup);
          if (!remedy) return;
          const { all, lone, trim } = remedy;
          for (const { to } of lone?.sends ?? []) expect(to).toBeGreaterThanOrEqual(RANGES.send.min);
          for (const { to } of all.sends) if (to !== null) expect(to).toBeGreaterThanOrEqual(RANGES.send.min);
          if (trim.code !== "bus before trim")
            expect(trim.code === "enough").toBe(trim.to >= RANGES.trim.min);
          const to = new Map(all.sends.map((p) => [p.channel, p.to]));
          if (all.sends.some((p) => p.to === null)) off += 1;
          const sends = onlyBus(setup).sends.map((s) => ({ ...s, level: to.get(s.channel) ?? null }));
          expect(hasMargin(figuresOf(changed(setup, { sends })), setup.preferences.targetHeadroom)).toBe(
            true,
          );
        },
      ),
      { numRuns: 200 },
    );
    expect(off).toBeGreaterThan(0);
  });

  it("never lowers a send out of its range where one is so loud that its send is all the way down", () => {
    const sends = [
      { channel: "a", on: true, level: -115, tap: "post-fader" as const, pan: null },
      { channel: "b", on: true, level: -105, tap: "post-fader" as const, pan: null },
    ];
    // An absurd chain: only then can such a send lack room.
    const setup = setupOf([channel("a", { peak: 24, pan: -1 }), channel("b", { peak: -60, pan: -1 })], {
      bus: { sends },
      console: { outputDbu: 36 },
      inputMaxDbu: -40,
      margin: 20,
    });
    const { remedy } = figuresOf(setup);
    expect(remedy?.lone).toBeNull();
    expect(remedy?.all).toEqual({
      by: expect.closeTo(5.1, 9),
      sends: [
        { channel: "a", to: null },
        { channel: "b", to: expect.closeTo(-110.1, 9) },
      ],
    });
  });

  it("says where no trim goes that low", () => {
    const loud = setupOf([channel("a", { pan: -1, peak: 24 })], {
      console: { outputDbu: 36, busOverloads: false },
      inputMaxDbu: -40,
    });
    expect(figuresOf(loud).remedy?.trim).toEqual({ code: "out of range", to: -106 });
    const fits = setupOf([channel("a", { pan: -1, peak: 0 })], {
      console: { busOverloads: false },
      inputMaxDbu: -30,
    });
    expect(figuresOf(fits).remedy?.trim).toMatchObject({ code: "enough", to: -54 });
    const lowest = setupOf([channel("a", { pan: -1, peak: 0 })], {
      console: { busOverloads: false },
      inputMaxDbu: -36,
    });
    expect(figuresOf(lowest).remedy?.trim).toMatchObject({ code: "enough", to: -60 });
  });

  it("lowers a send all the way down to the lowest level there is before it says off", () => {
    const send = (id: string, level: number) =>
      ({ channel: id, on: true, level, tap: "post-fader", pan: null }) as const;
    const of = (sends: Bus["sends"]) =>
      setupOf([channel("a", { peak: 24, pan: -1 }), channel("b", { peak: Number.NEGATIVE_INFINITY })], {
        bus: { sends },
        console: { outputDbu: 36, levelStep: 3 },
        inputMaxDbu: -40,
        margin: 20,
      });
    const way = { by: 12, sends: [{ channel: "a", to: -120 }] };
    expect(figuresOf(of([send("a", -108)])).remedy).toMatchObject({ all: way, lone: null });
    expect(figuresOf(of([send("a", -108), send("b", -50)])).remedy).toMatchObject({ lone: way });
    // A step less to go, and it would be off.
    expect(figuresOf(of([send("a", -108.1), send("b", -50)])).remedy).toMatchObject({ lone: null });
  });

  it("never stops a hair short of the margin", () => {
    const hair = 1.5 * SLACK;
    const setup = setupOf([
      channel("kick", { peak: -2 + hair, pan: -1 }),
      channel("hat", { peak: Number.NEGATIVE_INFINITY }),
    ]);
    const remedy = figuresOf(setup).remedy;
    expectNear(remedy?.all.by ?? 0, 4.1, 1e-9);
    expectNear(remedy?.lone?.by ?? 0, 4.1, 1e-9);
    expect(figuresOf(allLowered(setup, 4)).lowest.state).toBe("under target");
    expect(figuresOf(allLowered(setup, 4.1)).lowest.state).toBe("fine");
  });
});
