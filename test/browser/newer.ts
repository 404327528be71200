import { cpSync, rmSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Locator, Page } from "playwright-core";
import { expect } from "vitest";
import { visit } from "./hall";
import {
  copyAsVersion2,
  DIST,
  type Phone,
  phoneWithCopy,
  type Site,
  serveApp,
  stopServer,
  withFolder,
} from "./harness";

/** Asks for a newer version and waits for its end: it waits for the user, or was thrown away. */
export const lookForUpdate = (page: Page): Promise<string> =>
  page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    const settled = new Promise<string>((done) => {
      registration.addEventListener("updatefound", () => {
        const worker = registration.installing;
        worker?.addEventListener("statechange", () => done(worker.state));
      });
    });
    await registration.update();
    return settled;
  });

/** With it the user takes the newer version. */
export const agreeButton = (page: Page): Locator =>
  page.getByRole("button", { name: "Switch to that version" });

/**
 * Waits until a page has loaded its parts. Chromium ends the version in use to let the newer one in. What is asked of
 * it in that moment begins it anew; it would be ended after half a minute without work, but not in a driven browser.
 */
const atRest = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => {
    const parts = performance.getEntriesByType("resource").filter(({ name }) => name.endsWith(".js"));
    const last = Math.max(...parts.map((part) => (part as PerformanceResourceTiming).responseEnd));
    return parts.length > 5 && performance.now() - last > 500;
  });

/** Takes the newer version while no other page asks anything of the version in use. */
export const agree = async (page: Page): Promise<void> => {
  for (const other of page.context().pages()) if (other !== page) await atRest(other);
  await agreeButton(page).click();
};

/** Puts other files in the place of a site's files, as an upload does. */
export const publish = (from: string, to: string): void => {
  rmSync(to, { recursive: true, force: true });
  cpSync(from, to, { recursive: true });
};

/** What the second version calls itself. */
const NEWER = "Second";

/** The page runs on the second version. */
export const isNewer = (page: Page): Promise<unknown> =>
  page.waitForFunction((title) => document.title === title, NEWER);

/** A phone that has the first version, and a way to put the second in its place: it is here then, and waits. */
export const withFirst = (
  browser: Browser,
  run: (user: Phone, site: Site, putSecond: () => Promise<void>) => Promise<void>,
): Promise<void> =>
  withFolder(async (folder) => {
    const [live, next] = [join(folder, "live"), join(folder, "next")];
    publish(DIST, live);
    copyAsVersion2(next, NEWER);
    const site = await serveApp({ folder: live });
    const user = await phoneWithCopy(browser);
    await visit(user, site, "#channels");
    await run(user, site, async () => {
      publish(next, live);
      expect(await lookForUpdate(user.page)).toBe("installed");
    });
    expect(user.faults).toEqual([]);
    await user.context.close();
    await stopServer(site);
  });
