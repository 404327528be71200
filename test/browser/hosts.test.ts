import { execFileSync } from "node:child_process";
import { readdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { startChromium } from "./drivers/chromium";
import { type Driver, type Start, until } from "./drivers/driver";
import { startFirefox } from "./drivers/firefox";
import { startWebKit } from "./drivers/webkit";
import { copyAsVersion2, DIST, serveApp, stopServer, withFolder } from "./harness";
import { publish } from "./newer";

const ENGINES: readonly (readonly [name: string, start: Start])[] = [
  ["Chromium", startChromium],
  ["Firefox ESR", startFirefox],
  ["WebKitGTK", startWebKit],
];

const drawn = (driver: Driver): Promise<void> =>
  until(driver, 'return document.querySelector("#app h1:not(.wait)") !== null;', "the app");
const kept = (driver: Driver): Promise<void> =>
  until(
    driver,
    `const registration = await navigator.serviceWorker.getRegistration();
    return registration?.active?.state === "activated" && navigator.serviceWorker.controller !== null;`,
    "the offline copy",
  );
/**
 * Waits until what is loaded by itself has come, a screen that nobody opened among it: a page that is left in the midst
 * of it reports what was cut off.
 */
const atRest = (driver: Driver): Promise<void> =>
  until(
    driver,
    `const all = () => performance.getEntriesByType("resource").map(({ name }) => name);
    const before = all();
    if (!before.some((name) => name.includes("/assets/about-"))) return false;
    await new Promise((done) => setTimeout(done, 700));
    return all().length === before.length;`,
    "rest",
  );
/** What was cut off by leaving a page is told on the next one; from there on nothing may be missing. */
const wholeFromHere = async (driver: Driver): Promise<void> => {
  const cutOff = /A ServiceWorker intercepted the request|^console: not loaded: /;
  expect(driver.faults().filter((fault) => !cutOff.test(fault))).toEqual([]);
  await atRest(driver);
  expect(driver.faults()).toEqual([]);
};
/** Waits until a line of the page says something. */
const says = (driver: Driver, words: string): Promise<void> =>
  until(driver, `return document.body.innerText.includes(${JSON.stringify(words)});`, words);

const CLEAR = "for (const name of await caches.keys()) await caches.delete(name);";
/** Files of the app that are kept. */
const FILES = `let files = 0;
  for (const name of await caches.keys()) if (name.startsWith("hatside-files"))
    files += (await (await caches.open(name)).keys()).length;
  return files;`;

describe.each(ENGINES)("%s", (_, start) => {
  let driver: Driver;
  beforeAll(async () => {
    driver = await start();
  });
  // Each test has a server of its own, so that nothing is kept there yet.
  beforeEach(async () => {
    await driver.open("about:blank");
    driver.faults();
  });
  afterAll(() => driver.close());

  it("opens again, also offline, from a host that leads from the folder to its page", async () => {
    const site = await serveApp({ redirectsHome: true });
    await driver.open(site.url);
    await drawn(driver);
    await kept(driver);
    await atRest(driver);
    await driver.open(site.url);
    await drawn(driver);
    await atRest(driver);
    await stopServer(site);
    await driver.open(site.url);
    await drawn(driver);
    await wholeFromHere(driver);
  });

  it("says so where its copy was cleared and the server is away, and fetches it again when it is back", async () => {
    const site = await serveApp();
    await driver.open(`${site.url}#setups`);
    await says(driver, "Works offline on this device.");
    const files = await driver.run<number>(FILES);
    await stopServer(site);
    await driver.run(CLEAR);
    await driver.run('document.dispatchEvent(new Event("visibilitychange"));');
    await says(driver, "files are missing on this device. It works online only.");
    const again = await serveApp({ port: site.port });
    await until(
      driver,
      'location.hash = "channels"; return document.querySelector("#device") === null;',
      "another screen",
    );
    await driver.run('location.hash = "setups";');
    await says(driver, "Works offline on this device.");
    expect(await driver.run<number>(FILES)).toBe(files);
    await stopServer(again);
    await driver.reload();
    await drawn(driver);
    driver.faults();
  });

  it("keeps every deployment of one origin, whatever the others do", async () => {
    await withFolder(async (folder) => {
      const places = ["one", "two", "three"];
      for (const place of places) copyAsVersion2(join(folder, place), place);
      publish(DIST, join(folder, "all"));
      for (const place of places) renameSync(join(folder, place), join(folder, "all", place));
      const site = await serveApp({ folder: join(folder, "all") });
      for (const place of places) {
        await driver.open(`${site.url}${place}/`);
        await drawn(driver);
        await kept(driver);
        await atRest(driver);
      }
      await stopServer(site);
      for (const place of places) {
        await driver.open(`${site.url}${place}/`);
        await drawn(driver);
        expect(await driver.run<string>("return document.title;")).toBe(place);
        await wholeFromHere(driver);
      }
    });
  });

  it("says what to do where its script did not arrive, or the address is not its own", async () => {
    await withFolder(async (folder) => {
      publish(DIST, folder);
      const site = await serveApp({ folder, answersAll: true });
      await driver.open(`${site.url}no/such/place`);
      for (const path of ["/no/", "/"]) {
        await says(driver, "Hatside has not started");
        const up = await driver.run<string>(
          `return [...document.querySelectorAll("a")].find((a) => a.textContent === "Try one folder up").href;`,
        );
        expect(new URL(up).pathname).toBe(path);
        await driver.open(up);
      }
      await drawn(driver);
      expect(await driver.run<boolean>('return document.querySelector(".not-started") === null;')).toBe(true);
      await stopServer(site);
      for (const name of readdirSync(join(folder, "assets")))
        if (/^index-.*\.js$/.test(name)) writeFileSync(join(folder, "assets", name), "import './half");
      rmSync(join(folder, "sw.js"));
      const half = await serveApp({ folder });
      await driver.open(half.url);
      await says(driver, "Hatside has not started");
      await stopServer(half);
      // What the browser tells of each of these is not what is looked at.
      driver.faults();
    });
  });
});

describe("built for a folder by name", () => {
  let driver: Driver | undefined;
  afterAll(() => driver?.close());

  it("opens from an address below, which the host answers with its page", async () => {
    await withFolder(async (outDir) => {
      // Not in this process, in which vite takes every build for one of a test, without an offline copy.
      execFileSync("npx", ["vite", "build", "--base", "/name/", "--outDir", outDir, "--emptyOutDir"], {
        cwd: resolve(import.meta.dirname, "../.."),
        env: { ...process.env, NODE_ENV: "production" },
      });
      const site = await serveApp({ folder: outDir, base: "/name/", answersAll: true });
      const page = await startChromium();
      driver = page;
      await page.open(`${site.url}no/such/place?a=b#headroom`);
      // While the page goes on to its own address it cannot be asked.
      await expect
        .poll(() => page.run<string>("return location.href;").catch(() => ""))
        .toBe(`${site.url}?a=b#headroom`);
      await drawn(page);
      await kept(page);
      await stopServer(site);
      await page.reload();
      await drawn(page);
      expect(page.faults()).toEqual([]);
    });
  });
});
