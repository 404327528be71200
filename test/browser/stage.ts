import type { Browser } from "playwright-core";
import { afterAll, beforeAll } from "vitest";
import { launch, type Site, serveApp } from "./harness";

/** The browser of a test file: started before its first test, closed after its last. */
export let browser: Browser;
/** The built app, served as long. */
export let site: Site;

beforeAll(async () => {
  [browser, site] = await Promise.all([launch(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await site.stop();
});
