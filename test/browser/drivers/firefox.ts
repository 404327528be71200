import puppeteer from "puppeteer-core";
import { CATCH } from "./caught";
import type { Start } from "./driver";

/** Firefox ESR, by WebDriver BiDi. */
export const startFirefox: Start = async () => {
  const browser = await puppeteer.launch({
    browser: "firefox",
    executablePath: process.env.FIREFOX ?? "/usr/bin/firefox-esr",
    headless: true,
  });
  const page = await browser.newPage();
  await page.setViewport({ width: 390, height: 844 });
  const faults: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(`console: ${message.text()}`);
  });
  page.on("pageerror", (error) => faults.push(`uncaught: ${String(error)}`));
  await page.evaluateOnNewDocument(`{ const tell = (what) => console.error(what); ${CATCH} }`);
  return {
    name: "Firefox ESR",
    open: async (url) => void (await page.goto(url, { waitUntil: "load" })),
    reload: async () => void (await page.reload({ waitUntil: "load" })),
    click: (selector) => page.click(selector),
    type: async (selector, text) => {
      await page.click(selector);
      await page.keyboard.down("Control");
      await page.keyboard.press("a");
      await page.keyboard.up("Control");
      await page.keyboard.press("Delete");
      await page.keyboard.type(text);
    },
    text: (selector) =>
      page.evaluate((wanted) => document.querySelector(wanted)?.textContent ?? "", selector),
    run: <T>(body: string) => page.evaluate(`(async () => { ${body} })()`) as Promise<T>,
    beside: async (url, body) => {
      const other = await browser.newPage();
      await other.goto(url);
      await other.evaluate(`(async () => { ${body} })()`);
      await page.bringToFront();
      return () => other.close();
    },
    faults: () => faults.splice(0),
    close: () => browser.close(),
  };
};
