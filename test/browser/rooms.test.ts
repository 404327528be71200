import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { correlationOf } from "../../src/core/measure/covariance";
import { hitOf } from "../../src/listen/hits";
import { bytesOf } from "../../src/measure/bytes";
import { sliceOf } from "../../src/measure/wav/decode";
import { openWav } from "../../src/measure/wav/open";
import { watchMemory } from "../bench/memory.mjs";
import { coded, codedSilence } from "../measure/coded";
import { measureBytes } from "../measure/job";
import { type WavPlan, wavFile } from "../measure/wavfile";
import { expectNear } from "../near";
import { noise } from "../tools/chance.mjs";
import { longestTask } from "../tools/longest-task.mjs";
import { serveRooms } from "../tools/rooms-site.mjs";
import { ours } from "./faults";
import { launch } from "./harness";
import type * as Rooms from "./rooms-page";

declare const rooms: typeof Rooms;
/** In the page: text to bytes, text to samples and back. */
declare const bytesFrom: (text: string) => Uint8Array<ArrayBuffer>;
declare const floatsFrom: (text: string) => Float32Array<ArrayBuffer>;
declare const floatsTo: (values: Float32Array) => string;

let browser: Browser;
let page: Page;
let site: Awaited<ReturnType<typeof serveRooms>>;
beforeAll(async () => {
  site = ours(await serveRooms("test/browser/rooms-page.ts"));
  browser = await launch();
  page = await browser.newPage();
  await page.goto(site.url);
  await page.waitForFunction(() => "rooms" in globalThis);
  await page.evaluate(() => {
    const bytes = (text: string) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
    Object.assign(globalThis, {
      bytesFrom: bytes,
      floatsFrom: (text: string) => new Float32Array(bytes(text).buffer),
      floatsTo: (values: Float32Array) => {
        let text = "";
        for (const b of new Uint8Array(values.buffer, values.byteOffset, values.byteLength))
          text += String.fromCharCode(b);
        return btoa(text);
      },
    });
  });
});
afterAll(async () => {
  await browser.close();
  await site.stop();
});

/** Bytes and samples go to the page as text: lists of numbers take it seconds. */
const packed = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64");
const packedFloats = (values: Float32Array): string =>
  packed(new Uint8Array(values.buffer, values.byteOffset, values.byteLength));

const unpacked = (text: string): Float32Array => {
  const bytes = Uint8Array.from(Buffer.from(text, "base64"));
  return new Float32Array(bytes.buffer);
};

const random = noise(31);
const samples = Float64Array.from({ length: 4801 }, () => 0.9 * random());

describe("the browser's own decoder on the same bytes", () => {
  const plans: readonly [name: string, plan: WavPlan][] = [
    ["16 bits", { width: 2 }],
    ["24 bits", {}],
    ["32 bits", { width: 4 }],
    ["24 bits, extensible", { extensible: true }],
    ["32-bit floating point", { coding: "float", width: 4 }],
  ];
  it.each(plans)("%s", async (_, plan) => {
    const bytes = wavFile([samples, samples.map((x) => -x / 2)], plan);
    const decoded = await page.evaluate(async (all) => {
      const context = new OfflineAudioContext(2, 128, 48_000);
      const audio = await context.decodeAudioData(bytesFrom(all).buffer);
      return [0, 1].map((c) => floatsTo(audio.getChannelData(c)));
    }, packed(bytes));
    const theirs = decoded.map(unpacked);
    const opened = await openWav(bytesOf(new Blob([bytes])));
    if (!opened.ok) throw new Error(opened.why.code);
    const slice = sliceOf(opened.wav, bytes.slice(opened.wav.dataAt));
    const ours = [0, 1].map((c) => {
      const out = new Float64Array(opened.wav.frames);
      slice.decode(c, 0, out.length, out, 0);
      return out;
    });
    ours.forEach((channel, c) => {
      expect(theirs[c]?.length).toBe(channel.length);
      // Chromium divides whole numbers above 0 by 2^n − 1, not 2^n; the rest is 32-bit rounding.
      const step = plan.coding === "float" ? 0 : 2 ** (1 - 8 * (plan.width ?? 3));
      const most = channel.reduce((top, x, i) => Math.max(top, Math.abs(x - (theirs[c]?.[i] ?? 9))), 0);
      expect(most).toBeLessThanOrEqual(step + 6e-8);
    });
  });
});

