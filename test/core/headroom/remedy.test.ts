import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { SLACK } from "../../../src/core/headroom/ceilings";
import { MOST_PULL, MOST_SENDS } from "../../../src/core/headroom/fewest-sends";
import { type BusFigures, busFigures } from "../../../src/core/headroom/figures";
import type { Bus, Setup } from "../../../src/core/model/setup";
import { RANGES } from "../../../src/document/limits";
import { expectNear } from "../../near";
import { ALIGNMENTS } from "../../tables/analogue-levels";
import { anySetup, channel, onlyBus, setupOf } from "./setups";

const figuresOf = (setup: Setup) => busFigures(setup, onlyBus(setup));

const changed = (setup: Setup, change: Partial<Bus>): Setup => ({
  ...setup,
  buses: [{ ...onlyBus(setup), ...change }],
});

/** The bus with some sends pulled. */
const pulled = (setup: Setup, by: ReadonlyMap<string, number>): Setup =>
  changed(setup, {
    sends: onlyBus(setup).sends.map((s) =>
      s.level === null ? s : { ...s, level: s.level - (by.get(s.channel) ?? 0) },
    ),
  });

const allPulled = (setup: Setup, by: number) => pulled(setup, new Map(setup.channels.map((s) => [s.id, by])));
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

  it("the trim: on the console's steps, restores what lies after it, a step more does not", () => {
    fc.assert(
      fc.property(anySetup(8), (setup) => {
        const { targetHeadroom: margin } = setup.preferences;
        const trim = figuresOf(setup).remedy?.trim;
        if (!trim) return;
        const step = setup.desk.levelStep;
        expectNear(trim.to / step, Math.round(trim.to / step), 1e-9);
        expectNear(onlyBus(setup).trim - trim.by, trim.to, 1e-9);
        const after = figuresOf(changed(setup, { trim: trim.to }));
        const worst = (f: BusFigures) => Math.min(...f.ceilings.slice(1).map((c) => c.headroom));
        expect(worst(after)).toBeGreaterThanOrEqual(margin - 2 * SLACK);
        expect(worst(figuresOf(changed(setup, { trim: trim.to + step })))).toBeLessThan(margin);
        expect(hasMargin(after, margin)).toBe(trim.enough);
      }),
    );
  });

  it("all sends: enough everywhere, a step less is not", () => {
    fc.assert(
      fc.property(anySetup(8), (setup) => {
        const { remedy } = figuresOf(setup);
        if (!remedy) return;
        expect(hasMargin(figuresOf(allPulled(setup, remedy.all.by)), setup.preferences.targetHeadroom)).toBe(
          true,
        );
        const less = allPulled(setup, remedy.all.by - setup.desk.levelStep);
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

  const subsets = (ids: readonly string[], size: number): string[][] =>
    size === 0
      ? [[]]
      : ids.flatMap((id, i) => subsets(ids.slice(i + 1), size - 1).map((rest) => [id, ...rest]));

  it("the fewest sends: as few and by as little as brute force finds", () => {
    let found = 0;
    let none = 0;
    fc.assert(
      fc.property(anySetup(6), (any) => {
        const setup = { ...any, desk: { ...any.desk, levelStep: 3 } };
        const { remedy } = figuresOf(setup);
        if (!remedy) return;
        const restored = (sends: readonly string[], by: number) =>
          hasMargin(
            figuresOf(pulled(setup, new Map(sends.map((s) => [s, by])))),
            setup.preferences.targetHeadroom,
          );
        const sounding = figuresOf(setup).sides[0].contributions.map((c) => c.channel);
        let best: { readonly count: number; readonly by: number } | null = null;
        for (let count = 1; count <= MOST_SENDS && !best; count += 1)
          for (let by = 3; by <= MOST_PULL && !best; by += 3)
            if (subsets(sounding, count).some((sends) => restored(sends, by))) best = { count, by };
        const fewest = remedy.fewest && { count: remedy.fewest.sends.length, by: remedy.fewest.by };
        expect(fewest).toEqual(best);
        if (remedy.fewest) {
          expect(
            restored(
              remedy.fewest.sends.map((p) => p.channel),
              remedy.fewest.by,
            ),
          ).toBe(true);
          found += 1;
        } else none += 1;
      }),
      { numRuns: 150 },
    );
    expect(Math.min(found, none)).toBeGreaterThan(5);
  });

  it("pulls one channel that dominates, by the steps it needs", () => {
    const setup = setupOf([channel("kick", { peak: -2, pan: -1 }), channel("hat", { peak: -60, pan: -1 })]);
    const fewest = figuresOf(setup).remedy?.fewest;
    expect(fewest).toEqual({
      by: expect.closeTo(4.1, 9),
      sends: [{ channel: "kick", to: expect.closeTo(-4.1, 9) }],
    });
  });

  it("pulls no send that is off", () => {
    const sends = [
      { channel: "kick", on: true, level: 0, tap: "post-fader" as const, pan: null },
      { channel: "hat", on: true, level: null, tap: "post-fader" as const, pan: null },
    ];
    const remedy = figuresOf(
      setupOf([channel("kick", { peak: 0 }), channel("hat")], { bus: { sends } }),
    ).remedy;
    expect(remedy?.all.sends.map((pull) => pull.channel)).toEqual(["kick"]);
    expect(remedy?.fewest?.sends.map((pull) => pull.channel)).toEqual(["kick"]);
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
          const { all, fewest, trim } = remedy;
          for (const { to } of fewest?.sends ?? []) expect(to).toBeGreaterThanOrEqual(RANGES.send.min);
          for (const { to } of all.sends) if (to !== null) expect(to).toBeGreaterThanOrEqual(RANGES.send.min);
          expect(trim?.inRange ?? true).toBe((trim?.to ?? 0) >= RANGES.trim.min);
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

  it("never pulls a send out of its range where one is so loud that its send is all the way down", () => {
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
    expect(remedy?.fewest).toBeNull();
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
      console: { outputDbu: 36 },
      inputMaxDbu: -40,
    });
    expect(figuresOf(loud).remedy?.trim).toMatchObject({ to: -106, inRange: false });
    const fits = setupOf([channel("a", { pan: -1, peak: 0 })], { inputMaxDbu: -30 });
    expect(figuresOf(fits).remedy?.trim).toMatchObject({ to: -54, inRange: true });
    const lowest = setupOf([channel("a", { pan: -1, peak: 0 })], { inputMaxDbu: -36 });
    expect(figuresOf(lowest).remedy?.trim).toMatchObject({ to: -60, inRange: true });
  });

  it("pulls a send all the way down to the lowest level there is before it says off", () => {
    const setup = setupOf([channel("a", { peak: 24, pan: -1 })], {
      bus: { sends: [{ channel: "a", on: true, level: -108, tap: "post-fader" as const, pan: null }] },
      console: { outputDbu: 36, levelStep: 3 },
      inputMaxDbu: -40,
      margin: 20,
    });
    const pull = { by: 12, sends: [{ channel: "a", to: -120 }] };
    expect(figuresOf(setup).remedy).toMatchObject({ all: pull, fewest: pull });
  });

  it("never stops a hair short of the margin", () => {
    const hair = 1.5 * SLACK;
    const setup = setupOf([channel("kick", { peak: -2 + hair, pan: -1 })]);
    const by = figuresOf(setup).remedy?.fewest?.by ?? 0;
    expectNear(by, 4.1, 1e-9);
    expect(figuresOf(allPulled(setup, 4)).lowest.state).toBe("under target");
    expect(figuresOf(allPulled(setup, by)).lowest.state).toBe("fine");
  });
});
