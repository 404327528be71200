import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { startChromium } from "./drivers/chromium";
import { type Driver, type Start, until } from "./drivers/driver";
import { startFirefox } from "./drivers/firefox";
import { startWebKit } from "./drivers/webkit";
import { type Site, serveApp, stopServer } from "./harness";

const ENGINES: readonly (readonly [name: string, start: Start])[] = [
  ["Chromium", startChromium],
  ["Firefox ESR", startFirefox],
  ["WebKitGTK", startWebKit],
];

const DRAWN = 'return document.querySelector("#app :is(h1, h2)") !== null;';
const KEPT = `const registration = await navigator.serviceWorker.getRegistration();
  return registration?.active?.state === "activated" && navigator.serviceWorker.controller !== null;`;

/** What the page loads on demand has come: for half a second nothing was asked for. */
const QUIET = `const asked = () => performance.getEntriesByType("resource").length;
  const before = asked();
  await new Promise((done) => setTimeout(done, 500));
  return asked() === before;`;

/** Each case goes on where the one before left the page, as a user does. */
describe.each(ENGINES)("%s", (_, start) => {
  let driver: Driver;
  let site: Site;
  beforeAll(async () => {
    [driver, site] = await Promise.all([start(), serveApp()]);
  });
  afterAll(() => driver.close());

  it("opens the app", async () => {
    await driver.open(site.url);
    await until(driver, DRAWN, "the app");
    expect(await driver.run<string>("return document.title;")).toMatch(/^Hatside/);
  });

  it("keeps the app on the device", async () => {
    await until(driver, KEPT, "the offline copy");
    await until(driver, QUIET, "an end of loading");
  });

  it("opens again with the server stopped", async () => {
    await stopServer(site);
    await driver.reload();
    await until(driver, DRAWN, "the app");
    await until(driver, QUIET, "an end of loading");
    await driver.open(`${site.url}?a=b#sum`);
    await until(driver, DRAWN, "the app");
    await until(driver, QUIET, "an end of loading");
    expect(driver.faults()).toEqual([]);
  });

  it("lets no text become a script, where the engine knows Trusted Types", async () => {
    const outcome = await driver.run<string>(`
      if (!globalThis.trustedTypes) return "unknown to the engine";
      const refused = (run) => { try { run(); return "let through"; } catch (error) { return error.name; } };
      return [
        refused(() => { document.createElement("div").innerHTML = "<img>"; }),
        refused(() => new Worker("data:text/javascript,")),
        refused(() => new Worker("https://example.org/worker.js")),
        refused(() => trustedTypes.createPolicy("second", {})),
      ].join(" ");`);
    expect(["unknown to the engine", "TypeError TypeError TypeError TypeError"]).toContain(outcome);
  });
});
