import type { Page } from "playwright-core";
import { expect } from "vitest";
import { isolated } from "../../src/core/lib/direction";
import { overhang, reachesOut } from "./hall";
import { axeFindings, type Phone, phone } from "./harness";
import { CORPUS } from "./hostile";
import { browser } from "./stage";

/** A narrow phone on which a dialog is a fault like any other. */
export const narrow = async (start: typeof phone = phone): Promise<Phone> => {
  const user = await start(browser, { viewport: { width: 320, height: 640 }, hasTouch: false });
  user.page.on("dialog", (dialog) => {
    user.faults.push(`dialog: ${dialog.message()}`);
    void dialog.dismiss();
  });
  return user;
};

/** A text on the page, and whether nothing stands behind it in its line. */
interface Shown {
  readonly data: string;
  readonly isLast: boolean;
}

/** Every text in some parts of the page; sent as JSON, which keeps halves of pairs. */
const textsOf = async (page: Page, parts: string): Promise<readonly Shown[]> => {
  const json = await page.evaluate((selector) => {
    const all: Shown[] = [];
    for (const part of document.querySelectorAll(selector)) {
      const walker = document.createTreeWalker(part, NodeFilter.SHOW_TEXT);
      while (walker.nextNode()) {
        const text = walker.currentNode as Text;
        // What is inline does not end the line.
        let at: Node = text;
        while (!at.nextSibling && at.parentElement && getComputedStyle(at.parentElement).display === "inline")
          at = at.parentElement;
        all.push({ data: text.data, isLast: at.nextSibling === null });
      }
    }
    return JSON.stringify(all);
  }, parts);
  return JSON.parse(json);
};

/** Which of some texts stand in none of the parts, letter by letter. */
const missing = (all: readonly Shown[], texts: readonly string[]): string[] =>
  texts.filter((text) => !all.some(({ data }) => data.includes(text))).map((text) => JSON.stringify(text));

/** Sentences in which a text turns the direction of the app’s own words behind it; what ends its line turns none. */
const turned = (all: readonly Shown[]): string[] =>
  all
    .filter(({ data, isLast }) => !(isLast && CORPUS.some((text) => data.endsWith(text))))
    .filter(({ data }) => isolated(data) !== data)
    .map(({ data }) => JSON.stringify(data));

/** What a text has become that it must not: elements, handlers, addresses, a title, a polluted prototype. */
export const harm = (page: Page): Promise<string[]> =>
  page.evaluate(() => {
    const found: string[] = [];
    const foreign =
      "img, script, style, link, base, iframe, object, embed, form, meta, video, audio, template";
    for (const each of document.body.querySelectorAll(foreign)) found.push(each.outerHTML.slice(0, 120));
    for (const each of document.querySelectorAll("*"))
      for (const { name, value } of each.attributes) {
        if (name.startsWith("on")) found.push(`${name}=${value}`);
        if (/^(href|src|action|formaction)$/.test(name) && /^\s*(javascript|data):/i.test(value))
          found.push(`${name}=${value}`);
      }
    for (const each of document.querySelectorAll("a"))
      if (!each.getAttribute("href")?.startsWith("#")) found.push(each.outerHTML);
    if (document.title !== "Hatside") found.push(`title: ${document.title}`);
    if ("polluted" in {}) found.push("polluted");
    return found;
  });

/** Some parts of the page show texts, and the words behind them run as they should. */
export const unturned = async (page: Page, parts: string, shows: readonly string[]): Promise<void> => {
  const all = await textsOf(page, parts);
  expect(missing(all, shows)).toEqual([]);
  expect(turned(all)).toEqual([]);
};

/** All of what must hold wherever hostile texts are shown. */
export const harmless = async (page: Page, shows: readonly string[]): Promise<void> => {
  expect(await harm(page)).toEqual([]);
  expect(missing(await textsOf(page, "body"), shows)).toEqual([]);
  expect([await overhang(page), await reachesOut(page)], "sideways").toEqual([0, []]);
  expect(await axeFindings(page)).toEqual([]);
};
