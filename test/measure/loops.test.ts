import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { RUN } from "../../src/core/measure/loops";
import { runJob } from "../../src/measure/engine";
import { fastestLoops, type MeasureLoops, PLAIN } from "../../src/measure/loops";
import { noise } from "../tools/chance.mjs";
import { file } from "./job";
import { wavFile } from "./wavfile";

afterEach(() => {
  vi.unstubAllGlobals();
});

let fast: MeasureLoops;
/** Memory that a measurement took is not given back before it ends. */
const begin = async (): Promise<void> => {
  fast = await fastestLoops();
};
beforeEach(begin);
/** Cases that one measurement has memory for. */
const AT_ONCE = 1000;

/** Runs a loop over x[from…to) of arrays; gives the array that it writes to. */
type Run = (loops: MeasureLoops, arrays: readonly Float64Array[], from: number, to: number) => Float64Array;

const usual = fc.double({ min: -2, max: 2, noNaN: true });
/** Mostly samples, now and then what is none. */
const any = fc.oneof(
  { weight: 20, arbitrary: usual },
  { weight: 1, arbitrary: fc.constantFrom(0, 1e7, -1e300, Number.NaN, Number.POSITIVE_INFINITY) },
);

const CASES: readonly [
  name: string,
  arrays: number,
  numbers: fc.Arbitrary<number>,
  multiple: number,
  run: Run,
][] = [
  [
    "square",
    4,
    any,
    1,
    (loops, [a, b, c, d], from, to) => {
      const out = loops.numbers(4);
      loops.square(out, a as Float64Array, b as Float64Array, c as Float64Array, d as Float64Array, from, to);
      return out;
    },
  ],
  [
    "scan",
    1,
    any,
    1,
    (loops, [x], from, to) => {
      const out = loops.numbers(2);
      loops.scan(out, x as Float64Array, from, to);
      return out;
    },
  ],
  [
    "add",
    2,
    any,
    1,
    (loops, [out, x], from, to) => {
      loops.add(out as Float64Array, x as Float64Array, -0.7, from, to);
      return out as Float64Array;
    },
  ],
  [
    "runs",
    1,
    usual,
    1,
    (loops, [x], from, to) => {
      const out = loops.numbers(2 * Math.ceil((to - from) / RUN));
      loops.runs(out, x as Float64Array, from, to);
      return out;
    },
  ],
  [
    "exponentialAverages",
    1,
    usual,
    4,
    (loops, [x], from, to) => {
      const out = loops.numbers(14);
      out.set([0.1, 0.02, 0.11, 0.02, 0.2, 0.05, 0.8, 0.95, 0.64, 0.9, 0.5, 0.86, 0.41, 0.81]);
      loops.exponentialAverages(out, x as Float64Array, from, to);
      return out;
    },
  ],
];

