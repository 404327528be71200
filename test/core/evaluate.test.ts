import { setFlagsFromString } from "node:v8";
import { runInNewContext } from "node:vm";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evaluate, type Figures } from "../../src/core/evaluate";
import { earphoneFigures } from "../../src/core/headroom/earphone";
import { busFigures } from "../../src/core/headroom/figures";
import type { Lookup } from "../../src/core/lib/memo";
import { mixedChannelsOf } from "../../src/core/mix/bus";
import type { Bus, Listener, Setup } from "../../src/core/model/setup";
import { type Image, imagesOf, listenerImages } from "../../src/core/stereo/image";
import { busOverheads, type OverheadIssue, overheadIssues } from "../../src/core/stereo/overheads";
import { exampleSetup } from "../../src/document/example";
import { applied, commands } from "../document/commands";

const ear = {
  unit: "dB/mW",
  sensitivity: 110,
  impedance: 16,
  sourceImpedance: 10,
  drive: 0.1,
  isolation: 20,
  stage: 105,
} as const;

it("gives every figure of its own door, for every bus and listener", () => {
  const setup = { ...exampleSetup(), earphone: ear };
  const figures = evaluate(setup);
  for (const bus of setup.buses) {
    expect(figures.mixed.get(bus.id)).toEqual(mixedChannelsOf(setup, bus));
    expect(figures.buses.get(bus.id)).toEqual(busFigures(setup, bus));
  }
  expect(figures.buses.get("nowhere")).toBeUndefined();
  const images = listenerImages(setup, figures.mixed);
  expect(setup.listeners.map((l) => images.get(l.id))).toEqual(imagesOf(setup));
  expect(figures.earphone).toEqual(earphoneFigures(ear));
  expect(evaluate(exampleSetup()).earphone).toBeNull();
});

it("works each figure out once", () => {
  const setup = exampleSetup();
  const figures = evaluate(setup);
  expect(figures.buses.get("m1")?.bus).toBe("m1");
  expect(figures.buses.get("m1")).toBe(figures.buses.get("m1"));
  expect(figures.directOuts).toBe(figures.directOuts);
  const images = listenerImages(setup, figures.mixed);
  const [{ id }] = setup.listeners as [Listener];
  expect(images.get(id)?.listener).toBe(id);
  expect(images.get(id)).toBe(images.get(id));
});

it("keeps a copy of a setup apart from the setup", () => {
  const setup = exampleSetup();
  const before = evaluate(setup).mixed.get("m1");
  expect(before?.length).toBeGreaterThan(0);
  const muted = { ...setup, channels: setup.channels.map((s) => ({ ...s, muted: true })) };
  expect(evaluate(muted).mixed.get("m1")).toEqual([]);
  expect(evaluate(setup).mixed.get("m1")).toEqual(before);
});

describe("after a change", () => {
  type Before = {
    readonly figures: Figures;
    readonly images: Lookup<Image>;
    readonly overheads: Lookup<OverheadIssue | null>;
  };
  const everything = (setup: Setup, before?: Before) => {
    const figures = evaluate(setup, before?.figures);
    const images = listenerImages(setup, figures.mixed, before?.images);
    const overheads = busOverheads(setup, figures.mixed, before?.overheads);
    const all = {
      overheads: overheadIssues(setup, overheads),
      buses: setup.buses.map(({ id }) => [figures.mixed.get(id), figures.buses.get(id)]),
      images: setup.listeners.map(({ id }) => images.get(id)),
      directOuts: figures.directOuts,
      earphone: figures.earphone,
    };
    return { figures, images, overheads, all };
  };

  it("figures that are kept are those that would be worked out anew, whatever was done", () => {
    fc.assert(
      fc.property(fc.array(commands, { minLength: 1, maxLength: 6 }), (done) => {
        let setup = exampleSetup();
        let before = everything(setup);
        for (const command of done) {
          setup = applied(setup, command);
          before = everything(setup, before);
          expect(before.all).toEqual(everything(setup).all);
          expect(before.all.overheads).toEqual(overheadIssues(setup));
        }
      }),
    );
  });

  it("what did not change is not worked out again", () => {
    const setup = exampleSetup();
    const [first, ...rest] = setup.buses;
    if (!first) throw new Error("no bus");
    const before = everything(setup);
    const after = everything({ ...setup, buses: [{ ...first, trim: -3 }, ...rest] }, before);
    for (const { id } of rest) {
      expect(after.figures.mixed.get(id)).toBe(before.figures.mixed.get(id));
      expect(after.figures.buses.get(id)).toBe(before.figures.buses.get(id));
    }
    expect(after.figures.buses.get(first.id)).not.toBe(before.figures.buses.get(first.id));
    const audience = setup.listeners.find((l) => l.kind === "audience")?.id ?? "";
    expect(after.images.get(audience)).toBe(before.images.get(audience));
  });

  it("what stood before the last change is let go", async () => {
    setFlagsFromString("--expose-gc");
    const collect = runInNewContext("gc") as () => void;
    const setup = exampleSetup();
    const [first, second] = setup.buses;
    if (!first || !second) throw new Error("two buses");
    let last = everything(setup);
    const gone = new WeakRef(last.figures.buses);
    // Turn by turn: what is kept of the one must not hold on to what was of the other.
    let buses: readonly Bus[] = setup.buses;
    for (let trim = -1; trim > -9; trim -= 1) {
      buses = buses.map((bus, at) => (at === -trim % 2 ? { ...bus, trim } : bus));
      last = everything({ ...setup, buses }, last);
    }
    await new Promise((done) => setTimeout(done));
    collect();
    expect(gone.deref()).toBeUndefined();
    expect(last.all.buses.length).toBeGreaterThan(0);
  });
});
