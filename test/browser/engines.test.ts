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

const DRAWN = 'return document.querySelector("#app h1:not(.wait)") !== null;';
const KEPT = `const registration = await navigator.serviceWorker.getRegistration();
  return registration?.active?.state === "activated" && navigator.serviceWorker.controller !== null;`;

/** A change older than this is safe, ms: what the app promises. */
const SAFE_MS = 300;

/** What the page loads on demand has come: for half a second nothing was asked for. */
const QUIET = `const asked = () => performance.getEntriesByType("resource").length;
  const before = asked();
  await new Promise((done) => setTimeout(done, 500));
  return asked() === before;`;

/** Marks what is to be pressed or filled in, found as a person finds it: by what it says. */
const found = async (driver: Driver, what: string, search: string): Promise<string> => {
  await until(
    driver,
    `for (const old of document.querySelectorAll("[data-found]")) old.removeAttribute("data-found");
    const says = (element) => element.getAttribute("aria-label") ?? element.textContent.trim();
    const one = ${search};
    one?.setAttribute("data-found", "");
    one?.scrollIntoView({ block: "center", behavior: "instant" });
    return one !== undefined && one !== null;`,
    what,
  );
  return "[data-found]";
};

/** Presses a button or a fold by its words. */
const press = async (driver: Driver, words: string): Promise<void> => {
  const wanted = JSON.stringify(words);
  await driver.click(
    await found(
      driver,
      words,
      `[...document.querySelectorAll("button, summary")].find((each) => says(each) === ${wanted})`,
    ),
  );
};

/** A field by its label. */
const field = (driver: Driver, label: string): Promise<string> =>
  found(
    driver,
    label,
    `[...document.querySelectorAll("input")].find((each) =>
      [each, ...(each.labels ?? [])].some((name) => says(name) === ${JSON.stringify(label)}))`,
  );

const go = async (driver: Driver, place: string): Promise<void> => {
  await driver.run(`location.hash = ${JSON.stringify(place)};`);
  await until(driver, DRAWN, place);
};

/** Waits for the main statement of a screen. */
const states = async (driver: Driver, says: RegExp): Promise<void> => {
  await until(
    driver,
    `return ${says}.test(document.querySelector("h1")?.textContent ?? "");`,
    `${says} as the statement`,
  );
};

/** Presses a button that hands out a file; gives the file's text, and lets nothing reach the disk. */
const handedOut = async (driver: Driver, words: string): Promise<string> => {
  await driver.run(`
    const make = URL.createObjectURL;
    URL.createObjectURL = (file) => { globalThis.handed = file; return make.call(URL, file); };
    HTMLAnchorElement.prototype.click = () => {};`);
  await press(driver, words);
  await until(driver, "return globalThis.handed !== undefined;", "the file");
  return driver.run<string>("return globalThis.handed.text();");
};

/** Chooses a file as the picker would. */
const choose = async (driver: Driver, label: string, name: string, text: string): Promise<void> => {
  const input = await field(driver, label);
  await driver.run(`
    const chosen = new DataTransfer();
    chosen.items.add(new File([${JSON.stringify(text)}], ${JSON.stringify(name)}, { type: "application/json" }));
    const input = document.querySelector(${JSON.stringify(input)});
    input.files = chosen.files;
    input.dispatchEvent(new Event("change", { bubbles: true }));`);
};

