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

/** Puts other files in the place of a site's files, as an upload does. */
export const publish = (from: string, to: string): void => {
  rmSync(to, { recursive: true, force: true });
  cpSync(from, to, { recursive: true });
};