describe("measuring in the browser's worker", () => {
  const tracks = Array.from({ length: 8 }, (_, t) => {
    const own = noise(t + 1);
    return wavFile([
      Float64Array.from(
        // Long enough for several rounds of the worker.
        { length: 8 * 48_000 },
        (_, i) => own() * Math.exp(-((i + 4000 * t) % 30_000) / 4000),
      ),
    ]);
  });
  const gains = tracks.map((_, t) => [Math.cos((t * Math.PI) / 14), Math.sin((t * Math.PI) / 14)] as const);

  // Another program on the machine can hold the page up, so a busy moment has a second chance.
  it("gives the very figures that are found here, and never holds the page up", { retry: 3 }, async () => {
    const single = await measureBytes(tracks[2] as Uint8Array, [[1, 0]]);
    if (single.kind === "refused") throw new Error(JSON.stringify(single.why));
    const seen = await page.evaluate(
      async ({ files, gains }) => {
        const inputs = files.map((bytes, i) => ({
          kind: "file" as const,
          name: `${i + 1}.wav`,
          file: new Blob([bytesFrom(bytes)]),
        }));
        const pause = (ms: number) => new Promise((done) => setTimeout(done, ms));
        /** Begin and length of every task of over 50 ms, as the browser itself counts them. */
        const long: { at: number; took: number }[] = [];
        new PerformanceObserver((list) => {
          for (const { startTime, duration } of list.getEntries())
            long.push({ at: startTime, took: duration });
        }).observe({ type: "longtask" });
        await pause(100);
        const begin = performance.now();
        let steps = 0;
        const job = {
          inputs,
          tracks: gains.map((g, input) => ({ input, channel: 0, gains: g })),
          align: "start" as const,
        };
        const outcome = await rooms.measure(new AbortController().signal, job, {
          progress: () => {
            steps += 1;
          },
        });
        const end = performance.now();
        // The observer is awake: a task that is too long on purpose is seen.
        await pause(10);
        const wake = performance.now();
        while (performance.now() - wake < 80);
        await pause(200);
        return {
          outcome,
          steps,
          held: long.filter(({ at }) => at >= begin && at < end),
          seen: long.filter(({ at }) => at >= end).length,
        };
      },
      { files: tracks.map(packed), gains },
    );
    if (seen.outcome.kind === "refused") throw new Error(JSON.stringify(seen.outcome.why));
    expect(seen.outcome.measurement.figures.tracks[2]).toEqual(single.measurement.figures.tracks[0]);
    expect(seen.steps).toBeGreaterThan(1);
    expect(seen.held).toEqual([]);
    expect(seen.seen).toBeGreaterThan(0);
  });

  it("reckons two numbers at a time under the page's policy; in plain code where the server forbids it", async () => {
    expect(await page.evaluate(() => rooms.loopsInWorker())).toBe("two at a time");
    const strict = await browser.newPage();
    await strict.route("**/*.js", async (route) => {
      const response = await route.fetch();
      const headers = { ...response.headers(), "content-security-policy": "script-src 'self'" };
      await route.fulfill({ response, headers });
    });
    await strict.goto(site.url);
    await strict.waitForFunction(() => "rooms" in globalThis);
    expect(await strict.evaluate(() => rooms.loopsInWorker())).toBe("plain");
    await strict.close();
  });

  it("is cancelled at once by ending the worker", async () => {
    const answer = await page.evaluate(
      async (bytes) => {
        const file = new Blob([bytesFrom(bytes)]);
        const stop = new AbortController();
        let after = 0;
        let stopped = false;
        const running = rooms.measure(
          stop.signal,
          {
            inputs: Array.from({ length: 8 }, () => ({ kind: "file" as const, name: "x.wav", file })),
            tracks: Array.from({ length: 8 }, (_, input) => ({ input, channel: 0, gains: [1, 1] as const })),
            align: "start",
          },
          {
            progress: () => {
              if (stopped) after += 1;
              stopped = true;
              stop.abort(new DOMException("enough", "AbortError"));
            },
          },
        );
        const end = await running.then(
          (outcome) => outcome.kind,
          (reason: DOMException) => reason.message,
        );
        await new Promise((done) => setTimeout(done, 200));
        return { end, after };
      },
      packed(tracks[0] as Uint8Array),
    );
    expect(answer).toEqual({ end: "enough", after: 0 });
  });

  it("a worker that cannot be loaded is said, not waited for", async () => {
    const outcome = await page.evaluate(() =>
      rooms.measure(
        new AbortController().signal,
        { inputs: [], tracks: [], align: "start" },
        { makeWorker: () => new Worker("nowhere.js", { type: "module" }) },
      ),
    );
    expect(outcome).toEqual({
      kind: "refused",
      why: [{ code: "stopped", trouble: { when: "run", why: "not loaded" } }],
    });
  });

  it("a compressed file is decoded in pieces and measured, and it is said; what is none is refused", async () => {
    const [good, bad] = await page.evaluate(async (bytes) => {
      const platform = { look: rooms.askLook, decoder: () => new OfflineAudioContext(2, 128, 48_000) };
      const prepared = await rooms.prepareInput(new File([bytesFrom(bytes)], "hit.flac"), platform);
      const refused = await rooms.prepareInput(new File(["no sound"], "note.mp3"), platform);
      if (!prepared.ok) throw new Error(prepared.why.code);
      const outcome = await rooms.measure(new AbortController().signal, {
        inputs: [prepared.input],
        tracks: [
          { input: 0, channel: 0, gains: [1, 0] },
          { input: 0, channel: 1, gains: [0, 1] },
        ],
        align: "start",
      });
      return [{ kind: prepared.input.kind, outcome }, refused.ok ? null : refused.why] as const;
    }, packed(flac));
    expect(good.kind).toBe("compressed");
    if (good.outcome.kind === "refused") throw new Error(JSON.stringify(good.outcome.why));
    const { figures, notes } = good.outcome.measurement;
    expect(notes).toEqual([{ code: "decoded", name: "hit.flac", rate: 48_000 }]);
    expect(figures.seconds).toBe(SINE_SECONDS);
    // A full-scale sine has an rms of 1/√2; the second channel is half of it.
    const [full, half] = figures.tracks;
    expectNear(full?.rms ?? 9, 10 * Math.log10(1 / 2), 1e-4, "rms");
    expectNear(full?.peak ?? 9, 0, 1e-4, "peak");
    expectNear(full?.truePeak ?? 9, 0, 0.01, "true peak");
    expectNear(half?.rms ?? 9, 10 * Math.log10(1 / 8), 1e-4, "rms of the half");
    expectNear(correlationOf(figures.products, [1, 0], [0, 1]), 1, 1e-6, "correlation");
    expectNear(figures.mixes.right.peak, 20 * Math.log10(1 / 2), 1e-4, "peak of the right leg");
    expect(bad).toEqual({ code: "unknown", name: "note.mp3" });
  });
});

