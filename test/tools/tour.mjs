import { mkdtemp } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { chromium } from "playwright-core";
import { CHROMIUM } from "./chromium.mjs";
import { PLACES } from "./places.mjs";
import { serve } from "./serve.mjs";

/**
 * Takes a picture of every screen of the worked example at five sizes in both themes, as it comes and at its whole length,
 * into a folder of its own whose name is printed: to be looked at and thrown away. Needs the built app; DIST names another
 * folder.
 */
const SIZES = [
  [360, 740],
  [390, 844],
  [844, 390],
  [820, 1180],
  [1280, 800],
];

const site = await serve(resolve(process.env.DIST ?? resolve(import.meta.dirname, "../../dist")));
const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
const folder = await mkdtemp(join(tmpdir(), "hatside-tour-"));
for (const theme of ["dark", "light"])
  for (const [width, height] of SIZES) {
    const context = await browser.newContext({ viewport: { width, height } });
    await context.addInitScript((chosen) => localStorage.setItem("hatside-theme", chosen), theme);
    const page = await context.newPage();
    for (const place of PLACES) {
      await page.goto(`${site.url}#${place}`);
      await page.locator("#app h1:not(.wait)").waitFor();
      await page.locator(".wait").first().waitFor({ state: "detached" });
      const name = join(folder, `${place}-${width}x${height}-${theme}`);
      await page.screenshot({ path: `${name}.png` });
      await page.screenshot({ path: `${name}-whole.png`, fullPage: true });
    }
    await context.close();
  }
await browser.close();
await site.stop();
console.log(folder);