/** The lowest headroom as the Headroom screen's first line says it, dB. */
const headroom = async (driver: Driver): Promise<number> => {
  await go(driver, "headroom");
  await states(driver, /dB/);
  const says = await driver.text("h1");
  const figure = /([−-]?\d+\.\d) dB/.exec(says)?.[1];
  if (figure === undefined) throw new Error(`no headroom in: ${says}`);
  return Number(figure.replace("−", "-"));
};

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
    await driver.open(`${site.url}?a=b#headroom`);
    await until(driver, DRAWN, "the app");
    await until(driver, QUIET, "an end of loading");
    expect(driver.faults()).toEqual([]);
  });

  it("takes a send typed key by key, and the bus follows", async () => {
    const send = async (text: string): Promise<number> => {
      await go(driver, "channels");
      await driver.click(
        await found(
          driver,
          "the kick's card",
          `[...document.querySelectorAll("li.channel")].find((each) => each.textContent.includes("Kick"))
            ?.querySelector("button[aria-expanded='false']")`,
        ),
      );
      await driver.type(await field(driver, "Send to Drums, dB"), text);
      return headroom(driver);
    };
    const quiet = await send("-6");
    const hot = await send("6");
    expect(hot).toBeLessThan(quiet - 3);
    expect(await send("-6")).toBe(quiet);
  });

  it("swaps the bus for the drummer", async () => {
    await go(driver, "image");
    await states(driver, /^L\/R swapped for Mara: 7 of 8 on the wrong side$/);
    await press(driver, "Swap Drums L/R");
    await states(driver, /^All on the right side for Mara$/);
  });

  it("still knows it all after another start without the server", async () => {
    const left = await headroom(driver);
    await driver.run(`await new Promise((done) => setTimeout(done, ${SAFE_MS}));`);
    await driver.reload();
    await until(driver, DRAWN, "the app");
    expect(await headroom(driver)).toBe(left);
    await go(driver, "image");
    await states(driver, /^All on the right side for Mara$/);
  });

  it("hands the setup out as a file, and takes it in again", async () => {
    await go(driver, "setups");
    await press(driver, "Share the open setup");
    const file = await handedOut(driver, "Share or download the file");
    expect(JSON.parse(file)).toMatchObject({ format: "hatside-setup" });
    const other = "<b>Next</b> week's drummer";
    await choose(
      driver,
      "Import a setup or backup",
      "next.json",
      JSON.stringify({ ...JSON.parse(file), name: other }),
    );
    await states(driver, /^Import “<b>Next<\/b> week's drummer”\?$/);
    await press(driver, "Import and open");
    await states(driver, /^8 channels in Drums/);
    expect(await driver.text(".head .name")).toContain(other);
    await go(driver, "image");
    await states(driver, /^All on the right side for Mara$/);
    expect(driver.faults()).toEqual([]);
  });

  it("says so while storage does not answer, and saves once it does", async () => {
    await driver.run(`
      const opened = indexedDB.open("hatside");
      await new Promise((done) => { opened.onsuccess = done; });
      const store = opened.result.transaction("things", "readwrite").objectStore("things");
      globalThis.isHeld = true;
      const again = () => {
        if (globalThis.isHeld) store.get("open").onsuccess = again;
        else opened.result.close();
      };
      again();`);
    await go(driver, "channels");
    await press(driver, "Mute Hat");
    const alert = 'document.querySelector("[role=alert]")';
    await until(driver, `return /^Not saved yet/.test(${alert}?.textContent ?? "");`, "the word");
    await driver.run("globalThis.isHeld = false;");
    await until(driver, `return ${alert} === null;`, "an end of the word");
    await driver.reload();
    await until(driver, DRAWN, "the app");
    await found(
      driver,
      "the muted hat",
      `document.querySelector("[aria-label='Mute Hat'][aria-pressed=true]")`,
    );
    expect(driver.faults()).toEqual([]);
  });

  it("starts without what is saved while another page holds storage up, and has it again afterwards", async ({
    skip,
  }) => {
    if (!driver.beside) return skip("its protocol drives one page");
    const muted = `document.querySelector("[aria-label='Mute Hat'][aria-pressed=true]")`;
    const letGo = await driver.beside(
      `${site.url}icons/icon.svg`,
      `const opened = indexedDB.open("hatside");
      await new Promise((done) => { opened.onsuccess = done; });
      const store = opened.result.transaction("things", "readwrite").objectStore("things");
      await new Promise((done) => {
        const again = () => { store.get("open").onsuccess = () => { done(); again(); }; };
        again();
      });`,
    );
    await driver.reload();
    await until(driver, 'return document.body.innerText.includes("Opening your setups");', "the word");
    await until(driver, DRAWN, "the app");
    await until(
      driver,
      'return document.body.innerText.includes("Nothing saved here earlier is deleted.");',
      "the promise",
    );
    expect(await driver.run<boolean>(`return ${muted} !== null;`)).toBe(false);
    await letGo();
    await driver.reload();
    await until(driver, `return ${muted} !== null;`, "what was saved");
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
    // Chromium knows them; an engine that does not yet may learn of them.
    const unknown = driver.name === "Chromium" ? [] : ["unknown to the engine"];
    expect([...unknown, "TypeError TypeError TypeError TypeError"]).toContain(outcome);
    // Each refusal was asked for, and is told.
    for (const told of driver.faults())
      expect(told).toMatch(/Trusted ?Types?|TrustedHTML|Content.Security.Policy/i);
  });
});
