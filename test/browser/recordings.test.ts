import { spawnSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { SetupFile } from "../../src/document/schema";
import { GAPS, renderHits, roundOf } from "../../src/listen/hits";
import { firstTurnOf } from "../listen/rounds";
import { wavFile } from "../measure/wavfile";
import { noise } from "../tools/chance.mjs";
import { longestTask } from "../tools/longest-task.mjs";
import { go, overhang, shown, unfold, visit } from "./hall";
import { settled, stored } from "./hands";
import {
  axeFindings,
  drawn,
  launch,
  type Phone,
  phoneWithCopy,
  serveApp,
  stopServer,
  withFolder,
} from "./harness";

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

const RATE = 48_000;
const SECONDS = 4;
/** What the files are called, and the channel of the example that each of them is. */
const TRACKS = [
  ["01 Kick In.wav", "Kick"],
  ["02 snare_top.wav", "Snare"],
  ["03 HH.wav", "Hat"],
  ["04 RackTom1.wav", "Tom 1"],
  ["05 mystery.wav", "Tom 2"],
  ["06 FlrTom.wav", "Floor tom"],
  ["07 OHL.wav", "Overhead L"],
  ["08 OHR.wav", "Overhead R"],
] as const;

/** Noise whose hits fade and never pause, so that all of it is playing; the tracks share a part, so that they correlate. */
const samples: readonly Float64Array[] = TRACKS.map((_, t) => {
  const own = noise(t + 1);
  const common = noise(99);
  return Float64Array.from({ length: SECONDS * RATE }, (_, i) => {
    const hit = Math.exp(-((i + 2500 * t) % 12_000) / 6000);
    return (0.1 + 0.04 * t) * hit * (own() + 0.5 * common());
  });
});

/** Bytes as text, to hand them to a page. */
const packed = (bytes: Uint8Array): string => Buffer.from(bytes).toString("base64");

/** The same sound coded as FLAC. */
const flacOf = (wav: Uint8Array): Uint8Array => {
  const args = ["-v", "error", "-i", "pipe:0", "-f", "flac", "pipe:1"];
  const made = spawnSync("ffmpeg", args, { input: wav });
  if (made.status !== 0) throw new Error(`ffmpeg: ${made.error ?? made.stderr}`);
  return made.stdout;
};

/** Writes the tracks and gives their paths. */
const writeTracks = (folder: string): string[] =>
  TRACKS.map(([name], t) => {
    const path = join(folder, name);
    writeFileSync(path, wavFile([samples[t] ?? []]));
    return path;
  });

/** Level of an amplitude as it is printed. */
const printed = (amplitude: number): string => {
  const value = 20 * Math.log10(amplitude);
  const text = Math.abs(value).toFixed(1);
  return value < 0 && Number(text) > 0 ? `−${text}` : text;
};

/** The sin/cos pan law with the sides at 0 dB (W3C Web Audio API 1.1, StereoPannerNode), written again. */
const panned = (pan: number): readonly [number, number] => [
  Math.cos(((pan + 1) * Math.PI) / 4),
  Math.sin(((pan + 1) * Math.PI) / 4),
];

interface Voice {
  readonly pan: number;
  /** Gain of its send. */
  readonly send: number;
}

/** The tracks' channels as they are stored. */
const voicesIn = (setup: SetupFile): Voice[] =>
  TRACKS.map(([, name]) => {
    const channel = setup.channels.find((s) => s.name === name);
    const send = setup.buses[0]?.sends.find((s) => s.channel === channel?.id);
    return { pan: send?.pan ?? channel?.pan ?? 9, send: 10 ** ((send?.level ?? 99) / 20) };
  });

const setupOf = async (page: Page): Promise<SetupFile> => {
  await settled(page);
  return JSON.parse(await stored(page));
};

/** Rms and highest sample of a side, mixed sample by sample. */
const mixed = (voices: readonly Voice[], side: 0 | 1): { readonly rms: string; readonly peak: string } => {
  const gains = voices.map(({ pan, send }) => send * panned(pan)[side]);
  let energy = 0;
  let peak = 0;
  for (let i = 0; i < SECONDS * RATE; i += 1) {
    const x = samples.reduce((sum, track, t) => sum + (gains[t] ?? 0) * (track[i] ?? 0), 0);
    energy += x * x;
    peak = Math.max(peak, Math.abs(x));
  }
  return { rms: printed(Math.sqrt(energy / (SECONDS * RATE))), peak: printed(peak) };
};

/** Frames of a step of the level over time: 50 ms. */
const STEP = 2400;

/** Mean power of a side in each step, mixed sample by sample. */
const stepPowers = (voices: readonly Voice[], side: 0 | 1): number[] => {
  const gains = voices.map(({ pan, send }) => send * panned(pan)[side]);
  return Array.from({ length: (SECONDS * RATE) / STEP }, (_, step) => {
    let energy = 0;
    for (let i = step * STEP; i < (step + 1) * STEP; i += 1)
      energy += samples.reduce((sum, track, t) => sum + (gains[t] ?? 0) * (track[i] ?? 0), 0) ** 2;
    return energy / STEP;
  });
};

/** What the picture of the level over time shows, as it is drawn: places across it as shares of the whole time. */
const drawnCourse = (page: Page) =>
  page.locator("figure.course svg").evaluate((svg) => {
    const box = (of: string) => {
      const it = svg.querySelector(of);
      if (!it) throw new Error(`no ${of}`);
      return it.getBoundingClientRect();
    };
    const grid = box(".course-grid path");
    const mark = box(".course-mark");
    const points = (of: string) =>
      [...(svg.querySelector(of)?.getAttribute("d") ?? "").matchAll(/[ML]([\d.]+) ([\d.]+)/g)].map(
        ([, x, y]) => ({ x: Number(x), y: Number(y) }),
      );
    const texts = [...svg.querySelectorAll("text")].map((text) => {
      const { left, right, top, bottom } = text.getBoundingClientRect();
      return { says: text.textContent, middle: (left + right) / 2, top, bottom };
    });
    return {
      mark: (mark.left + mark.width / 2 - grid.left) / grid.width,
      height: mark.height,
      /** What stands over the mark. */
      over: texts
        .filter((t) => t.bottom <= mark.top + 2 && Math.abs(t.middle - mark.left) < 30)
        .map((t) => t.says),
      ends: texts.slice(-2).map((t) => t.says),
      left: points(".course-line.l"),
      right: points(".course-line.r"),
    };
  });

/** Measured, estimate and difference of a figure of the side that is looked at. */
const figure = async (page: Page, name: string): Promise<string[]> => {
  const row = page.locator("details.card tr", { has: page.getByRole("rowheader", { name }) }).first();
  return row.locator("td").allInnerTexts();
};

const measured = async (page: Page, name: string): Promise<string | undefined> =>
  (await figure(page, name))[0];

const side = (page: Page, name: string): Promise<void> =>
  page.getByRole("group", { name: "Output", exact: true }).getByText(name, { exact: true }).click();

const beside = (page: Page): Locator => page.locator("#beside");

/** All figures of the part, without the word about the last run. */
const words = async (page: Page): Promise<string> => {
  const text = await page.locator("details.card", { has: beside(page) }).textContent();
  return (text ?? "").replace("Measuring was cancelled: nothing has changed.", "");
};

/** Opens the part for recordings and chooses files. */
const chooseFiles = async (page: Page, files: Parameters<Locator["setInputFiles"]>[0]): Promise<void> => {
  await go(page, "headroom");
  await unfold(page, "Measure a recording");
  await page.getByLabel("Choose recordings").setInputFiles(files);
};

const chooseAndMatch = async (page: Page, paths: readonly string[]): Promise<void> => {
  await chooseFiles(page, [...paths]);
  await page.getByText("7 of 8 tracks matched to a channel").waitFor();
  await page.getByLabel("Channel for 05 mystery.wav").selectOption("Tom 2");
  await page.getByText("8 of 8 tracks matched to a channel").waitFor();
};

const measureAll = async (page: Page): Promise<void> => {
  await page.getByRole("button", { name: "Measure 8 tracks" }).click();
  await beside(page).waitFor();
};

/** The longest that the page's thread was held up at a stretch while something was done, ms of its own. */
const heldUp = async (page: Page, work: () => Promise<void>): Promise<number> => {
  const { ms, tasks } = await longestTask(page, work);
  expect(tasks).toBeGreaterThan(0);
  return ms;
};

/** A task that is too long on purpose: it must be seen. */
const reckon = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const begin = performance.now();
    for (let x = 1; performance.now() - begin < 150 || x < 2e7; x += 1) Math.sqrt(x);
  });

