/*
 * Dragging a channel pan on Channels with 64 channels (and with 8, to compare) on a phone whose processor is six times
 * slower: gaps between drawn frames, their 95th percentile, and how many frames took over 50 ms.
 * Run: npm run build && node test/bench/drag.mjs
 */
import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import { chromium } from "playwright-core";
import { bundle } from "../tools/bundle.mjs";
import { CHROMIUM } from "../tools/chromium.mjs";
import { serve } from "../tools/serve.mjs";

const dist = resolve(process.env.DIST ?? join(import.meta.dirname, "../../dist"));
if (!existsSync(join(dist, "index.html"))) {
  console.log("dragging: left out; npm run build first");
  process.exit();
}
const { crowded, exampleSetup } = await bundle("test/bench/core.ts");

const SLOWER = 6;
const LONG_MS = 50;
const DRAG_MS = 4000;
const SWINGS = 4;

/** Brings a setup in as a file, as a user does. */
const takeIn = async (page, setup) => {
  await page.getByLabel("Import a setup or backup").setInputFiles({
    name: "crowd.json",
    mimeType: "application/json",
    buffer: Buffer.from(JSON.stringify(setup)),
  });
  await page.getByRole("button", { name: "Import and open" }).click();
  await page.locator("h1", { hasText: "in Drums" }).waitFor();
};

const framesOf = (page) =>
  page.evaluate(
    () =>
      new Promise((done) => {
        const gaps = [];
        let last = performance.now();
        const look = (now) => {
          gaps.push(now - last);
          last = now;
          if (globalThis.dragged) done(gaps);
          else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
  );

const drag = async (page) => {
  const bar = page.getByRole("slider").first();
  const box = await bar.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const begin = Date.now();
  await page.mouse.move(x, y);
  await page.mouse.down();
  for (let t = 0; t < DRAG_MS; t = Date.now() - begin)
    await page.mouse.move(x + 0.4 * box.width * Math.sin((2 * Math.PI * SWINGS * t) / DRAG_MS), y);
  // Not where it began: what stands there afterwards tells that the drag was one.
  await page.mouse.move(x + 0.3 * box.width, y);
  await page.mouse.up();
};

const browser = await chromium.launch({
  executablePath: CHROMIUM,
  args: ["--no-sandbox", "--disable-background-networking"],
});
const site = await serve(dist);
const rows = [];
try {
  for (const channels of [8, 64]) {
    const page = await browser.newPage({ viewport: { width: 360, height: 740 } });
    await page.goto(`${site.url}#setups`);
    await takeIn(page, crowded(exampleSetup(), channels, 8));
    const pan = page.getByRole("slider").first();
    const before = await pan.getAttribute("aria-valuenow");
    const session = await page.context().newCDPSession(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWER });
    const [gaps] = await Promise.all([
      framesOf(page),
      drag(page).then(() => page.evaluate(() => Object.assign(globalThis, { dragged: true }) && undefined)),
    ]);
    await session.send("Emulation.setCPUThrottlingRate", { rate: 1 });
    if ((await pan.getAttribute("aria-valuenow")) === before) throw new Error("the drag moved nothing");
    gaps.sort((a, b) => a - b);
    rows.push({
      channels,
      frames: gaps.length,
      "median ms": gaps[Math.floor(gaps.length / 2)].toFixed(1),
      "95 % ms": gaps[Math.floor(0.95 * gaps.length)].toFixed(1),
      [`over ${LONG_MS} ms`]: gaps.filter((gap) => gap > LONG_MS).length,
    });
    await page.close();
  }
} finally {
  await browser.close();
  await site.stop();
}
console.table(rows);
