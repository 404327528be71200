import { describe, it } from "vitest";
import { states } from "./hall";
import { openAt } from "./hands";
import { drawn, phone } from "./harness";
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

  it("on a device that keeps no apps says why it works only with a network", async () => {
    const { page, context } = await phone(browser);
    await page.addInitScript(() => {
      navigator.serviceWorker.register = () => Promise.reject(new Error("not on this device"));
    });
    await openAt(page, site, "setups");
    await page.getByText("No offline copy: not on this device. It works only with a network.").waitFor();
    await context.close();
  });
});

describe("the address", () => {
  it("leads back to the first place, which has none", async () => {
    const { page, context } = await phone(browser);
    await page.goto(site.url);
    await states(page, "8 channels make one pair");
    await page.getByRole("link", { name: "Headroom" }).click();
    await states(page, "left at the receiving input");
    await page.goBack();
    await states(page, "8 channels make one pair");
    await page.goForward();
    await states(page, "left at the receiving input");
    await context.close();
  });

  it("that names no place leads to the kit", async () => {
    const { page, context } = await phone(browser);
    await openAt(page, site, "patch");
    await page.evaluate(() => {
      location.hash = "nowhere";
    });
    await states(page, "8 channels make one pair");
    await page.goto(`${site.url}#setup`);
    await drawn(page);
    await states(page, "8 channels make one pair");
    await context.close();
  });
});
