import { CHROMIUM } from "../../tools/chromium.mjs";
import { launch, phoneWithCopy, typeKeys } from "../harness";
import type { Start } from "./driver";

/** Chromium as people have it, by its own protocol. */
export const startChromium: Start = async () => {
  const browser = await launch([], CHROMIUM);
  const { page, faults } = await phoneWithCopy(browser, { viewport: { width: 390, height: 844 } });
  return {
    name: "Chromium",
    open: async (url) => void (await page.goto(url)),
    reload: async () => void (await page.reload()),
    click: (selector) => page.locator(selector).first().click(),
    type: (selector, text) => typeKeys(page.locator(selector).first(), text),
    text: async (selector) => {
      const found = page.locator(selector).first();
      return (await found.count()) === 0 ? "" : ((await found.textContent()) ?? "");
    },
    run: (body) => page.evaluate(`(async () => { ${body} })()`),
    beside: async (_, body) => {
      // Opened by the page, an empty one is of its origin, and asks for no icon of its own.
      const [other] = await Promise.all([
        page.context().waitForEvent("page"),
        page.evaluate(() => void window.open("about:blank")),
      ]);
      await other.evaluate(`(async () => { ${body} })()`);
      return () => other.close();
    },
    faults: () => faults.splice(0),
    close: () => browser.close(),
  };
};
