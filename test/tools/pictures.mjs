import { join, resolve } from "node:path";
import { chromium } from "playwright-core";
import { CHROMIUM } from "./chromium.mjs";
import { serve } from "./serve.mjs";

/** Takes the two pictures of the README anew from the built app and its worked example. DIST names another folder. */
const folder = join(import.meta.dirname, "../pictures");
/** The screen of each picture, as far as a phone shows it. */
const PICTURES = { drawing: "image", plan: "decide" };

const site = await serve(resolve(process.env.DIST ?? resolve(import.meta.dirname, "../../dist")));
const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
const page = await browser.newPage({ viewport: { width: 390, height: 844 }, deviceScaleFactor: 2 });
await page.addInitScript(() => localStorage.setItem("hatside-theme", "dark"));
for (const [name, place] of Object.entries(PICTURES)) {
  await page.goto(`${site.url}#${place}`);
  await page.locator("#app h1:not(.wait)").waitFor();
  await page.locator(".wait").first().waitFor({ state: "detached" });
  await page.screenshot({ path: join(folder, `${name}.png`) });
}
await browser.close();
await site.stop();