/** Every audio context that the page makes renders into memory, and glides of gains are counted; nothing else is changed. */
const listenOffline = (seconds: number): void => {
  const made: OfflineAudioContext[] = [];
  const glides = { count: 0 };
  const glide = AudioParam.prototype.linearRampToValueAtTime;
  AudioParam.prototype.linearRampToValueAtTime = function (...to) {
    glides.count += 1;
    return glide.apply(this, to);
  };
  class Offline extends OfflineAudioContext {
    constructor() {
      super(2, seconds * 48_000, 48_000);
      made.push(this);
    }
    override resume = async (): Promise<void> => {};
    close = async (): Promise<void> => {};
  }
  Object.assign(globalThis, { AudioContext: Offline, made, glides });
};

/** How many gains were told to glide so far: every voice has two. */
const glides = (page: Page): Promise<number> =>
  page.evaluate(() => (globalThis as unknown as { glides: { count: number } }).glides.count);

/** What the last audio context of the page puts out, both ears. */
const rendered = async (page: Page): Promise<Float32Array[]> => {
  const ears = await page.evaluate(async () => {
    const { made } = globalThis as unknown as { made: OfflineAudioContext[] };
    const out = await made.at(-1)?.startRendering();
    return [0, 1].map((ear) => {
      const bytes = new Uint8Array(out?.getChannelData(ear).slice().buffer ?? new ArrayBuffer(0));
      let text = "";
      for (const b of bytes) text += String.fromCharCode(b);
      return btoa(text);
    });
  });
  return ears.map((text) => new Float32Array(Uint8Array.from(Buffer.from(text, "base64")).buffer));
};