const SINE_SECONDS = 0.5;

const sine = Float64Array.from({ length: SINE_SECONDS * 48_000 }, (_, i) =>
  Math.sin((2 * Math.PI * 1000 * i) / 48_000),
);
/** A full-scale sine and half of it, 24 bits. */
const flac = coded("flac", wavFile([sine, sine.map((x) => x / 2)]));

describe("a small file that unpacks to much", () => {
  const SECONDS = 300;
  it("is measured within 100 MB, and the page is not held up", async () => {
    const bomb = codedSilence("flac", SECONDS, "7.1");
    const unpacked = SECONDS * 48_000 * 8 * Float32Array.BYTES_PER_ELEMENT;
    expect(unpacked).toBeGreaterThan(400e6);
    const tools = await browser.newBrowserCDPSession();
    const { processInfo } = await tools.send("SystemInfo.getProcessInfo");
    const watches = processInfo.filter((p) => p.type !== "GPU").map((p) => watchMemory(p.id));
    let seen = { seconds: 0, silent: false };
    const { ms } = await longestTask(page, async () => {
      seen = await page.evaluate(async (bytes) => {
        const platform = { look: rooms.askLook, decoder: () => new OfflineAudioContext(2, 128, 48_000) };
        const prepared = await rooms.prepareInput(new File([bytesFrom(bytes)], "bomb.flac"), platform);
        if (!prepared.ok) throw new Error(prepared.why.code);
        const tracks = Array.from({ length: 8 }, (_, channel) => ({
          input: 0,
          channel,
          gains: [1, 1] as const,
        }));
        const job = { inputs: [prepared.input], tracks, align: "start" as const };
        const outcome = await rooms.measure(new AbortController().signal, job);
        if (outcome.kind === "refused") throw new Error(JSON.stringify(outcome.why));
        const { seconds, tracks: all } = outcome.measurement.figures;
        return { seconds, silent: all.length === 8 && all.every((t) => t.silent) };
      }, packed(bomb));
    });
    expect(seen.seconds).toBeGreaterThan(SECONDS - 1);
    expect(seen.silent).toBe(true);
    expect(watches.reduce((sum, most) => sum + most(), 0)).toBeLessThan(100e6);
    expect(ms).toBeLessThan(50);
    await tools.detach();
  });
});

