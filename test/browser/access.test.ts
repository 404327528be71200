import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { blankSetup } from "../../src/document/blank";
import { printSetup } from "../../src/document/read-setup";
import { NOT_WORDS } from "../not-words";
import { PLACES } from "../tools/places.mjs";
import { alert, answerAll, choose, go, states, takeIn, unfold } from "./hall";
import { drop, openAll, openAt } from "./hands";
import { phone, typeKeys } from "./harness";
import { inspect, WALK_MS, wordsStay } from "./inspect";
import { agreeButton, withFirst } from "./newer";
import { browser, site } from "./stage";

/** States in which a screen looks different from what it is at first. */
const STATES: readonly (readonly [what: string, place: string, bring: (page: Page) => Promise<void>])[] = [
  [
    "an error under a field",
    "patch",
    async (page) => {
      const field = page.getByLabel("Monitor inputs", { exact: true });
      await typeKeys(field, "700");
      await field.press("Enter");
      await page.getByText("700 is outside 8 to 64").waitFor();
    },
  ],
  [
    "more feeds than inputs",
    "patch",
    async (page) => {
      await typeKeys(page.getByLabel("Monitor inputs", { exact: true }), "12");
      await states(page, "3 feeds too many for 12 inputs");
      await page.getByRole("button", { name: "Apply to plan" }).first().waitFor();
    },
  ],
  [
    "channels being selected",
    "channels",
    async (page) => {
      await page.getByRole("button", { name: "Select", exact: true }).click();
      await page.getByRole("checkbox", { name: "Kick" }).check();
      await page.getByText("1 of 8 selected").waitFor();
    },
  ],
  [
    "a word with its way back",
    "image",
    async (page) => {
      await page.getByRole("button", { name: "Apply to plan" }).first().click();
      await page.locator(".toast").waitFor();
    },
  ],
  [
    "a CSV list that cannot be read",
    "patch",
    async (page) => {
      await unfold(page, "Input list from or to a spreadsheet");
      await choose(page, "Import a CSV list", "list.csv", "");
      await alert(page).getByText("The file is empty").waitFor();
    },
  ],
  [
    "cells that cannot be read",
    "patch",
    async (page) => {
      await choose(
        page,
        "Import a CSV list",
        "list.csv",
        "Name,Pan,Monitor input\nBell,sideways,99999\nGong,,x\n",
      );
      await alert(page).getByText("3 cells cannot be read").waitFor();
    },
  ],
  [
    "listening",
    "image",
    async (page) => {
      await unfold(page, "Listen to it");
      await page.getByRole("button", { name: "Listen", exact: true }).click();
      await page.getByRole("button", { name: "Stop", exact: true }).waitFor();
    },
  ],
  [
    "a line check that is through, one input with no signal",
    "check",
    async (page) => {
      await page.getByRole("heading", { name: "Line check" }).waitFor();
      const open = page.getByRole("button", { name: / OK$/, pressed: false });
      await open.evaluateAll((all) => {
        for (const each of all) (each as HTMLElement).click();
      });
      await page.getByText("Every input is checked.").waitFor();
      await page.getByRole("button", { name: "Bass no signal" }).click();
      await page.getByText("Every input is checked; no signal: ").waitFor();
    },
  ],
  [
    "a trace under way",
    "trace",
    async (page) => {
      await page.getByRole("button", { name: "Start the trace" }).click();
      await page.getByText("Look here next").waitFor();
    },
  ],
  [
    "a trace at its end",
    "trace",
    async (page) => {
      const unseen = page.getByRole("button", { name: "Can’t see" });
      while ((await unseen.count()) > 0) {
        await unseen.click();
        await page.waitForTimeout(300);
      }
      await states(page, /^It is one of these/);
    },
  ],
  [
    "a check under way",
    "check",
    async (page) => {
      await page.getByRole("button", { name: "Start the check" }).click();
      await page.locator(".question").waitFor();
      await page.keyboard.press("1");
      await page.getByText("Next hit").waitFor();
    },
  ],
  [
    "a verdict",
    "check",
    async (page) => {
      await answerAll(page);
      await page.getByRole("button", { name: "Check again" }).waitFor();
      await page.getByRole("button", { name: "Done" }).click();
    },
  ],
  [
    "a wrong file dropped",
    "headroom",
    async (page) => {
      await unfold(page, "Measure a recording");
      await drop(page, [{ name: `${"no-sound-".repeat(20)}.wav`, content: Buffer.from("words") }]);
      await alert(page).getByText("no-sound-").waitFor();
    },
  ],
  [
    "a wrong file chosen",
    "setups",
    async (page) => {
      await choose(page, "Import a setup or backup", `${"wrong-".repeat(30)}.json`, "{ half");
      await states(page, "Nothing to import");
    },
  ],
];

