import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Sides } from "../../src/core/model/units";
import { panGains } from "../../src/core/pan/laws";
import { stereoGains } from "../../src/core/pan/stereo";
import { launch } from "./harness";

/** 81 pans: the ends, the centre and every 1/40 between. */
const PANS = Array.from({ length: 81 }, (_, at) => (at - 40) / 40);
/** Samples are 32-bit floats, which hold a gain near 1 to 6e-8. */
const NEAR = 1e-6;

let browser: Browser;
let page: Page;
beforeAll(async () => {
  browser = await launch();
  page = await browser.newPage();
});
afterAll(() => browser.close());

/** Gains of the browser's own StereoPannerNode for a steady input in some channels. */
const rendered = (inputs: readonly number[]): Promise<Sides[]> =>
  page.evaluate(
    async ({ pans, inputs }) => {
      const FRAMES = 256;
      const render = async (pan: number): Promise<[number, number]> => {
        const context = new OfflineAudioContext(2, FRAMES, 48_000);
        const buffer = context.createBuffer(inputs.length, FRAMES, 48_000);
        inputs.forEach((value, channel) => void buffer.getChannelData(channel).fill(value));
        const source = new AudioBufferSourceNode(context, { buffer });
        source.connect(new StereoPannerNode(context, { pan })).connect(context.destination);
        source.start();
        const out = await context.startRendering();
        const last = (channel: number) => out.getChannelData(channel)[FRAMES - 1] ?? Number.NaN;
        return [last(0), last(1)];
      };
      return Promise.all(pans.map(render));
    },
    { pans: PANS, inputs },
  );

/** Largest distance between two rows of gains. */
const apart = (a: readonly Sides[], b: readonly Sides[]): number => {
  expect(a.length).toBe(b.length);
  return Math.max(
    ...a.flatMap(([l, r], at) => [Math.abs(l - (b[at]?.[0] ?? 9)), Math.abs(r - (b[at]?.[1] ?? 9))]),
  );
};

/** W3C Web Audio API 1.1, StereoPannerNode, rendered live by Chromium. */
describe("the browser's own panner", () => {
  it("gives one channel the gains of the sin/cos law", async () => {
    const ours = PANS.map((pan) => panGains({ law: "sine", centreDb: 3, reference: "sides" }, pan));
    expect(apart(await rendered([1]), ours)).toBeLessThan(NEAR);
  });

  it.each([
    ["left", [1, 0], 0],
    ["right", [0, 1], 1],
  ] as const)("gives the %s channel of two the gains of the two-channel pan", async (_, inputs, channel) => {
    const ours = PANS.map((pan): Sides => stereoGains("pan", pan)[channel] ?? [9, 9]);
    expect(apart(await rendered(inputs), ours)).toBeLessThan(NEAR);
  });

  it("gives both channels together the sum of both", async () => {
    const inputs = [0.5, -0.25] as const;
    const ours = PANS.map((pan): Sides => {
      const [left = [9, 9], right = [9, 9]] = stereoGains("pan", pan);
      return [inputs[0] * left[0] + inputs[1] * right[0], inputs[0] * left[1] + inputs[1] * right[1]];
    });
    expect(apart(await rendered(inputs), ours)).toBeLessThan(NEAR);
  });
});