describe("listening", () => {
  const RATE = 48_000;
  const length = RATE;
  const voice = (kind: "kick" | "snare" | "hat"): Float32Array => {
    const track = new Float32Array(length);
    track.set(hitOf(kind, RATE).subarray(0, length));
    return track;
  };
  const voices = [voice("kick"), voice("snare"), voice("hat")];
  const views = {
    foh: [
      [0.7, 0.7],
      [0.8, 0.3],
      [0.1, 0.9],
    ],
    now: [
      [0.7, 0.7],
      [0.8, 0.3],
      [0.1, 0.9],
    ],
    repaired: [
      [0.7, 0.7],
      [0.3, 0.8],
      [0.9, 0.1],
    ],
  } as const;

  it.each(["foh", "repaired"] as const)(
    "%s, rendered: each ear is the sum by the computed gains to 1e-6",
    async (name) => {
      const legs = await page.evaluate(
        async ({ voices, gains, rate, length }) => {
          const context = new OfflineAudioContext(2, length, rate);
          const round = { voices: voices.map((v) => ({ samples: floatsFrom(v), at: 0 })), rate, length };
          const graph = rooms.buildGraph(context, round, gains);
          graph.output.connect(context.destination);
          graph.start(0);
          const out = await context.startRendering();
          return [0, 1].map((ear) => floatsTo(out.getChannelData(ear)));
        },
        { voices: voices.map(packedFloats), gains: views[name], rate: RATE, length },
      );
      for (const ear of [0, 1] as const) {
        const heard = unpacked(legs[ear] ?? "");
        let most = 0;
        let loudest = 0;
        for (let i = 0; i < length; i += 1) {
          const expected = voices.reduce((sum, v, t) => sum + (v[i] ?? 0) * (views[name][t]?.[ear] ?? 0), 0);
          most = Math.max(most, Math.abs(expected - (heard[i] ?? 9)));
          loudest = Math.max(loudest, Math.abs(expected));
        }
        expect(most).toBeLessThan(1e-6);
        expect(loudest).toBeGreaterThan(0.2);
      }
    },
  );

  it("switching while it plays leaves no gap and no click, and arrives at the other view", async () => {
    const tone = Float32Array.from({ length }, (_, i) => 0.5 * Math.sin((2 * Math.PI * 480 * i) / RATE));
    const legs = await page.evaluate(
      async ({ tone, rate, length }) => {
        const context = new OfflineAudioContext(2, length, rate);
        const round = { voices: [{ samples: floatsFrom(tone), at: 0 }], rate, length };
        const graph = rooms.buildGraph(context, round, [[0.2, 0.9]]);
        graph.output.connect(context.destination);
        graph.start(0);
        context.suspend(0.5).then(() => {
          graph.change([[0.9, 0.2]], context.currentTime, 0.03);
          return context.resume();
        });
        const out = await context.startRendering();
        return [0, 1].map((ear) => floatsTo(out.getChannelData(ear)));
      },
      { tone: packedFloats(tone), rate: RATE, length },
    );
    const [left, right] = legs.map(unpacked) as [Float32Array, Float32Array];
    const at = RATE / 2;
    // No step larger than the louder tone's own, and at no time is either ear silent for a whole period.
    const largest = Math.max(...left.map((x, i) => Math.abs(x - (left[i - 1] ?? x))));
    expect(largest).toBeLessThan(0.9 * 0.5 * 2 * Math.sin((Math.PI * 480) / RATE) + 1e-3);
    for (let from = 0; from + 100 < length; from += 100)
      for (const ear of [left, right]) expect(Math.max(...ear.slice(from, from + 100))).toBeGreaterThan(0.09);
    const settled = at + Math.round(0.04 * RATE);
    expect(Math.abs((left[settled] ?? 9) - 0.9 * (tone[settled] ?? 0))).toBeLessThan(1e-6);
    expect(Math.abs((right[settled] ?? 9) - 0.2 * (tone[settled] ?? 0))).toBeLessThan(1e-6);
    expect(Math.abs((left[at - 500] ?? 9) - 0.2 * (tone[at - 500] ?? 0))).toBeLessThan(1e-6);
  });

  it("starts on call, low, and gives the output back", async () => {
    const states = await page.evaluate(
      async ({ voices, views, rate }) => {
        const made: AudioContext[] = [];
        const sounds = {
          round: { voices: voices.map((v) => ({ samples: floatsFrom(v), at: 0 })), rate, length: rate },
          products: new Float64Array(6).fill(0.1),
          views,
        };
        const player = rooms.newPlayer(sounds, () => {
          made.push(new AudioContext());
          return made[0] as AudioContext;
        });
        const before = made.length;
        await player.play("foh");
        await player.play("repaired");
        const running = made[0]?.state;
        player.stop();
        await player.close();
        return { before, contexts: made.length, running, after: made[0]?.state };
      },
      { voices: voices.map(packedFloats), views, rate: RATE },
    );
    expect(states).toEqual({ before: 0, contexts: 1, running: "running", after: "closed" });
  });
});

