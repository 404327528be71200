import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serve } from "../tools/serve.mjs";
import { until } from "./drivers/driver";
import { startFirefox } from "./drivers/firefox";
import { startWebKit } from "./drivers/webkit";
import { expectFault, faultsOf } from "./faults";
import { DIST, drawn, launch, phoneWithCopy, type Site, serveApp, withFolder } from "./harness";

let browser: Browser;
let site: Site;
let foreign: Site;
beforeAll(async () => {
  [browser, site, foreign] = await Promise.all([launch(), serveApp(), serve(DIST)]);
});
afterAll(async () => {
  await browser.close();
  await site.stop();
  await foreign.stop();
});

it("errors on the console, uncaught ones and what the policy stops are seen on any page", async () => {
  const { page, context, faults } = await phoneWithCopy(browser);
  await page.goto(site.url);
  await drawn(page);
  expect(faults).toEqual([]);
  await page.evaluate(() => console.error("said on purpose"));
  await expectFault(context, /^console: said on purpose/);
  await page.evaluate(() => void setTimeout(() => Promise.reject(new Error("rejected on purpose"))));
  await expectFault(context, /^uncaught: .*rejected on purpose/);
  await page.evaluate((url) => fetch(url).catch(() => {}), foreign.url);
  await expectFault(context, /^policy: .*connect-src/i);
  faults.length = 0;
  const second = await context.newPage();
  await second.evaluate(() => void setTimeout(() => Promise.reject(new Error("on another page"))));
  await expectFault(context, /^uncaught: .*on another page/);
  await context.close();
});

it("requests that leave their page's own origin are seen, those to other ports of this machine too", async () => {
  const page = await browser.newPage();
  const faults = faultsOf(page.context());
  await page.route("**/plain", (route) => route.fulfill({ contentType: "text/html", body: "<p>plain" }));
  await page.goto(`${site.url}plain`);
  await page.evaluate(() => fetch("manifest.webmanifest"));
  expect(faults).toEqual([]);
  const known = await serveApp();
  for (const { url } of [foreign, known]) {
    await page.evaluate((to) => fetch(to).catch(() => {}), `${url}manifest.webmanifest`);
    await expectFault(page.context(), new RegExp(`^leaves: ${url}manifest`));
    // What the browser itself says of it.
    faults.length = 0;
  }
  await known.stop();
  await page.context().close();
});

/** A worker that asks another origin, in a way of which the browser itself says nothing. */
const ASKS = `fetch(decodeURIComponent(location.search.slice(1)), { mode: "no-cors" });`;

it.each([
  ["a worker", (script: string) => void new Worker(script)],
  ["a service worker", (script: string) => void navigator.serviceWorker.register(script)],
])("a request of %s that leaves its origin is seen", async (_, start) => {
  await withFolder(async (folder) => {
    writeFileSync(join(folder, "index.html"), "<!doctype html><link rel=icon href=data:,><p>plain");
    writeFileSync(join(folder, "asks.js"), ASKS);
    writeFileSync(join(folder, "manifest.webmanifest"), "{}");
    const plain = await serveApp({ folder });
    const page = await browser.newPage();
    await page.goto(plain.url);
    for (const { url, seen } of [plain, foreign]) {
      seen.length = 0;
      await page.evaluate(start, `asks.js?${encodeURIComponent(`${url}manifest.webmanifest`)}`);
      await expect.poll(() => seen).toContain("/manifest.webmanifest");
    }
    await expectFault(page.context(), new RegExp(`^leaves: ${foreign.url}manifest`));
    expect(faultsOf(page.context())).toEqual([]);
    await page.context().close();
    await plain.stop();
  });
});

describe.each([
  ["Firefox", startFirefox],
  ["WebKit", startWebKit],
])("%s", (_, start) => {
  it("tells what goes wrong as well", async () => {
    const driver = await start();
    try {
      await driver.open(site.url);
      await until(driver, "return document.querySelector('#app h1:not(.wait)') !== null;", "the app");
      expect(driver.faults()).toEqual([]);
      await driver.run(`
        console.error("said on purpose");
        setTimeout(() => { throw new Error("thrown on purpose"); });
        Promise.reject(new Error("rejected on purpose"));
        await fetch("${foreign.url}").catch(() => {});
        await new Promise((done) => setTimeout(done, 100));`);
      const told: string[] = [];
      const wanted = [
        /^console: .*said/,
        /^uncaught: .*thrown/,
        /uncaught: .*rejected/,
        /policy: .*connect-src/,
      ];
      const missing = async (): Promise<RegExp[]> => {
        await driver.run("");
        told.push(...driver.faults());
        return wanted.filter((like) => !told.some((fault) => like.test(fault)));
      };
      await expect.poll(missing).toEqual([]);
      await driver.reload();
      await driver.run(`setTimeout(() => { throw new Error("after another start"); });`);
      wanted.push(/^uncaught: .*another start/);
      await expect.poll(missing).toEqual([]);
    } finally {
      await driver.close();
    }
  });
});