describe("two numbers at a time, to the last bit what plain code comes to", () => {
  it("they are not the same code", () => {
    expect(fast).not.toBe(PLAIN);
  });

  it.each(CASES)("%s", async (_, arrays, numbers, multiple, run) => {
    const lists = fc
      .tuple(fc.integer({ min: 1, max: 3 }), fc.integer({ min: 0, max: 72 / multiple }))
      .chain(([from, times]) => {
        const length = from + times * multiple;
        const list = fc.array(numbers, { minLength: length, maxLength: length });
        return fc.tuple(fc.constant(from), fc.array(list, { minLength: arrays, maxLength: arrays }));
      });
    const by = (loops: MeasureLoops, [from, all]: readonly [number, number[][]]): Float64Array => {
      const given = all.map((list) => {
        const array = loops.numbers(list.length);
        array.set(list);
        return array;
      });
      return run(loops, given, from, all[0]?.length ?? 0).slice();
    };
    let runs = 0;
    await fc.assert(
      fc
        .asyncProperty(lists, async (given) => {
          expect(by(fast, given)).toEqual(by(PLAIN, given));
        })
        .beforeEach(async () => {
          runs += 1;
          if (runs % AT_ONCE === 0) await begin();
        }),
      { numRuns: 300 },
    );
  });

  it.each([0, 1, 2])("whole runs, %d of them: nothing is written behind what is found", (count) => {
    for (const loops of [fast, PLAIN]) {
      const out = loops.numbers(2 * count + 2).fill(-1);
      loops.runs(out, loops.numbers(1 + count * RUN), 1, 1 + count * RUN);
      expect([...out]).toEqual([...Array<number>(2 * count).fill(0), -1, -1]);
    }
  });

  it("the largest of an average that does not rise, where rounding would lift it by a last bit", () => {
    // F and S at 8 kHz. F: the average after one sample is a bit above the largest so far, the end is not above its
    // bound. S rises, so both are looked at.
    const rate = 8000;
    const tau = [0.125, 1];
    const [quick, plain] = [fast, PLAIN].map((loops) => {
      const averages = loops.numbers(14);
      averages.set([0, 0, 2.498750416562521e-8, 0]);
      averages.set(
        tau.map((t) => -Math.expm1(-1 / (t * rate))),
        4,
      );
      for (let n = 1; n <= 4; n += 1)
        averages.set(
          tau.map((t) => Math.exp(-n / (t * rate))),
          4 + 2 * n,
        );
      const x = loops.numbers(4);
      x.set([0.005]);
      loops.exponentialAverages(averages, x, 0, 4);
      return averages.slice();
    });
    expect(plain?.[2]).toBe(2.498750416562521e-8);
    expect(quick).toEqual(plain);
  });

  it("samples of three bytes, any number of them, the largest and smallest too", () => {
    const random = noise(11);
    for (const count of [0, 1, 2, 3, 4, 5, 4095, 4096, 4097, 9001]) {
      const bytes = Uint8Array.from({ length: 3 * count }, () => 128 + 128 * random());
      bytes.set([0xff, 0xff, 0x7f, 0, 0, 0x80, 0xff, 0xff, 0xff].slice(0, bytes.length));
      const [quick, plain] = [fast, PLAIN].map((loops) => {
        const out = loops.numbers(count + 2);
        loops.unpack24(out, 1, bytes);
        return out.slice();
      });
      expect(quick).toEqual(plain);
    }
  });
});

/** A job of so many tracks of noise, through gains that differ. */
const jobOf = (tracks: number, frames: number, rate: number, width: 2 | 3 = 3) => {
  const random = noise(tracks);
  const channels = Array.from({ length: tracks }, (_, t) =>
    Float64Array.from({ length: frames }, (_, i) => 0.9 * random() * Math.exp(-((i + 900 * t) % 5000) / 700)),
  );
  return {
    inputs: channels.map((channel, t) => file(`${t}.wav`, wavFile([channel], { rate, width }))),
    tracks: channels.map((_, input) => ({
      input,
      channel: 0,
      gains: [Math.cos(input), Math.sin(input)] as const,
    })),
    align: "start" as const,
  };
};

const measured = (job: ReturnType<typeof jobOf>, loops?: () => Promise<MeasureLoops>) =>
  runJob(job, () => undefined, loops);

const REFUSED = new WebAssembly.CompileError("refused by the policy");

describe("a whole measurement", () => {
  it.each([1, 2, 5, 8])("of %d tracks comes to the same figures both ways", async (tracks) => {
    const job = jobOf(tracks, 20_011, 48_000);
    const plain = await measured(job, async () => PLAIN);
    expect(plain.kind).toBe("done");
    expect(await measured(job)).toEqual(plain);
  });

  it("of twice the tracks that a page takes at the highest rate has memory enough", async () => {
    const outcome = await measured(jobOf(128, 9600 + 1, 192_000, 2));
    expect(outcome.kind).toBe("done");
  });

  it.each([
    ["has no WebAssembly", undefined],
    ["does not let it run", { Memory: WebAssembly.Memory, instantiate: () => Promise.reject(REFUSED) }],
  ])("where the browser %s goes on in plain code", async (_, assembly) => {
    const job = jobOf(2, 5000, 48_000);
    const usualOutcome = await measured(job);
    vi.stubGlobal("WebAssembly", assembly);
    expect(await fastestLoops()).toBe(PLAIN);
    expect(await measured(job)).toEqual(usualOutcome);
  });
});