describe("256 sources", () => {
  const KINDS = ["kick", "snare", "hat", "tom", "floor", "ride", "crash", "percussion", "overhead"] as const;
  const COUNT = 256;

  it.each(["round", "fill"] as const)("%s: less than 100 MB, no task over 50 ms", async (gap) => {
    const tools = await browser.newBrowserCDPSession();
    const { processInfo } = await tools.send("SystemInfo.getProcessInfo");
    const watches = processInfo.filter((p) => p.type !== "GPU").map((p) => watchMemory(p.id));
    let frames = 0;
    const { ms, tasks } = await longestTask(page, async () => {
      frames = await page.evaluate(
        async ({ kinds, gap }) => {
          const { rate, samples } = await rooms.renderHits(48_000);
          const round = rooms.roundOf(kinds, { rate, samples }, rooms.GAPS[gap]);
          const even = kinds.map(() => [0.5, 0.5] as const);
          const products = new Float64Array((kinds.length * (kinds.length + 1)) / 2);
          const views = { foh: even, now: even, repaired: even };
          const player = rooms.newPlayer({ round, products, views });
          await player.play("now");
          await new Promise((done) => setTimeout(done, 1500));
          await player.play("repaired");
          await new Promise((done) => setTimeout(done, 1500));
          await player.close();
          return round.length;
        },
        { kinds: Array.from({ length: COUNT }, (_, i) => KINDS[i % KINDS.length] ?? "kick"), gap },
      );
    });
    // A track of the whole turn for each of them would be 1.5 to 6 GB.
    expect(frames * COUNT * Float32Array.BYTES_PER_ELEMENT).toBeGreaterThan(1.5e9);
    expect(watches.reduce((sum, most) => sum + most(), 0)).toBeLessThan(100e6);
    expect(tasks).toBeGreaterThan(0);
    expect(ms).toBeLessThan(50);
    await tools.detach();
  });
});

describe("an excerpt", () => {
  it("is the very samples, silent beyond the end", async () => {
    const got = await page.evaluate(
      async (bytes) => {
        const file = new Blob([bytesFrom(bytes)]);
        const job = {
          inputs: [{ kind: "file" as const, name: "x.wav", file }],
          tracks: [{ input: 0, channel: 0, gains: [1, 1] as const }],
          align: "start" as const,
        };
        const excerpt = await rooms.askExcerpt(job, 0.05, 0.1);
        return excerpt && [...(excerpt.tracks[0] ?? [])];
      },
      packed(wavFile([samples], { coding: "float", width: 4 })),
    );
    const expected = Array.from({ length: 4800 }, (_, i) => Math.fround(samples[2400 + i] ?? 0));
    expect(got).toEqual(expected);
  });
});
