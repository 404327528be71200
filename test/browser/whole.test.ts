import { readdirSync } from "node:fs";
import { join } from "node:path";
import type { BrowserContext, Page } from "playwright-core";
import { expect, it } from "vitest";
import { coded } from "../measure/coded";
import { wavFile } from "../measure/wavfile";
import { noise } from "../tools/chance.mjs";
import { PLACES } from "../tools/places.mjs";
import { answerAll, choose, downloaded, go, states, unfold, visit } from "./hall";
import { openAll } from "./hands";
import { DIST, drawn, phoneWithMemory, serveApp, stopServer, typeKeys, withFolder } from "./harness";
import { slider } from "./kick";
import { byInput, giveInput, openInput } from "./pair";

const EXAMPLE = "Tallow Street Soul at Linden Hall";

/** A second of noise whose hits fade. */
const recording = (): Buffer => {
  const next = noise(1);
  return Buffer.from(
    wavFile([Float64Array.from({ length: 48_000 }, (_, i) => 0.3 * next() * Math.exp(-(i % 12_000) / 4000))]),
  );
};

/** Names of the scripts and styles that a browser asks for from now on, whoever answers. */
const askedFor = (context: BrowserContext): Set<string> => {
  const names = new Set<string>();
  context.on("request", (request) => names.add(new URL(request.url()).pathname.split("/").pop() ?? ""));
  return names;
};

const downloads = async (page: Page, button: string, like: string | RegExp): Promise<string> => {
  const text = await downloaded(page, button);
  expect(text).toMatch(like);
  return text;
};

const everyScreen = async (page: Page): Promise<void> => {
  for (const place of PLACES) {
    await go(page, place);
    await openAll(page);
    expect(await page.getByText("could not be loaded").count(), place).toBe(0);
    expect(await page.locator("main h1").textContent(), place).not.toBe("");
  }
};

const aCheck = async (page: Page): Promise<void> => {
  await go(page, "check");
  await page.getByRole("button", { name: "Start the check" }).click();
  await states(page, /^Hit the /);
  await answerAll(page);
  await page.getByRole("button", { name: "Check again" }).waitFor();
  await page.getByRole("button", { name: "Done" }).click();
};

const anInput = async (page: Page): Promise<void> => {
  await giveInput(page);
  await byInput(page);
  await openInput(page);
  await page.getByRole("button", { name: "Start the check" }).click();
  await page.getByText(/^Hit the /).waitFor();
  await page.getByRole("button", { name: "Stop", exact: true }).click();
};

/** With so many inputs the plans are searched off the page's thread. */
const aLongSearch = async (page: Page): Promise<void> => {
  await go(page, "patch");
  const inputs = page.getByLabel("Monitor inputs", { exact: true });
  await typeKeys(inputs, "64");
  await inputs.press("Enter");
  await go(page, "decide");
  await page
    .getByRole("button", { name: /^Apply to plan/ })
    .first()
    .waitFor();
};

const papersAndLinks = async (page: Page): Promise<void> => {
  await go(page, "patch");
  await openAll(page);
  await expect.poll(() => page.locator(".paper").textContent()).toContain("Bass");
  await downloads(page, "Sheet as CSV", /^\ufeffIn,Name,From,Port/);
  const list = await downloads(page, "Export list as CSV", /Bass/);
  await page.getByRole("img", { name: /^QR code of the link to/ }).waitFor();
  expect(await page.getByLabel(/^The link, /).inputValue()).toContain("#s=");
  await choose(page, "Import a CSV list", "list.csv", list);
  await page.getByText("“list.csv”").first().waitFor();
};

const setups = async (page: Page): Promise<void> => {
  await go(page, "setups");
  await page.getByRole("button", { name: `More for ${EXAMPLE}`, exact: true }).click();
  await page.getByRole("button", { name: "Duplicate" }).click();
  await unfold(page, "Compare two setups");
  await page.getByText("No difference except the name.").waitFor();
  const backup = await downloads(page, "Back up 2 setups", /hatside/);
  await choose(page, "Import a setup or backup", "backup.json", backup);
  await page.getByRole("button", { name: "Cancel" }).click();
  await unfold(page, "Start a new setup");
  await page.getByRole("button", { name: "Start with 8 microphones" }).click();
  await states(page, "8 channels in Drums, stereo bus");
};

const recordingsAndSound = async (page: Page): Promise<void> => {
  await go(page, "headroom");
  await unfold(page, "Measure a recording");
  await page.getByLabel("Choose recordings").setInputFiles([
    { name: "Kick.wav", mimeType: "audio/wav", buffer: recording() },
    { name: "Snare.flac", mimeType: "audio/flac", buffer: Buffer.from(coded("flac", recording())) },
  ]);
  await page.getByRole("button", { name: "Measure 2 tracks" }).click();
  await page.locator("#beside").waitFor();
  await go(page, "image");
  await unfold(page, "Listen to it");
  await page.getByRole("button", { name: "Listen", exact: true }).click();
  await page.getByRole("button", { name: "Stop", exact: true }).click();
};

/** Its part comes only when something cannot be kept: just then nothing must be missing. */
const aWayOutOfTrouble = async (page: Page): Promise<void> => {
  await go(page, "channels");
  await page.evaluate(() => {
    IDBObjectStore.prototype.put = () => {
      throw new DOMException("no room", "QuotaExceededError");
    };
  });
  await slider(page).press("ArrowRight");
  await downloads(page, "Download the setup", /hatside-setup/);
};

it.each(["/", "/name/"])(
  "after one visit under %s everything works for good: server gone, browser started again, every part used",
  async (base) => {
    await withFolder(async (profile) => {
      const site = await serveApp({ base });
      const first = await phoneWithMemory(profile);
      await visit(first, site);
      await first.context.close();
      await stopServer(site);

      const { context, page, faults } = await phoneWithMemory(profile);
      const asked = askedFor(context);
      await page.goto(`${site.url}#channels`);
      await drawn(page);
      await everyScreen(page);
      await aLongSearch(page);
      await aCheck(page);
      await anInput(page);
      await papersAndLinks(page);
      await setups(page);
      await recordingsAndSound(page);
      await aWayOutOfTrouble(page);

      // So that a part which is new one day is used here too.
      const parts = readdirSync(join(DIST, "assets"));
      expect(parts.length).toBeGreaterThan(20);
      // What a worklet asks for is told to nobody; without it no input would have opened.
      const isTold = (name: string): boolean => !name.startsWith("tap-");
      expect(parts.filter((name) => isTold(name) && !asked.has(name))).toEqual([]);
      expect([...first.faults, ...faults]).toEqual([]);
      await context.close();
    });
  },
);
