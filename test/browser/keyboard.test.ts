import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { PLACES } from "../tools/places.mjs";
import { expectFault } from "./faults";
import { answerAll, go, inputs, states } from "./hall";
import { openAt, settled, tabTo } from "./hands";
import { keepsNothing, phone } from "./harness";
import { WALK_MS } from "./inspect";
import { browser, site } from "./stage";

describe("by keyboard alone", () => {
  it("a channel is panned, the pair swapped, a recommendation applied, an input placed and moved, a check run", async () => {
    const { page, faults, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "channels");
    await tabTo(page, "Channel pan of Snare");
    for (const key of ["ArrowRight", "ArrowRight", "PageUp"]) await page.keyboard.press(key);
    expect(
      await page.getByRole("slider", { name: "Channel pan of Snare" }).getAttribute("aria-valuetext"),
    ).toMatch(/^R22: /);
    await page.keyboard.press("End");
    await page.keyboard.press("c");
    expect(
      await page.getByRole("slider", { name: "Channel pan of Snare" }).getAttribute("aria-valuetext"),
    ).toMatch(/^C: /);
    // It stands to one side: in the centre it would not be right for anybody.
    await page.keyboard.press("PageUp");

    await tabTo(page, "Image");
    await page.keyboard.press("Enter");
    await states(page, /^L\/R swapped for Mara/);
    await tabTo(page, "Swap Drums L/R");
    await page.keyboard.press("Enter");
    await states(page, /^All on the right side for Mara/);
    await page.keyboard.press("Space");
    await states(page, /^L\/R swapped for Mara/);
    await tabTo(page, "Apply to plan");
    await page.keyboard.press("Enter");
    await states(page, /^All on the right side for Mara/);

    await tabTo(page, "Patch");
    await page.keyboard.press("Enter");
    await states(page, /^15 of 16 inputs used/);
    await tabTo(page, /^Move input 3:/);
    await page.keyboard.press("ArrowDown");
    await expect.poll(async () => (await inputs(page))[3]).toContain("Bass");
    // The two channels of the keys keep together: it goes past both, and the focus goes along.
    await page.keyboard.press("ArrowDown");
    await expect.poll(async () => (await inputs(page))[5]).toContain("Bass");
    await page.keyboard.press("ArrowDown");
    await expect.poll(async () => (await inputs(page))[6]).toContain("Bass");
    await tabTo(page, /^Unassigned/);
    await page.keyboard.press("Enter");
    await tabTo(page, "Assign Kick");
    await page.keyboard.press("Enter");
    await states(page, /^16 of 16 inputs used/);
    expect((await inputs(page))[15]).toContain("Kick");

    await tabTo(page, "Check");
    await page.keyboard.press("Enter");
    await tabTo(page, "Start the check");
    await page.keyboard.press("Enter");
    await page.locator(".question").waitFor();
    await page.keyboard.press("5");
    await page.keyboard.press("Backspace");
    await answerAll(page);
    await page.getByRole("button", { name: "Check again" }).waitFor();
    await tabTo(page, "Done");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Start the check" }).waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });

  it("a send is raised until the bus is under target, and the trim that is offered is done", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "channels");
    await tabTo(page, "Headroom");
    await page.keyboard.press("Enter");
    await states(page, /dB/);
    const before = await page.locator("h1").textContent();
    await tabTo(page, "What goes into Drums");
    await page.keyboard.press("Enter");
    await tabTo(page, "Send of Kick, dB");
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("6");
    await page.getByRole("heading", { name: / under target\. Ways to reach it/ }).waitFor();
    expect(await page.locator("h1").textContent()).not.toBe(before);
    const trim = page.getByRole("button", { name: /^Trim Drums to −/ });
    await tabTo(page, /^Trim Drums to −/);
    await page.keyboard.press("Enter");
    const word = page.locator(".toast").getByText(/^Drums trimmed to −/);
    await word.waitFor();
    // Output and input have their margin then; the bus, which lies before its trim, stays short.
    await trim.waitFor({ state: "detached" });
    await context.close();
  });

  it("a setup is begun from a template, gets a channel, goes out as a file and comes in again", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    // Listening from the start: a chooser that opens before the driver has taken it over is not told.
    page.on("filechooser", () => {});
    await openAt(page, site, "channels");
    await tabTo(page, "Setups and settings");
    await page.keyboard.press("Enter");
    await states(page, "on this device");
    await tabTo(page, "Start with 8 microphones");
    await page.keyboard.press("Enter");
    await states(page, "8 channels in Drums");
    await tabTo(page, "Add a channel");
    await page.keyboard.press("Enter");
    // Its name is selected: what is typed replaces it.
    await page.keyboard.type("Cowbell");
    await page.keyboard.press("Enter");
    await tabTo(page, /^Cowbell /);
    await page.keyboard.press("Enter");
    await tabTo(page, "Gated RMS, dBFS");
    await page.keyboard.type("-31.5");
    await page.locator("li.channel b", { hasText: "Cowbell" }).waitFor();

    await tabTo(page, "Setups and settings");
    await page.keyboard.press("Enter");
    await tabTo(page, "More for 8 drum microphones");
    await page.keyboard.press("Enter");
    await tabTo(page, "Share or download the file");
    const [file] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
    const path = await file.path();
    const saved = JSON.parse(readFileSync(path, "utf8"));
    expect(saved.channels.at(-1)).toMatchObject({ name: "Cowbell", gatedRms: -31.5 });

    await tabTo(page, "Import a setup or backup");
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Enter")]);
    await chooser.setFiles({
      name: file.suggestedFilename(),
      mimeType: "application/json",
      buffer: readFileSync(path),
    });
    await states(page, "Import “8 drum microphones”?");
    await tabTo(page, "Import and open");
    await page.keyboard.press("Enter");
    await states(page, "9 channels in Drums");
    await tabTo(page, "Setups and settings");
    await page.keyboard.press("Enter");
    await states(page, "3 setups on this device");
    await context.close();
  });

  it("the pan law is chosen", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "channels");
    await page.getByText("Constant power, sin/cos: unity hard-panned, centre −3.0 dB").waitFor();
    await tabTo(page, "Desk: pan law, notation, levels");
    await page.keyboard.press("Enter");
    await tabTo(page, "Pan law");
    await page.keyboard.type("Lin");
    await page.getByText("Linear: unity hard-panned, centre −6.0 dB").waitFor();
    await context.close();
  });

  it("the sheet is printed, sheet and list go out as CSV, the link is handed on", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await context.grantPermissions(["clipboard-read", "clipboard-write"]);
    await openAt(page, site, "patch");
    await page.evaluate(() => {
      globalThis.print = () => {
        document.title = "printed";
      };
    });
    const taken = async (): Promise<string> => {
      const [file] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
      return readFileSync(await file.path(), "utf8");
    };
    await tabTo(page, "Patch sheet for the desk");
    await page.keyboard.press("Enter");
    await tabTo(page, "Print the sheet");
    await page.keyboard.press("Enter");
    await page.waitForFunction(() => document.title === "printed");
    await tabTo(page, "Sheet as CSV");
    expect(await taken()).toContain("Drums L");
    await tabTo(page, "Input list from or to a spreadsheet");
    await page.keyboard.press("Enter");
    await tabTo(page, "Export list as CSV");
    expect(await taken()).toContain("Snare");
    await tabTo(page, "Send this setup to another phone");
    await page.keyboard.press("Enter");
    await page.getByLabel(/^The link/).waitFor();
    await tabTo(page, "Share the link");
    await page.keyboard.press("Enter");
    await page.getByText("Link copied.").waitFor();
    const link = await page.getByLabel(/^The link/).inputValue();
    expect(await page.evaluate(() => navigator.clipboard.readText())).toBe(link);
    await context.close();
  });

  it("inputs are ticked in the line check, and a tick is taken off again", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "check");
    await page.getByText("15 inputs left to check.").waitFor();
    await tabTo(page, "Bass OK");
    await page.keyboard.press("Space");
    await page.getByText("14 inputs left to check.").waitFor();
    await tabTo(page, "Bass no signal");
    await page.keyboard.press("Enter");
    await page.getByText("14 inputs left to check; no signal: Bass.").waitFor();
    await page.keyboard.press("Enter");
    await page.getByText("15 inputs left to check.").waitFor();
    await context.close();
  });

  it("a second tab takes over", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "channels");
    await settled(page);
    const other = await context.newPage();
    await openAt(other, site, "channels");
    const looksOn = (tab: Page) => tab.getByText("Another tab is editing. This one is view-only.");
    await looksOn(other).waitFor();
    await tabTo(other, "Edit here instead");
    await other.keyboard.press("Enter");
    await looksOn(other).waitFor({ state: "detached" });
    await looksOn(page).waitFor();
    await tabTo(other, "Channel pan of Snare");
    await other.keyboard.press("End");
    const pan = other.getByRole("slider", { name: "Channel pan of Snare" });
    await expect.poll(() => pan.getAttribute("aria-valuetext")).toMatch(/^R/);
    await context.close();
  });

  it("what has the focus never lies under the bar of places", { timeout: WALK_MS }, async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "channels");
    /** Whether the bar has the focus, and what of the focused thing shows above it, px. */
    const focused = () =>
      page.evaluate(() => {
        const bar = document.querySelector(".nav") as HTMLElement;
        const at = document.activeElement as HTMLElement;
        const { top, bottom } = at.getBoundingClientRect();
        const shown = Math.min(bottom, bar.getBoundingClientRect().top) - Math.max(0, top);
        return { inBar: bar.contains(at), shown, what: at.outerHTML.slice(0, 100) };
      });
    // About is text alone.
    for (const place of PLACES.filter((p) => p !== "about")) {
      await go(page, place);
      await page.evaluate(() => document.getElementById("screen")?.focus());
      let steps = 0;
      for (; steps < 300; steps += 1) {
        await page.keyboard.press("Tab");
        const { inBar, shown, what } = await focused();
        if (inBar) break;
        expect(shown, `${place}: ${what}`).toBeGreaterThan(16);
      }
      expect(steps, place).toBeGreaterThan(3);
      expect(steps).toBeLessThan(300);
    }
    await context.close();
  });

  it.each([
    ["comes late", false],
    ["cannot be loaded", true],
  ])("what has the focus stays where it stands while a part above it %s", async (_, fails) => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await keepsNothing(page);
    let comes = (): void => {};
    const late = new Promise<void>((done) => {
      comes = done;
    });
    await page.route("**/repair-list-*.js", async (route) => {
      await late;
      await (fails ? route.abort() : route.continue());
    });
    await openAt(page, site, "image");
    await tabTo(page, "Swap Drums L/R");
    const stands = () => page.evaluate(() => document.activeElement?.getBoundingClientRect().top);
    await page.getByText("One moment …").first().waitFor();
    const before = await stands();
    comes();
    const stood = fails
      ? page.getByText("This part of Hatside could not be loaded")
      : page.locator("#recommendation");
    await stood.waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("Swap Drums L/R");
    expect(await stands()).toBeCloseTo(before as number, 0);
    if (fails) await expectFault(context, /ERR_FAILED/);
    await context.close();
  });

  it("a channel keeps the focus of its buttons while it is moved", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "channels");
    await tabTo(page, /^Snare/);
    await page.keyboard.press("Enter");
    await tabTo(page, "Move Snare down");
    await page.keyboard.press("Enter");
    const names = () => page.locator("li.channel b").allTextContents();
    await expect.poll(async () => (await names()).slice(0, 3)).toEqual(["Kick", "Hat", "Snare"]);
    await page.keyboard.press("Enter");
    await expect.poll(async () => (await names()).slice(0, 4)).toEqual(["Kick", "Hat", "Tom 1", "Snare"]);
    await context.close();
  });
});
