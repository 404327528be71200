import { resolve } from "node:path";
import { chromium } from "playwright-core";
import { bundle } from "./bundle.mjs";
import { CHROMIUM } from "./chromium.mjs";
import { PLACES } from "./places.mjs";
import { serve } from "./serve.mjs";

/**
 * Prints every text of every screen, everything on it open, of the worked example and of an empty setup: what a reader
 * goes through to find a word that stops them. Needs the built app; DIST names another folder.
 */
const SHUT = 'main details:not([open]) > summary, main button[aria-expanded="false"]';

const site = await serve(resolve(process.env.DIST ?? resolve(import.meta.dirname, "../../dist")));
const browser = await chromium.launch({ executablePath: CHROMIUM, args: ["--no-sandbox"] });
const page = await browser.newPage({ viewport: { width: 390, height: 844 } });

/** Opens what is shut until nothing is. */
const openAll = async () => {
  const loaded = () => page.locator(".wait").first().waitFor({ state: "detached" });
  await loaded();
  while ((await page.locator(SHUT).count()) > 0) {
    await page.locator(SHUT).evaluateAll((all) => {
      for (const each of all) each.click();
      // What a part draws only when it is open comes a turn later.
      return new Promise((drawn) => setTimeout(drawn));
    });
    await loaded();
  }
};

/** Every text that can be seen or is read out, line by line; what a list offers to choose from is one line. */
const texts = () =>
  page.evaluate(() => {
    const named = [...document.querySelectorAll("main [aria-label], main [title], main [placeholder]")];
    const spoken = named.flatMap((e) => ["aria-label", "title", "placeholder"].map((a) => e.getAttribute(a)));
    // biome-ignore lint/performance/useDomNodeTextContent: what is not shown is no text on the screen
    const lines = document.body.innerText.split("\n").map((line) => line.trim());
    return {
      shown: lines.filter((line, at) => line !== "" && line !== lines[at - 1]),
      spoken: [...new Set(spoken.filter(Boolean))],
    };
  });

const dump = async (setup) => {
  for (const place of PLACES) {
    await page.goto(`${site.url}#${place}`);
    await page.locator("#app h1:not(.wait)").waitFor();
    await openAll();
    const { shown, spoken } = await texts();
    console.log(`\n## ${setup}: ${place}\n\n${shown.join("\n")}\n\n### Read out\n\n${spoken.join("\n")}`);
  }
};

await dump("Example");
await page.goto(`${site.url}#setups`);
await openAll();
const { blankSetup } = await bundle("src/document/blank.ts");
const [chooser] = await Promise.all([
  page.waitForEvent("filechooser"),
  page.getByText("Import a setup or backup", { exact: true }).click(),
]);
const buffer = Buffer.from(JSON.stringify(blankSetup()));
await chooser.setFiles({ name: "empty.json", mimeType: "application/json", buffer });
await page.getByRole("button", { name: "Import and open" }).click();
await page.getByRole("button", { name: "Import and open" }).waitFor({ state: "detached" });
await dump("Empty setup");
await browser.close();
await site.stop();
