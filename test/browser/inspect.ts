import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator, Page } from "playwright-core";
import { expect } from "vitest";
import { TOAST_MS } from "../../src/screens/state";
import { noiseWav } from "../measure/noisewav";
import { reachesOut, scrollsBy, unfold } from "./hall";
import { openAll } from "./hands";
import { axeFindings } from "./harness";

/** Many looks at one page, on a busy machine. */
export const WALK_MS = 300_000;

/** Smallest side of what is pressed, px: a hair less is rounding. */
const TARGET = 47.9;
/** The narrowest phone, and a usual one: also with its text, or with the whole page, twice as large. */
const NARROW = { width: 320, height: 640 };
const USUAL = { width: 360, height: 740 };
const ZOOMED = { width: USUAL.width / 2, height: USUAL.height / 2 };

/** Whatever is pressed and too small for a finger, with its size. */
const smallTargets = (page: Page): Promise<string[]> =>
  page.evaluate((least) => {
    const found: string[] = [];
    const pressed =
      "button, summary, select, textarea, input, nav a, a.press, [role=slider], .mark[tabindex]";
    for (const each of document.querySelectorAll<HTMLElement>(pressed)) {
      if (each.hidden || !each.checkVisibility()) continue;
      // A tick or a choice is pressed on its whole label.
      const ticked = each.matches("[type=checkbox], [type=radio]") ? each.closest("label") : null;
      const touched = ticked ?? each.querySelector(":scope > .mark-touch") ?? each;
      const { width, height } = touched.getBoundingClientRect();
      if (width < least || height < least)
        found.push(`${Math.round(width)}×${Math.round(height)} ${each.outerHTML.slice(0, 120)}`);
    }
    return found;
  }, TARGET);

const setText = (page: Page, size: string): Promise<void> =>
  page.evaluate((to) => {
    document.documentElement.style.fontSize = to;
  }, size);

/** Words that a box cuts off, so that a failure names them. The setup's name in the head is whole under Setups. */
const cutOff = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("#app *")]
      .filter((e) => {
        const meant = ".scroll-x, svg, .hidden-visually, .head .name, input, select, textarea";
        if (e.closest(meant) || !e.checkVisibility()) return false;
        const { overflowX, overflowY } = getComputedStyle(e);
        const hides = (overflow: string): boolean => overflow === "hidden" || overflow === "clip";
        return (
          (hides(overflowX) && e.scrollWidth > e.clientWidth + 1) ||
          (hides(overflowY) && e.scrollHeight > e.clientHeight + 1)
        );
      })
      .slice(0, 5)
      .map((e) => e.outerHTML.slice(0, 120)),
  );

/** Nothing scrolls sideways, reaches out or is cut off. */
const fitsIn = async (page: Page, what: string): Promise<void> => {
  const found = { scrolls: await scrollsBy(page), out: await reachesOut(page), cut: await cutOff(page) };
  expect(found, what).toEqual({ scrolls: 0, out: [], cut: [] });
};

/** Fits the narrowest phone, and a usual one at twice the size; everything can be hit with a finger. */
const fits = async (page: Page, what: string): Promise<void> => {
  await page.setViewportSize(NARROW);
  await fitsIn(page, `${what} at 320 px`);
  expect(await smallTargets(page), what).toEqual([]);
  await page.setViewportSize(ZOOMED);
  await fitsIn(page, `${what} zoomed to 200 %`);
  await page.setViewportSize(USUAL);
  await setText(page, "200%");
  await fitsIn(page, `${what} with text of 200 %`);
  await setText(page, "");
};

/** Whatever moves by itself, or would on a change. */
const moving = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const moves = (e: Element): boolean => {
      const { animationName, transitionDuration } = getComputedStyle(e);
      return animationName !== "none" || /[1-9]/.test(transitionDuration);
    };
    const able = [...document.querySelectorAll("*")].filter(moves).map((e) => e.outerHTML.slice(0, 120));
    return [...able, ...document.getAnimations().map(() => "an animation that runs")];
  });

/** Nothing moves where motion is not wanted. */
const keepsStill = async (page: Page, what: string): Promise<void> => {
  await page.emulateMedia({ reducedMotion: "reduce" });
  expect(await moving(page), `${what} where motion is not wanted`).toEqual([]);
  await page.emulateMedia({ reducedMotion: null });
};

/** The app's own looks, and those with the colours of a system. */
const LOOKS = [
  ["dark", "none"],
  ["light", "none"],
  ["dark", "active"],
  ["light", "active"],
] as const;

/** Nothing is found by axe, whatever the colours: by every rule in the first look, by those on colours in each. */
const isClean = async (page: Page, what: string): Promise<void> => {
  const show = (theme: string | undefined): Promise<void> =>
    page.evaluate((to) => {
      const { dataset } = document.documentElement;
      if (to === undefined) delete dataset.theme;
      else dataset.theme = to;
    }, theme);
  const own = await page.evaluate(() => document.documentElement.dataset.theme);
  for (const [theme, forcedColors] of LOOKS) {
    await page.emulateMedia({ forcedColors, colorScheme: theme });
    await show(theme);
    const rules = theme === "dark" && forcedColors === "none" ? "all" : "colours";
    expect(await axeFindings(page, rules), `${what}, ${theme}, forced colours: ${forcedColors}`).toEqual([]);
  }
  await page.emulateMedia({ forcedColors: null, colorScheme: null });
  await show(own);
};

/** Nothing is found by axe, in any colours; one main heading; it keeps still where it should; it fits, at every size. */
export const inspect = async (page: Page, what: string): Promise<void> => {
  expect(await page.locator("#app h1").count(), `main headings of ${what}`).toBe(1);
  await isClean(page, what);
  await keepsStill(page, what);
  await fits(page, what);
};

/** A word with its way back stays in sight as long as it is looked at. To be called before it comes. */
export const wordsStay = (page: Page): Promise<void> =>
  page.evaluate((usual) => {
    const later = globalThis.setTimeout;
    const patient = (work: () => void, ms = 0) => later(work, ms === usual ? 10 * 60_000 : ms);
    Object.assign(globalThis, { setTimeout: patient });
  }, TOAST_MS);

/** The longest name, without a place to break it. */
export const LONGEST = "TallowStreetSoul".repeat(5);

const THREE = ["Kick.wav", "Snare.wav", `${LONGEST}.wav`];

const measureTwoOf = async (page: Page, files: Parameters<Locator["setInputFiles"]>[0]): Promise<void> => {
  await unfold(page, "Measure a recording");
  await page.getByLabel("Choose recordings").setInputFiles(files);
  await page.getByLabel(`Channel for ${LONGEST}.wav`).selectOption("left out");
  await page.getByRole("button", { name: "Measure 2 tracks" }).click();
  // The last of it: each part comes a task after the one before.
  await page.locator("#keep").waitFor();
  await openAll(page);
};

/** Chooses recordings of three tracks, leaves one out, measures two and opens everything. */
export const measureTwo = async (page: Page): Promise<void> => {
  const files = THREE.map((name, at) => ({ name, mimeType: "audio/wav", buffer: noiseWav(at + 1, 9600) }));
  await measureTwoOf(page, files);
};

/** The same with files of a folder, which may change there afterwards. Gives the path of the first. */
export const measureTwoIn = async (page: Page, folder: string): Promise<string> => {
  const paths = THREE.map((name) => join(folder, name));
  for (const [at, path] of paths.entries()) writeFileSync(path, noiseWav(at + 1, 9600));
  await measureTwoOf(page, paths);
  return paths[0] ?? "";
};
