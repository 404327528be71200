import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { wavFile } from "../measure/wavfile";
import { CHROMIUM, CHROMIUM_SHELL } from "../tools/chromium.mjs";
import { go } from "./hall";
import { tap } from "./hands";
import { launch } from "./harness";

/** What an input brings, over and over: samples of each channel. */
export type Played = readonly Float64Array[];

/** Sample rate of what is played. */
export const RATE = 48_000;

/** So many seconds of both channels, made sample by sample from the time. */
export const played = (seconds: number, ...channels: readonly ((t: number) => number)[]): Played =>
  channels.map((of) => Float64Array.from({ length: seconds * RATE }, (_, i) => of(i / RATE)));

/** A steady tone at a peak level, dBFS. */
export const tone =
  (level: number) =>
  (t: number): number =>
    10 ** (level / 20) * Math.sin(2 * Math.PI * 997 * t);

/** A browser, and what ends it. */
export interface Hearing {
  readonly browser: Browser;
  readonly close: () => Promise<void>;
}

/**
 * A browser whose audio inputs play a file, which its pages may hear.
 * @param asks the browser would have to ask, and nobody answers: it is refused
 */
export const launchHearing = async (what: Played, asks = false): Promise<Hearing> => {
  const folder = mkdtempSync(join(tmpdir(), "hatside-pair-"));
  const file = join(folder, "pair.wav");
  writeFileSync(file, wavFile(what, { rate: RATE, width: 2 }));
  const browser = await launch(
    [
      "--use-fake-device-for-media-stream",
      asks ? "--deny-permission-prompts" : "--use-fake-ui-for-media-stream",
      `--use-file-for-fake-audio-capture=${file}`,
    ],
    // Only where there are windows is anybody asked.
    asks ? CHROMIUM : CHROMIUM_SHELL,
  );
  const close = async (): Promise<void> => {
    await browser.close();
    rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  };
  return { browser, close };
};

/** Gives a page that has no input one of its own: it hisses at −60 dBFS on both sides, and plays what is struck. */
export const giveInput = (page: Page): Promise<void> =>
  page.evaluate((rate) => {
    const device = { deviceId: "stage", kind: "audioinput", label: "Stage", groupId: "" };
    navigator.mediaDevices.enumerateDevices = async () => [device as MediaDeviceInfo];
    navigator.mediaDevices.getUserMedia = async () => {
      const context = new AudioContext({ sampleRate: rate });
      const hiss = context.createBuffer(2, rate, rate);
      const noise = () => 10 ** (-60 / 20) * Math.sqrt(3) * (2 * Math.random() - 1);
      for (const side of [0, 1]) hiss.getChannelData(side).set(Float32Array.from({ length: rate }, noise));
      const out = new MediaStreamAudioDestinationNode(context, { channelCount: 2 });
      const play = (buffer: AudioBuffer, loop: boolean): AudioBufferSourceNode => {
        const source = new AudioBufferSourceNode(context, { buffer, loop });
        source.connect(out);
        source.start();
        return source;
      };
      const struck = (...sides: readonly string[]): void => {
        const all = sides.map(
          (side) => new Int16Array(Uint8Array.from(atob(side), (c) => c.charCodeAt(0)).buffer),
        );
        const buffer = context.createBuffer(2, all[0]?.length ?? 0, rate);
        all.forEach((side, at) => {
          buffer.getChannelData(at).set(Float32Array.from(side, (sample) => sample / 2 ** 15));
        });
        play(buffer, false);
      };
      // Nobody else holds on to what makes the sound.
      Object.assign(globalThis, { struck, sounding: [context, play(hiss, true), out] });
      for (const track of out.stream.getAudioTracks())
        track.getSettings = () => ({ deviceId: device.deviceId });
      return out.stream;
    };
  }, RATE);

/** Samples of each side as text. */
export const packed = (sides: readonly Float32Array[]): string[] =>
  sides.map((side) =>
    Buffer.from(Int16Array.from(side, (sample) => Math.min(2 ** 15 - 1, 2 ** 15 * sample)).buffer).toString(
      "base64",
    ),
  );

/** Plays a pair into that input. */
export const strike = (page: Page, sides: readonly Float32Array[]): Promise<void> =>
  page.evaluate(
    (all) => (globalThis as unknown as { struck: (...sides: string[]) => void }).struck(...all),
    packed(sides),
  );

/** From its next start the page keeps its own inputs here, so that a test can pull the plug. */
export const watchTracks = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    const tracks: MediaStreamTrack[] = [];
    Object.assign(globalThis, { tracks });
    const open = navigator.mediaDevices.getUserMedia.bind(navigator.mediaDevices);
    navigator.mediaDevices.getUserMedia = async (asked) => {
      const stream = await open(asked);
      tracks.push(...stream.getTracks());
      return stream;
    };
  });

/** State of every input that was ever opened, the last at the end. */
export const trackStates = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    (globalThis as unknown as { tracks: MediaStreamTrack[] }).tracks.map(({ readyState }) => readyState),
  );

/** The plug is pulled: the system ends the track that is open. */
export const unplug = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const track = (globalThis as unknown as { tracks: MediaStreamTrack[] }).tracks.at(-1);
    track?.stop();
    track?.dispatchEvent(new Event("ended"));
  });

/** The page goes out of sight, or comes back. */
export const outOfSight = (page: Page, is: boolean): Promise<void> =>
  page.evaluate((hidden) => {
    Object.defineProperty(document, "visibilityState", {
      configurable: true,
      get: () => (hidden ? "hidden" : "visible"),
    });
    document.dispatchEvent(new Event("visibilitychange"));
  }, is);

/** Turns the check to the input. */
export const byInput = async (page: Page): Promise<void> => {
  await go(page, "check");
  await page.getByText("Audio input", { exact: true }).click();
  await page.getByRole("button", { name: "Open the input" }).waitFor();
};

/** Opens the input. */
export const openInput = async (page: Page): Promise<void> => {
  await tap(page.getByRole("button", { name: "Open the input" }));
  await page.getByText("The microphone is open.").waitFor();
};

/** The cells of a row of figures, by its name. */
export const meter = (page: Page, name: string | RegExp): Promise<string[]> =>
  page
    .locator("tr", { has: page.getByRole("rowheader", { name, exact: true }) })
    .locator("td")
    .allInnerTexts();
