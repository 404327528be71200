import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { states } from "./hall";
import { openAt } from "./hands";
import { drawn, phone, serveApp, stopServer, withFolder } from "./harness";
import { inspect } from "./inspect";
import { browser, site } from "./stage";

describe("a first start", () => {
  it("that fails says so in a sentence instead of showing nothing", async () => {
    const { page, context } = await phone(browser);
    await page.addInitScript(() => {
      Object.defineProperty(globalThis, "trustedTypes", {
        value: {
          createPolicy: () => {
            throw new Error("no policy here");
          },
        },
      });
    });
    await page.goto(site.url);
    await states(page, "Hatside could not start");
    await page.getByText("The reason: no policy here.").waitFor();
    await inspect(page, "no start");
    await context.close();
  });

  it("on a device that keeps no apps says why it works online only", async () => {
    const { page, context } = await phone(browser);
    await page.addInitScript(() => {
      navigator.serviceWorker.register = () => Promise.reject(new Error("not on this device"));
    });
    await openAt(page, site, "setups");
    await page.getByText("No offline copy: not on this device. It works online only.").waitFor();
    await context.close();
  });
});

describe("inside another page", () => {
  it("the app does not run, and says so", async () => {
    await withFolder(async (folder) => {
      writeFileSync(
        join(folder, "index.html"),
        `<!doctype html><title>Around</title><link rel="icon" href="data:,"><iframe src="${site.url}" width="360" height="700"></iframe>`,
      );
      const around = await serveApp({ folder });
      const { page, context } = await phone(browser);
      await page.goto(`${around.url}index.html`);
      const inside = page.frameLocator("iframe");
      await inside.locator("h1", { hasText: "Hatside does not run inside another page" }).waitFor();
      expect(await inside.getByRole("button").count()).toBe(0);
      const [own] = await Promise.all([
        context.waitForEvent("page"),
        inside.getByRole("link", { name: "Open Hatside" }).click(),
      ]);
      await drawn(own);
      await states(own, "8 channels in Drums");
      await context.close();
      await stopServer(around);
    });
  });
});

describe("the address", () => {
  it("leads back to the first place, which has none", async () => {
    const { page, context } = await phone(browser);
    await page.goto(site.url);
    await states(page, "8 channels in Drums");
    await page.getByRole("link", { name: "Headroom" }).click();
    await states(page, "left at the monitor input");
    await page.goBack();
    await states(page, "8 channels in Drums");
    await page.goForward();
    await states(page, "left at the monitor input");
    await context.close();
  });

  it("that names no place leads to the kit", async () => {
    const { page, context } = await phone(browser);
    await openAt(page, site, "patch");
    await page.evaluate(() => {
      location.hash = "nowhere";
    });
    await states(page, "8 channels in Drums");
    await page.goto(`${site.url}#setup`);
    await drawn(page);
    await states(page, "8 channels in Drums");
    await context.close();
  });
});
