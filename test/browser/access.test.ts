import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { checkOf } from "../../src/core/check/check";
import { judge } from "../../src/core/check/judge";
import type { Answer, Hit } from "../../src/core/setup";
import { blankSetup } from "../../src/document/blank";
import { exampleSetup } from "../../src/document/example";
import { printSetup } from "../../src/document/read-setup";
import { wavFile } from "../measure/wavfile";
import { noise } from "../tools/chance.mjs";
import { answerAll, choose, go, keepIt, states, unfold } from "./hall";
import { drop, openAll, openAt } from "./hands";
import { type Phone, phone, typeKeys } from "./harness";
import { inspect, PLACES } from "./inspect";
import { agreeButton, withFirst } from "./newer";
import { browser, site } from "./stage";

/** A walk over every screen, three sizes each, on a busy machine. */
const WALK_MS = 300_000;

/** The example in the midst of a check whose answers no fault explains. */
const puzzled = (): string => {
  const setup = exampleSetup();
  const listener = setup.listeners.find((l) => l.kind === "drummer");
  if (!listener) throw new Error("nobody drums");
  const check = checkOf(setup, listener);
  const answers: readonly Answer[] = ["left", "nothing", "unclear", "right", "middle"];
  const hits: Hit[] = [];
  for (;;) {
    const verdict = judge(check, hits);
    if (verdict.kind !== "asking") break;
    hits.push({ piece: verdict.next, answer: answers[hits.length % answers.length] ?? "left" });
  }
  return printSetup({ ...setup, name: "Puzzled", check: { listener: listener.id, hits } });
};

const takeIn = async (page: Page, text: string): Promise<void> => {
  await go(page, "setups");
  await choose(page, "Open a setup file or a backup", "setup.json", text);
  await keepIt(page);
};

const chooseRecording = async (page: Page, name: string, content: Buffer): Promise<void> => {
  await unfold(page, "Measure a recording");
  await page
    .getByLabel(/^Choose (recordings|more files)$/)
    .setInputFiles({ name, mimeType: "audio/wav", buffer: content });
};

/** Measuring that never ends: the worker takes its work and says nothing. */
const neverAnswers = (page: Page): Promise<void> =>
  page.evaluate(() => {
    globalThis.Worker = class extends EventTarget {
      postMessage(): void {}
      terminate(): void {}
    } as unknown as typeof Worker;
  });