it("nothing is found on any screen with all of it open, nothing scrolls sideways, all can be hit", {
  timeout: WALK_MS,
}, async () => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, "channels");
  for (const place of PLACES) {
    await go(page, place);
    await openAll(page);
    expect((await page.locator("main").allInnerTexts()).join("\n")).not.toMatch(NOT_WORDS);
    await inspect(page, place);
  }
  expect(faults).toEqual([]);
  await context.close();
});

it("nothing is found in any other state", { timeout: WALK_MS }, async () => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, "channels");
  await wordsStay(page);
  for (const [what, place, bring] of STATES) {
    await go(page, place);
    await bring(page);
    await inspect(page, what);
  }
  expect(faults).toEqual([]);
  await context.close();
});

it("nothing is found in the offer of a newer version, nor while it is on its way", {
  timeout: WALK_MS,
}, async () => {
  await withFirst(browser, async ({ page }, _, putSecond) => {
    await putSecond();
    // What the newer version is asked to do, it does not hear.
    await page.evaluate(() => {
      ServiceWorker.prototype.postMessage = () => {};
    });
    await agreeButton(page).waitFor();
    await inspect(page, "offered");
    await agreeButton(page).click();
    await page.getByText("Switching versions.").waitFor();
    await inspect(page, "on its way");
  });
});

it("nothing is found on any screen while the kit is empty", { timeout: WALK_MS }, async () => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, "setups");
  await takeIn(page, printSetup(blankSetup("Bare")));
  await page.getByText("No channels yet").waitFor();
  for (const place of PLACES) {
    await go(page, place);
    await openAll(page);
    await inspect(page, `${place} of an empty kit`);
  }
  expect(faults).toEqual([]);
  await context.close();
});

/** What changes the main statement of a screen, once it stands there. */
const CHANGES: readonly (readonly [
  place: string,
  begin: (page: Page) => Promise<void>,
  change: (page: Page) => Promise<void>,
])[] = [
  [
    "channels",
    (page) => states(page, /^\d+ channels in Drums/),
    (page) => page.getByRole("button", { name: "Add a channel" }).click(),
  ],
  [
    "image",
    (page) => states(page, /^L\/R swapped for Mara/),
    (page) => page.getByRole("button", { name: "Swap Drums L/R" }).click(),
  ],
  [
    "headroom",
    (page) => unfold(page, "What goes into Drums"),
    (page) => typeKeys(page.getByLabel("Send of Kick, dB"), "6"),
  ],
  [
    "patch",
    (page) => states(page, /^15 of 16 inputs used/),
    (page) => typeKeys(page.getByLabel("Monitor inputs", { exact: true }), "12"),
  ],
  [
    "decide",
    (page) => unfold(page, "Pins"),
    async (page) => {
      for (const pin of await page.locator("details[open] select").all())
        await pin.selectOption({ index: 1 });
    },
  ],
  [
    "check",
    async (page) => {
      await page.getByRole("button", { name: "Start the check" }).click();
      await page.locator(".question").waitFor();
    },
    async (page) => {
      await answerAll(page);
      await page.getByRole("button", { name: "Check again" }).waitFor();
    },
  ],
];

it.each(CHANGES)(
  "on %s the main statement is said anew when it changes, in a part that stays",
  async (...of) => {
    const [place, begin, change] = of;
    const { page, context } = await phone(browser);
    await openAt(page, site, place);
    await begin(page);
    const saying = page.getByRole("status").filter({ has: page.locator("h1") });
    expect(await saying.count()).toBe(1);
    await saying.evaluate((e) => Object.assign(e, { stays: true }));
    const before = await page.locator("h1").textContent();
    await change(page);
    await expect.poll(() => page.locator("h1").textContent()).not.toBe(before);
    expect(await saying.count()).toBe(1);
    expect(await saying.evaluate((e) => (e as unknown as { stays?: boolean }).stays)).toBe(true);
    await context.close();
  },
);