/** Gain of the level at which listening begins. */
const FIRST = 10 ** (-30 / 20);
/** Everything starts after the glide. */
const LATE = 0.03 * RATE;

type View = "foh" | "now" | "repaired";

/**
 * Gains that a voice must have in each view: the pan law alone at FOH, brought down to the loudness of the pair
 * (every send of the example has one level); the pair as it is patched, straight; and with the recommendation, swapped.
 */
const heardAs = (view: View, { pan, send }: Voice): readonly [number, number] => {
  const [l, r] = panned(pan);
  return view === "repaired" ? [send * r, send * l] : [send * l, send * r];
};

/** Largest distance between what is heard and what should be, as a share of the level at which it plays. */
const farthest = (
  heard: readonly Float32Array[],
  tracks: readonly ArrayLike<number>[],
  voices: readonly Voice[],
  view: View,
  from: number,
  to: number,
): { readonly most: number; readonly loudest: number } => {
  let most = 0;
  let loudest = 0;
  for (const ear of [0, 1] as const) {
    const gains = voices.map((v) => heardAs(view, v)[ear]);
    for (let i = from; i < to; i += 1) {
      const expected = tracks.reduce((sum, t, v) => sum + (gains[v] ?? 0) * (t[i % t.length] ?? 0), 0);
      most = Math.max(most, Math.abs((heard[ear]?.[i + LATE] ?? 9) / FIRST - expected));
      loudest = Math.max(loudest, Math.abs(expected));
    }
  }
  return { most, loudest };
};

const VIEWS: readonly (readonly [label: string, view: View])[] = [
  ["FOH", "foh"],
  ["Mara now", "now"],
  ["Mara with the recommendation", "repaired"],
];

const listen = async (page: Page): Promise<void> => {
  await page.getByRole("button", { name: "Listen", exact: true }).click();
  await page.getByRole("button", { name: "Stop", exact: true }).waitFor();
};