/** States in which a screen looks different from what it is at first. */
const STATES: readonly (readonly [what: string, place: string, bring: (page: Page) => Promise<void>])[] = [
  [
    "an error under a field",
    "patch",
    async (page) => {
      const field = page.getByLabel("Slots of the monitor system", { exact: true });
      await typeKeys(field, "700");
      await field.press("Enter");
      await page.getByText("700 is outside 8 to 64").waitFor();
    },
  ],
  [
    "more feeds than slots",
    "patch",
    async (page) => {
      await typeKeys(page.getByLabel("Slots of the monitor system", { exact: true }), "12");
      await states(page, "2 feeds too many for 12 slots");
      await page.getByRole("button", { name: "Do this" }).first().waitFor();
    },
  ],
  [
    "a word with its way back",
    "image",
    async (page) => {
      await page.getByRole("button", { name: "Put it in the plan" }).first().click();
      await page.locator(".toast").waitFor();
    },
  ],
  [
    "a CSV list that cannot be read",
    "patch",
    async (page) => {
      await unfold(page, "Input list from or to a spreadsheet");
      await choose(page, "Take in a CSV list", "list.csv", "");
      await page.getByRole("alert").getByText("The file is empty").waitFor();
    },
  ],
  [
    "cells that cannot be read",
    "patch",
    async (page) => {
      await choose(page, "Take in a CSV list", "list.csv", "Name,Pan,Slot\nBell,sideways,99999\nGong,,x\n");
      await page.getByRole("alert").getByText("3 cells cannot be read").waitFor();
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
    "a line check that is through, one slot not heard",
    "check",
    async (page) => {
      await page.getByRole("heading", { name: "Line check" }).waitFor();
      const open = page.getByRole("button", { name: /(?<!not) heard$/, pressed: false });
      await open.evaluateAll((all) => {
        for (const each of all) (each as HTMLElement).click();
      });
      await page.getByText("Every slot is ticked.").waitFor();
      await page.getByRole("button", { name: "Bass not heard" }).click();
      await page.getByText("Every slot is ticked; not heard: ").waitFor();
    },
  ],
  [
    "a check under way",
    "check",
    async (page) => {
      await page.getByRole("button", { name: "Start the check" }).click();
      await page.locator(".question").waitFor();
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
    "sum",
    async (page) => {
      await unfold(page, "Measure a recording");
      await drop(page, [{ name: `${"no-sound-".repeat(20)}.wav`, content: Buffer.from("words") }]);
      await page.getByRole("alert").getByText("no-sound-").waitFor();
    },
  ],
  [
    "a wrong file chosen",
    "setups",
    async (page) => {
      await choose(page, "Open a setup file or a backup", `${"wrong-".repeat(30)}.json`, "{ half");
      await states(page, "Nothing to take in");
    },
  ],
  [
    "an answer that fits no fault",
    "setups",
    async (page) => {
      await page.getByRole("button", { name: "To my setups" }).click();
      await takeIn(page, puzzled());
      await go(page, "check");
      await states(page, "This fits no fault I know");
    },
  ],
  [
    "measuring under way",
    "sum",
    async (page) => {
      await neverAnswers(page);
      const sound = noise(1);
      const wav = wavFile([Float64Array.from({ length: 4800 }, () => 0.1 * sound())]);
      await chooseRecording(page, "Kick.wav", Buffer.from(wav));
      await page.getByRole("button", { name: "Measure 1 track" }).click();
      await page.getByRole("progressbar", { name: "Measured so far" }).waitFor();
    },
  ],
];

describe.each(["dark", "light"])("in %s", (theme) => {
  const start = async (): Promise<Phone> => {
    const user = await phone(browser);
    await user.page.addInitScript((t) => localStorage.setItem("hatside-theme", t), theme);
    await openAt(user.page, site, "kit");
    expect(await user.page.evaluate(() => document.documentElement.dataset.theme)).toBe(theme);
    return user;
  };

  it("nothing is found on any screen with all of it open, nothing scrolls sideways, all can be hit", {
    timeout: WALK_MS,
  }, async () => {
    const { page, faults, context } = await start();
    for (const place of PLACES) {
      await go(page, place);
      await openAll(page);
      await inspect(page, place);
    }
    expect(faults).toEqual([]);
    await context.close();
  });

  it("nothing is found in any other state", { timeout: WALK_MS }, async () => {
    const { page, faults, context } = await start();
    for (const [what, place, bring] of STATES) {
      await go(page, place);
      await bring(page);
      await inspect(page, what);
    }
    expect(faults).toEqual([]);
    await context.close();
  });
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
    await page.getByText("The new version is on its way").waitFor();
    await inspect(page, "on its way");
  });
});

it("nothing is found on any screen while the kit is empty", { timeout: WALK_MS }, async () => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, "setups");
  await takeIn(page, printSetup(blankSetup("Bare")));
  await page.getByText("No source yet").waitFor();
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
    "kit",
    (page) => states(page, /^\d+ sources make one pair/),
    (page) => page.getByRole("button", { name: "Add a source" }).click(),
  ],
  [
    "image",
    (page) => states(page, /^Reversed for Mara/),
    (page) => page.getByRole("button", { name: "Patch Drums in reverse" }).click(),
  ],
  [
    "sum",
    (page) => unfold(page, "What goes into Drums"),
    (page) => typeKeys(page.getByLabel("Send of Kick, dB"), "6"),
  ],
  [
    "patch",
    (page) => states(page, /^14 feeds fit/),
    (page) => typeKeys(page.getByLabel("Slots of the monitor system", { exact: true }), "12"),
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
