import { cpSync, rmSync } from "node:fs";
import type { Locator, Page } from "playwright-core";

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
export const agreeButton = (page: Page): Locator => page.getByRole("button", { name: /new version/i });

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
