import { readFileSync } from "node:fs";
import type { Download, Locator, Page } from "playwright-core";
import { expect } from "vitest";
import { controlled, drawn, type Phone, type Site } from "./harness";

/** First visit to a site until everything is kept. */
export const visit = async ({ page }: Phone, site: Site, place = ""): Promise<void> => {
  await page.goto(`${site.url}${place}`);
  await drawn(page);
  await controlled(page);
};

/** Goes to a place by the address, as a link in the app does. */
export const go = async (page: Page, place: string): Promise<void> => {
  await page.evaluate((to) => {
    if (location.hash === `#${to}`) return undefined;
    // The app heeds the new address first, and has drawn it a turn later.
    const drawnThen = new Promise<void>((done) =>
      addEventListener("hashchange", () => setTimeout(done), { once: true }),
    );
    location.hash = to;
    return drawnThen;
  }, place);
  // What a link carries is read and gone from the address, often before anybody looks.
  if (!place.includes("=")) await page.waitForFunction((to) => location.hash === `#${to}`, place);
  await drawn(page);
};

/** Opens a card; what is in it is there afterwards. */
export const unfold = async (page: Page, title: string): Promise<void> => {
  await page.locator("summary", { hasText: title }).click();
  await page.locator("details[open]:has(> summary + *) > summary", { hasText: title }).waitFor();
};

/** What can be read of a part, hidden things left out. */
export const shown = async (part: Locator): Promise<string> => (await part.allInnerTexts()).join("\n");

/** Waits for the main statement of a screen. */
export const states = (page: Page, says: string | RegExp): Promise<void> =>
  page.locator("h1", { hasText: says }).waitFor();

/** What is told at once: notices and refusals. */
export const alert = (page: Page): Locator => page.getByRole("alert");

/** What stands in the inputs on the Patch screen, one line an input. */
export const inputs = async (page: Page): Promise<string[]> => {
  const lines = await page.locator(".monitor-input > summary").allInnerTexts();
  expect(lines.length).toBeGreaterThan(0);
  return lines.map((line) => line.replace(/\s+/g, " ").trim());
};

/** Names of the setups on the shelf, in the order of the list. */
export const shelved = (page: Page): Promise<string[]> => page.locator(".setup-name > b").allInnerTexts();

/** The text of a file that a button hands out. */
export const downloaded = async (page: Page, button: string | RegExp): Promise<string> => {
  const [download] = await Promise.all([
    page.waitForEvent("download") as Promise<Download>,
    page.getByRole("button", { name: button }).click(),
  ]);
  return readFileSync(await download.path(), "utf8");
};

/** Chooses a file where a button asks for one. */
export const choose = (page: Page, label: string, name: string, content: string | Buffer): Promise<void> =>
  page.getByLabel(label).setInputFiles({
    name,
    mimeType: name.endsWith("csv") ? "text/csv" : "application/json",
    buffer: Buffer.from(content),
  });

/**
 * What reaches beyond the screen sideways, by its box or by a line of its text, so that a failure names it. A letter
 * with a flood of marks is cut off on purpose, and what stands on one line with it.
 */
export const reachesOut = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const range = document.createRange();
    const flood = /\p{M}{9}/u;
    const out = (box: DOMRect): boolean => box.right > innerWidth + 1;
    const isOut = (e: Element): boolean => {
      const around = e.closest(".scroll-x, svg, .hidden-visually, .head .name, select, option, .paper");
      if (around || flood.test(e.parentElement?.textContent ?? "") || !e.checkVisibility()) return false;
      if (out(e.getBoundingClientRect())) return true;
      return [...e.childNodes].some((text) => {
        range.selectNodeContents(text);
        return text instanceof Text && out(range.getBoundingClientRect());
      });
    };
    return [...document.querySelectorAll("#app *")]
      .filter(isOut)
      .slice(0, 5)
      .map((e) => e.outerHTML.slice(0, 120));
  });

/** How far the page scrolls sideways, px. */
export const scrollsBy = (page: Page): Promise<number> =>
  page.evaluate(() => Math.max(0, document.documentElement.scrollWidth - innerWidth));

/** How far the page reaches beyond the screen sideways, px: by scrolling, or by anything that is cut off there. */
export const overhang = async (page: Page): Promise<number> => {
  const out = await reachesOut(page);
  return Math.max(await scrollsBy(page), out.length);
};

/** Answers a check with one key until it knows something; a key that comes too soon after another does not count. */
export const answerAll = async (page: Page, key = "1"): Promise<void> => {
  const question = page.locator(".question");
  await question.waitFor();
  const left = async (): Promise<number> => {
    await page.keyboard.press(key);
    return question.count();
  };
  await expect.poll(left, { timeout: 60_000, message: "the check comes to an end" }).toBe(0);
};

/** Keeps the setup that is shown for taking in; done once it is open, for the app goes to its kit by itself. */
export const keepIt = async (page: Page): Promise<void> => {
  await page.getByRole("button", { name: "Import and open" }).click();
  await page.waitForFunction(() => location.hash === "#channels");
};

/** Takes a setup in by its file and opens it. */
export const takeIn = async (page: Page, text: string): Promise<void> => {
  await go(page, "setups");
  await choose(page, "Import a setup or backup", "setup.json", text);
  await keepIt(page);
};