const stop = async (page: Page): Promise<void> => {
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await page.getByRole("button", { name: "Listen", exact: true }).waitFor();
};

/** A phone with the app on it and no server to be reached any more. */
const offline = async (): Promise<Phone> => {
  const site = await serveApp();
  const user = await phoneWithCopy(browser);
  await user.page.addInitScript(listenOffline, SECONDS);
  await visit(user, site);
  await stopServer(site);
  return user;
};

describe("with the server stopped", () => {
  it("eight tracks are matched, measured, follow a pan, are cancelled, kept and listened to", async () => {
    await withFolder(async (folder) => {
      const user = await offline();
      const { page } = user;
      await chooseAndMatch(page, writeTracks(folder));
      for (const [file, channel] of TRACKS)
        expect(await page.getByLabel(`Channel for ${file}`).locator(":checked").textContent()).toBe(channel);
      expect(await heldUp(page, () => measureAll(page))).toBeLessThan(50);
      expect(await heldUp(page, () => reckon(page))).toBeGreaterThan(50);

      // Measurement and estimate, side by side; the measured side mixed here sample by sample.
      const first = voicesIn(await setupOf(page));
      for (const [name, at] of [
        ["L", 0],
        ["R", 1],
      ] as const) {
        await side(page, name);
        const { rms, peak } = mixed(first, at);
        expect(await measured(page, "Average RMS")).toBe(rms);
        expect(await measured(page, "Likely peak")).toBe(peak);
        const [is, estimate, apart] = (await figure(page, "Likely peak")).map((t) =>
          Number(t.replace("−", "-")),
        );
        expect(estimate).not.toBe(is);
        expect(Math.abs((apart ?? 99) - ((estimate ?? 0) - (is ?? 0)))).toBeLessThan(0.11);
      }
      await page.getByText(/^Loudest at 0:0\d\.\d on [LR], .*Overhead/).waitFor();

      // The mark stands where the louder side is loudest, and says when; so does the sentence.
      const powers = [stepPowers(first, 0), stepPowers(first, 1)] as const;
      const top = Math.max(...powers[0], ...powers[1]);
      const loud = powers[0].includes(top) ? 0 : 1;
      const at = powers[loud].indexOf(top) / powers[loud].length;
      const when = `0:${(at * SECONDS).toFixed(1).padStart(4, "0")}`;
      await page.getByText(`Loudest at ${when} on ${["L", "R"][loud]},`).waitFor();
      const course = await drawnCourse(page);
      expect(Math.abs(course.mark - at)).toBeLessThan(0.005);
      expect(course.height).toBeGreaterThan(50);
      expect(course.over).toEqual([when]);
      expect(course.ends).toEqual(["0:00.0", "0:04.0"]);
      // The lines are the levels step by step: the highest point of the louder one is at the mark.
      const heights = [course.left, course.right].map((line) => line.map(({ y }) => y));
      const highest = Math.min(...heights.flat());
      expect(heights[loud]?.[powers[loud].indexOf(top)]).toBe(highest);
      powers.forEach((side, l) => {
        expect(heights[l]).toHaveLength(side.length);
        const drop = (a: number, b: number): number =>
          ((heights[l]?.[a] ?? 0) - (heights[l]?.[b] ?? 0)) /
          (10 * Math.log10((side[b] ?? 1) / (side[a] ?? 1)));
        const [low, high] = [side.indexOf(Math.min(...side)), side.indexOf(Math.max(...side))];
        // 86 units of the drawing are 60 dB.
        expect(Math.abs(drop(low, high) / (86 / 60) - 1)).toBeLessThan(0.05);
      });

      // A change that is the same for all tracks: levels and peaks follow. One that is not: levels follow.
      await side(page, "L");
      await unfold(page, "The same bus with every pan law");
      await page.getByText("At centre", { exact: true }).click();
      const louder = Number((await measured(page, "Likely peak"))?.replace("−", "-"));
      expect(Math.abs(louder - Number(mixed(first, 0).peak.replace("−", "-")) - 3)).toBeLessThan(0.11);
      expect(await beside(page).textContent()).toMatch(/^Measured: /);
      await page.getByText("Hard-panned", { exact: true }).click();
      await go(page, "channels");
      const hat = page.locator("li.channel", { hasText: "Hat" }).getByRole("slider").first();
      await hat.press("Home");
      await go(page, "headroom");
      await page.getByText("Peaks of Drums are from before the change: measure again").waitFor();
      const second = voicesIn(await setupOf(page));
      expect(second[2]?.pan).toBe(-1);
      expect(mixed(second, 0).rms).not.toBe(mixed(first, 0).rms);
      expect(await measured(page, "Average RMS")).toBe(mixed(second, 0).rms);
      expect(await measured(page, "Likely peak")).toBe(mixed(first, 0).peak);
      await page.getByRole("button", { name: "Measure again for the peaks" }).click();
      await page.locator("#beside", { hasText: /^Measured: / }).waitFor();
      expect(await measured(page, "Likely peak")).toBe(mixed(second, 0).peak);
      await page.getByRole("button", { name: "Undo: pan", exact: true }).click();

      // A second run is cancelled as soon as it says that it runs: its worker ends, what was there stays.
      await page.getByText("Peaks of Drums are from before the change: measure again").waitFor();
      const before = await words(page);
      await page.evaluate(() => {
        const watch = new MutationObserver(() => {
          const button = [...document.querySelectorAll("button")].find(
            (b) => b.textContent === "Cancel measuring",
          );
          if (!button) return;
          watch.disconnect();
          button.click();
        });
        watch.observe(document.body, { childList: true, subtree: true });
      });
      await page.getByRole("button", { name: "Measure again", exact: true }).click();
      await page.getByText("Measuring was cancelled: nothing has changed.").waitFor();
      await expect.poll(() => page.workers().length).toBe(0);
      const after = await words(page);
      expect(after).toBe(before);

      // Kept with the setup and copied into the channels; one undo takes both back.
      const old = await setupOf(page);
      await page.getByRole("button", { name: "Keep these figures" }).click();
      await page.getByText("Figures of 8 channels kept").waitFor();
      const kept = await setupOf(page);
      expect(kept.recording?.channels).toHaveLength(8);
      expect(kept.recording?.name).toBe("01 Kick In and 7 more files");
      TRACKS.forEach(([, name], t) => {
        const track = samples[t] ?? new Float64Array();
        const channel = kept.channels.find((s) => s.name === name);
        const peak = track.reduce((top, x) => Math.max(top, Math.abs(x)), 0);
        const rms = Math.sqrt(track.reduce((sum, x) => sum + x * x, 0) / track.length);
        expect(Math.abs((channel?.gatedRms ?? 99) - 20 * Math.log10(rms))).toBeLessThan(0.051);
        expect((channel?.peak ?? 99) - 20 * Math.log10(peak)).toBeGreaterThan(-0.002);
        expect((channel?.peak ?? 99) - 20 * Math.log10(peak)).toBeLessThan(0.1);
      });

      // What is measured leads in the figures of the bus; the estimate beside it says how good it is.
      const rows = page.getByRole("region", { name: "L and R", exact: true }).locator("tbody tr");
      expect((await rows.nth(0).locator("th, td").allInnerTexts()).slice(0, 3)).toEqual([
        "Average RMS, measured",
        mixed(first, 0).rms,
        mixed(first, 1).rms,
      ]);
      expect(await rows.nth(1).locator("th").textContent()).toMatch(
        /^Average RMS, estimated −\d\.\d \+\d\.\d dB$/,
      );
      await page.locator(".toast").getByRole("button", { name: "Undo" }).click();
      expect(await setupOf(page)).toEqual(old);

      // The recording, as each of the three hears it.
      await go(page, "image");
      await unfold(page, "Listen to it");
      await page.getByLabel("What plays").selectOption("The recording, round its loudest moment");
      for (const [label, view] of VIEWS) {
        await page.getByText(label, { exact: true }).click();
        await listen(page);
        const heard = await rendered(page);
        // The ends fade for 10 ms; the rest are the very samples.
        const { most, loudest } = farthest(heard, samples, first, view, 480, 2 * RATE);
        expect(most).toBeLessThan(1e-6);
        expect(loudest).toBeGreaterThan(0.3);
        await stop(page);
      }

      // Mara hears both sides in one: what the tracks share adds up, and all three are still equally loud.
      await unfold(page, "Mara, drums");
      const mara = page.getByRole("group").filter({ hasText: "Mara, drums" });
      await mara.getByLabel("Mono at this mixer").check();
      const loudness: number[] = [];
      for (const [label] of VIEWS) {
        await page.getByText(label, { exact: true }).click();
        await listen(page);
        const heard = await rendered(page);
        let energy = 0;
        for (const ear of heard) for (const x of ear.subarray(LATE, LATE + 2 * RATE)) energy += x * x;
        loudness.push(10 * Math.log10(energy));
        await stop(page);
      }
      expect(Math.max(...loudness) - Math.min(...loudness)).toBeLessThan(0.1);
      expect(user.faults).toEqual([]);
      await user.context.close();
    });
  }, 240_000);

  it("the hits are heard as FOH, as Mara now and with the recommendation, switched while they play", async () => {
    const user = await offline();
    const { page } = user;
    await go(page, "image");
    await unfold(page, "Listen to it");
    await page.getByText(/Hearing damage is\s+permanent/).waitFor();
    expect(await page.getByRole("slider", { name: "Level", exact: true }).inputValue()).toBe("-30");
    expect(await page.evaluate(() => (globalThis as unknown as { made: unknown[] }).made.length)).toBe(0);
    const voices = voicesIn(await setupOf(page));
    const hits = firstTurnOf(
      roundOf(
        ["kick", "snare", "hat", "tom", "tom", "floor", "overhead", "overhead"],
        await renderHits(RATE),
        GAPS.round,
      ),
    );
    for (const [label, view] of VIEWS) {
      // It begins as somebody else hears it and is switched before a sample has passed.
      const other = VIEWS.find(([, v]) => v !== view)?.[0] ?? "";
      await page.getByText(other, { exact: true }).click();
      await listen(page);
      const before = await glides(page);
      await page.getByText(label, { exact: true }).click();
      await expect.poll(() => glides(page)).toBe(before + 2 * hits.length);
      const heard = await rendered(page);
      const { most, loudest } = farthest(heard, hits, voices, view, 0, 3.9 * RATE);
      expect(most).toBeLessThan(1e-6);
      expect(loudest).toBeGreaterThan(0.1);
      await stop(page);
    }
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

describe("one file of many channels", () => {
  it("is matched channel by channel, measured, and corrected", async () => {
    const site = await serveApp();
    const user = await phoneWithCopy(browser);
    const { page } = user;
    await visit(user, site);
    await chooseFiles(page, {
      name: "Friday rehearsal.wav",
      mimeType: "audio/wav",
      buffer: Buffer.from(wavFile(samples, { coding: "float", width: 4 })),
    });
    await page.getByText("8 of 8 tracks matched to a channel").waitFor();
    const channelOf = (channel: number): Locator =>
      page.getByLabel(`Channel for Friday rehearsal.wav, track ${channel}`, { exact: true });
    // The channels have no names: they are taken in the order of the channels.
    for (const [i, [, channel]] of TRACKS.entries())
      expect(
        await channelOf(i + 1)
          .locator(":checked")
          .textContent(),
      ).toBe(channel);
    await measureAll(page);
    const before = voicesIn(await setupOf(page));
    await side(page, "L");
    expect(await measured(page, "Average RMS")).toBe(mixed(before, 0).rms);
    expect(await measured(page, "Likely peak")).toBe(mixed(before, 0).peak);
    await side(page, "R");
    expect(await measured(page, "Average RMS")).toBe(mixed(before, 1).rms);

    // Each channel by itself: the peaks are those of the very samples.
    const rows = page.locator("section", { has: page.locator("#track-figures") }).locator("tbody tr");
    for (const [i, [, channel]] of TRACKS.entries()) {
      const peak = (samples[i] ?? new Float64Array()).reduce((top, x) => Math.max(top, Math.abs(x)), 0);
      const row = rows.filter({ has: page.getByRole("rowheader", { name: channel, exact: true }) });
      expect(await row.first().locator("td").nth(1).textContent()).toBe(printed(peak));
    }

    // Two channels changed over by the user.
    await unfold(page, "8 of 8 tracks");
    await channelOf(3).selectOption("Floor tom");
    await channelOf(6).selectOption("Hat");
    await page.getByRole("button", { name: "Measure again", exact: true }).click();
    await page.getByText("Files or matches have changed since").waitFor({ state: "detached" });
    const [hat, floor] = [before[2], before[5]] as [Voice, Voice];
    const turned = before.with(2, floor).with(5, hat);
    expect(mixed(turned, 0)).not.toEqual(mixed(before, 0));
    await side(page, "L");
    await expect.poll(() => measured(page, "Likely peak")).toBe(mixed(turned, 0).peak);
    expect(await measured(page, "Average RMS")).toBe(mixed(turned, 0).rms);
    expect(user.faults).toEqual([]);
    await user.context.close();
    await site.stop();
  });
});

describe("files that are none", () => {
  it("are named with what is wrong; the good ones are taken all the same", async () => {
    const site = await serveApp();
    const user = await phoneWithCopy(browser);
    const { page } = user;
    await visit(user, site);
    const good = wavFile([samples[0] ?? []]);
    const file = (name: string, buffer: Uint8Array) => ({
      name,
      mimeType: "audio/wav",
      buffer: Buffer.from(buffer),
    });
    await chooseFiles(page, [
      file("notes.wav", Buffer.from("Kick needs a new head. Bring gaffer tape.")),
      file("nothing.wav", new Uint8Array()),
      file("head only.wav", good.slice(0, 44)),
      file("poem.mp3", Buffer.from("no sound at all")),
      file("Kick.wav", good.slice(0, good.length / 2)),
      file("Snare.wav", wavFile([samples[1] ?? []], { rate: 44_100 })),
    ]);
    await page.getByText("2 of 2 tracks matched to a channel").waitFor();
    const said = (await page.locator("li.notice.bad").allInnerTexts()).join("\n");
    expect(said).toMatch(/“notes\.wav” .*(not|no) .*WAV/);
    expect(said).toContain("“nothing.wav” is empty.");
    expect(said).toContain("“head only.wav” holds no audio");
    expect(said).toContain("“poem.mp3” is neither WAV nor a sound file");
    expect(said).toContain("48000 Hz in “Kick.wav”, 44100 Hz in “Snare.wav”");
    expect(await page.getByRole("button", { name: /^Measure/ }).count()).toBe(0);
    await page.getByLabel("Channel for Snare.wav").selectOption("left out");
    await page.getByRole("button", { name: "Measure 1 track" }).click();
    await beside(page).waitFor();
    const cut = page.getByText("“Kick.wav” is cut off: its header promises 0:04.0, it holds 0:01.9");
    await cut.waitFor();
    // What was measured stays to be seen without a bus, and what is to be said of it too.
    await unfold(page, "fader, trims and output chain");
    for (const name of ["Drums", "Fold-back"]) {
      await page.getByText(`${name}: fader, trims and output chain`).waitFor();
      await page.getByRole("button", { name: "Remove the bus" }).click();
    }
    await page.locator("h1", { hasText: "No bus yet" }).waitFor();
    await cut.waitFor();
    expect(user.faults).toEqual([]);
    await user.context.close();
    await site.stop();
  });
});

describe("files that come by other ways", () => {
  it("dropped on the part, and shared to the app", async () => {
    const site = await serveApp();
    const user = await phoneWithCopy(browser);
    const { page } = user;
    await visit(user, site);
    await go(page, "headroom");
    await unfold(page, "Measure a recording");
    const bytes = packed(wavFile([(samples[0] ?? new Float64Array()).subarray(0, 4800)]));
    await page.evaluate((text) => {
      const carried = new DataTransfer();
      carried.items.add(new File([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], "Kick.wav"));
      document
        .querySelector(".drop")
        ?.dispatchEvent(new DragEvent("drop", { dataTransfer: carried, bubbles: true, cancelable: true }));
    }, bytes);
    await page.getByLabel("Channel for Kick.wav").waitFor();
    await page.evaluate(async (text) => {
      const form = new FormData();
      const shared = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
      form.append("files", new File([shared], "Snare.wav"));
      // Of some programs only the type says that it is sound.
      form.append("files", new File([shared], "Hat", { type: "audio/wav" }));
      await fetch("./share", { method: "POST", body: form });
    }, bytes);
    await page.reload();
    await drawn(page);
    await page.getByLabel("Channel for Snare.wav").waitFor();
    await page.getByLabel("Channel for Hat", { exact: true }).waitFor();
    expect(await page.evaluate(() => location.hash)).toBe("#headroom");
    expect(user.faults).toEqual([]);
    await user.context.close();
    await site.stop();
  });

  it("opened with the app: sound by its ending or by its type goes to the recordings, nothing else does", async () => {
    const site = await serveApp();
    const user = await phoneWithCopy(browser);
    const { page } = user;
    const wav = wavFile([(samples[0] ?? new Float64Array()).subarray(0, 4800)]);
    await page.addInitScript(
      ({ wav, flac }) => {
        const bytes = (text: string) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
        const handle = (name: string, text: string, type = "") => ({
          getFile: async () => new File([bytes(text)], name, { type }),
        });
        const files = [
          handle("Kick.bwf", wav),
          handle("Snare.rf64", wav),
          handle("Hat.FLAC", flac),
          handle("Floor tom", flac, "audio/x-flac"),
          handle("Tom 1.mp3", btoa("no sound at all")),
        ];
        Object.defineProperty(globalThis, "launchQueue", {
          value: { setConsumer: (take: (launch: { files: unknown[] }) => void) => take({ files }) },
        });
      },
      { wav: packed(wav), flac: packed(flacOf(wav)) },
    );
    await visit(user, site);
    await page.getByText("4 of 4 tracks matched to a channel").waitFor();
    for (const name of ["Kick.bwf", "Snare.rf64", "Hat.FLAC", "Floor tom"])
      expect(await page.getByLabel(`Channel for ${name}`).locator(":checked").textContent()).toBe(
        name.replace(/\..*/, ""),
      );
    expect(await page.locator("li.notice.bad").allInnerTexts()).toEqual([
      "“Tom 1.mp3” is neither WAV nor a sound file that this browser can decode. Export it as WAV.",
    ]);
    expect(await page.evaluate(() => location.hash)).toBe("#headroom");
    await page.getByRole("button", { name: "Measure 4 tracks" }).click();
    await beside(page).waitFor();
    await page
      .getByText("“Hat.FLAC” was decoded by the browser at 48000 Hz; its peaks may differ a little")
      .waitFor();
    expect(user.faults).toEqual([]);
    await user.context.close();
    await site.stop();
  });
});

it.each(["dark", "light"])(
  "has no findings and no sideways scroll in %s with everything open",
  async (theme) => {
    await withFolder(async (folder) => {
      const site = await serveApp();
      const user = await phoneWithCopy(browser, { viewport: { width: 320, height: 640 } });
      const { page } = user;
      await page.addInitScript((t) => localStorage.setItem("hatside-theme", t), theme);
      await visit(user, site);
      await chooseAndMatch(page, writeTracks(folder));
      await measureAll(page);
      for (const title of [
        "8 of 8 tracks",
        "How these compare",
        "Loudest contributors",
        "More figures",
        "What is measured",
      ])
        await unfold(page, title);
      expect(await shown(page.locator("details.card", { has: beside(page) }))).not.toMatch(
        /NaN|undefined|Infinity/,
      );
      expect(await overhang(page)).toBe(0);
      expect(await axeFindings(page)).toEqual([]);
      await go(page, "image");
      await unfold(page, "Listen to it");
      await page.getByRole("button", { name: "Listen", exact: true }).waitFor();
      expect(await overhang(page)).toBe(0);
      await page.setViewportSize({ width: 360, height: 740 });
      expect(await axeFindings(page)).toEqual([]);
      expect(user.faults).toEqual([]);
      await user.context.close();
      await site.stop();
    });
  },
);
