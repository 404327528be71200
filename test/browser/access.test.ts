import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { checkOf } from "../../src/core/check/check";
import { judge } from "../../src/core/check/judge";
import type { Answer, Hit } from "../../src/core/setup";
import { exampleSetup } from "../../src/document/example";
import { printSetup } from "../../src/document/read-setup";
import { wavFile } from "../measure/wavfile";
import { noise } from "../tools/chance.mjs";
import { answerAll, choose, go, keepIt, overhang, reachesOut, slots, states, unfold } from "./hall";
import { drop, openAll, openAt, tabTo } from "./hands";
import { axeFindings, type Phone, phone, typeKeys } from "./harness";
import { browser, site } from "./stage";

/** A walk over every screen, three sizes each, on a busy machine. */
const WALK_MS = 300_000;
/** Smallest side of what is pressed, px: a hair less is rounding. */
const TARGET = 47.9;
/** The narrowest phone, and a usual one: also with its text, or with the whole page, twice as large. */
const NARROW = { width: 320, height: 640 };
const USUAL = { width: 360, height: 740 };
const ZOOMED = { width: USUAL.width / 2, height: USUAL.height / 2 };

/** Whatever is pressed and too small for a finger, with its size. */
const smallTargets = (page: Page): Promise<string[]> =>
  page.evaluate((least) => {
    const found: string[] = [];
    const pressed =
      "button, summary, select, textarea, input, nav a, a.press, [role=slider], .mark[tabindex]";
    for (const each of document.querySelectorAll<HTMLElement>(pressed)) {
      if (each.hidden || !each.checkVisibility()) continue;
      // A tick or a choice is pressed on its whole label.
      const ticked = each.matches("[type=checkbox], [type=radio]") ? each.closest("label") : null;
      const touched = ticked ?? each.querySelector(":scope > .mark-touch") ?? each;
      const { width, height } = touched.getBoundingClientRect();
      if (width < least || height < least)
        found.push(`${Math.round(width)}×${Math.round(height)} ${each.outerHTML.slice(0, 120)}`);
    }
    return found;
  }, TARGET);

const setText = (page: Page, size: string): Promise<void> =>
  page.evaluate((to) => {
    document.documentElement.style.fontSize = to;
  }, size);

/** Words that a box cuts off, so that a failure names them. The setup's name in the head is whole under Setups. */
const cutOff = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("#app *")]
      .filter((e) => {
        const meant = ".scroll-x, svg, .hidden-visually, .head .name, input, select, textarea";
        if (e.closest(meant) || !e.checkVisibility()) return false;
        const { overflowX, overflowY } = getComputedStyle(e);
        const hides = (overflow: string): boolean => overflow === "hidden" || overflow === "clip";
        return (
          (hides(overflowX) && e.scrollWidth > e.clientWidth + 1) ||
          (hides(overflowY) && e.scrollHeight > e.clientHeight + 1)
        );
      })
      .slice(0, 5)
      .map((e) => e.outerHTML.slice(0, 120)),
  );

/** Nothing scrolls sideways, reaches out or is cut off. */
const fitsIn = async (page: Page, what: string): Promise<void> => {
  const found = { over: await overhang(page), out: await reachesOut(page), cut: await cutOff(page) };
  expect(found, what).toEqual({ over: 0, out: [], cut: [] });
};

/** Fits the narrowest phone, and a usual one at twice the size; everything can be hit with a finger. */
const fits = async (page: Page, what: string): Promise<void> => {
  await page.setViewportSize(NARROW);
  await fitsIn(page, `${what} at 320 px`);
  expect(await smallTargets(page), what).toEqual([]);
  await page.setViewportSize(ZOOMED);
  await fitsIn(page, `${what} zoomed to 200 %`);
  await page.setViewportSize(USUAL);
  await setText(page, "200%");
  await fitsIn(page, `${what} with text of 200 %`);
  await setText(page, "");
};

const inspect = async (page: Page, what: string): Promise<void> => {
  expect(await axeFindings(page), what).toEqual([]);
  await fits(page, what);
};

const PLACES = ["kit", "image", "sum", "patch", "check", "setups", "about"];

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

describe("by keyboard alone", () => {
  it("a source is panned, the pair swapped, a repair done, a slot placed and moved, a check run", async () => {
    const { page, faults, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "kit");
    await tabTo(page, "House pan of Snare");
    for (const key of ["ArrowRight", "ArrowRight", "PageUp"]) await page.keyboard.press(key);
    expect(
      await page.getByRole("slider", { name: "House pan of Snare" }).getAttribute("aria-valuetext"),
    ).toMatch(/^R22: /);
    await page.keyboard.press("End");
    await page.keyboard.press("c");
    expect(
      await page.getByRole("slider", { name: "House pan of Snare" }).getAttribute("aria-valuetext"),
    ).toMatch(/^C: /);

    await tabTo(page, "Image");
    await page.keyboard.press("Enter");
    await states(page, /^Reversed for Mara/);
    await tabTo(page, "Patch Drums in reverse");
    await page.keyboard.press("Enter");
    await states(page, /^Correct for Mara/);
    await page.keyboard.press("Space");
    await states(page, /^Reversed for Mara/);
    await tabTo(page, "Put it in the plan");
    await page.keyboard.press("Enter");
    await states(page, /^Correct for Mara/);

    await tabTo(page, "Patch");
    await page.keyboard.press("Enter");
    await states(page, /^14 feeds fit/);
    await tabTo(page, /^Move slot 3:/);
    await page.keyboard.press("ArrowDown");
    await expect.poll(async () => (await slots(page))[3]).toContain("Bass");
    // The two channels of the keys keep together: it goes past both, and the focus goes along.
    await page.keyboard.press("ArrowDown");
    await expect.poll(async () => (await slots(page))[5]).toContain("Bass");
    await page.keyboard.press("ArrowDown");
    await expect.poll(async () => (await slots(page))[6]).toContain("Bass");
    await tabTo(page, /^Without a slot/);
    await page.keyboard.press("Enter");
    await tabTo(page, "Place Kick");
    await page.keyboard.press("Enter");
    await states(page, /^15 feeds fit/);
    expect((await slots(page))[14]).toContain("Kick");

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

  it("a send is raised until the sum is short of its margin, and the trim that is offered is done", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "kit");
    await tabTo(page, "Sum");
    await page.keyboard.press("Enter");
    await states(page, /dB/);
    const before = await page.locator("h1").textContent();
    await tabTo(page, "What goes into Drums");
    await page.keyboard.press("Enter");
    await tabTo(page, "Send of Kick, dB");
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("6");
    await page.getByRole("heading", { name: /short of the margin/ }).waitFor();
    expect(await page.locator("h1").textContent()).not.toBe(before);
    const trim = page.getByRole("button", { name: /^Trim Drums to −/ });
    await tabTo(page, /^Trim Drums to −/);
    await page.keyboard.press("Enter");
    const word = page.locator(".toast").getByText(/^Drums trimmed to −/);
    await word.waitFor();
    // Output and input have their margin then; the sum, which lies before its trim, stays short.
    await trim.waitFor({ state: "detached" });
    await context.close();
  });

  it("a setup is begun from a template, gets a source, goes out as a file and comes in again", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    // Listening from the start: a chooser that opens before the driver has taken it over is not told.
    page.on("filechooser", () => {});
    await openAt(page, site, "kit");
    await tabTo(page, "Setups and settings");
    await page.keyboard.press("Enter");
    await states(page, "on this device");
    await tabTo(page, "Start with 8 microphones");
    await page.keyboard.press("Enter");
    await states(page, "8 sources make one pair");
    await tabTo(page, "Add a source");
    await page.keyboard.press("Enter");
    await tabTo(page, "Source");
    await page.keyboard.press("Enter");
    await tabTo(page, "Name");
    await page.keyboard.press("ControlOrMeta+a");
    await page.keyboard.type("Cowbell");
    await tabTo(page, "Level while playing, dBFS");
    await page.keyboard.type("-31.5");
    await page.locator("li.source b", { hasText: "Cowbell" }).waitFor();

    await tabTo(page, "Setups and settings");
    await page.keyboard.press("Enter");
    await tabTo(page, "More for 8 drum microphones");
    await page.keyboard.press("Enter");
    await tabTo(page, "Send or save the file");
    const [file] = await Promise.all([page.waitForEvent("download"), page.keyboard.press("Enter")]);
    const path = await file.path();
    const saved = JSON.parse(readFileSync(path, "utf8"));
    expect(saved.sources.at(-1)).toMatchObject({ name: "Cowbell", level: -31.5 });

    await tabTo(page, "Open a setup file or a backup");
    const [chooser] = await Promise.all([page.waitForEvent("filechooser"), page.keyboard.press("Enter")]);
    await chooser.setFiles({
      name: file.suggestedFilename(),
      mimeType: "application/json",
      buffer: readFileSync(path),
    });
    await states(page, "Take in “8 drum microphones”?");
    await tabTo(page, "Keep it and open it");
    await page.keyboard.press("Enter");
    await states(page, "9 sources make one pair");
    await tabTo(page, "Setups and settings");
    await page.keyboard.press("Enter");
    await states(page, "3 setups on this device");
    await context.close();
  });

  it("what has the focus never lies under the bar of places", { timeout: WALK_MS }, async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "kit");
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

  it("a source keeps the focus of its buttons while it is moved", async () => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, "kit");
    await tabTo(page, /^Snare/);
    await page.keyboard.press("Enter");
    await tabTo(page, "Move Snare down");
    await page.keyboard.press("Enter");
    const names = () => page.locator("li.source b").allTextContents();
    await expect.poll(async () => (await names()).slice(0, 3)).toEqual(["Kick", "Hat", "Snare"]);
    await page.keyboard.press("Enter");
    await expect.poll(async () => (await names()).slice(0, 4)).toEqual(["Kick", "Hat", "Tom 1", "Snare"]);
    await context.close();
  });
});

/** How often a thread was drawn anew between a swap and its rest. */
const drawnOnSwap = async (page: Page): Promise<number> => {
  await openAt(page, site, "image");
  await states(page, /^Reversed for Mara/);
  await page.evaluate(() => {
    const path = document.querySelector(".thread.is-wrong .thread-line");
    const seen = new Set<string | null>();
    Object.assign(globalThis, { drawnThreads: seen });
    if (!path) throw new Error("no thread");
    new MutationObserver(() => seen.add(path.getAttribute("d"))).observe(path, { attributeFilter: ["d"] });
  });
  await page.getByRole("button", { name: "Patch Drums in reverse" }).click();
  await states(page, /^Correct for Mara/);
  // Longer than the threads take to turn over.
  await page.waitForTimeout(700);
  return page.evaluate(() => (globalThis as unknown as { drawnThreads: Set<string> }).drawnThreads.size);
};

it("a swap turns the threads over, and jumps there where motion is not wanted", async () => {
  const moving = await phone(browser);
  expect(await drawnOnSwap(moving.page)).toBeGreaterThan(3);
  await moving.context.close();
  const still = await phone(browser, { reducedMotion: "reduce" });
  expect(await drawnOnSwap(still.page)).toBe(1);
  await still.context.close();
});

/** Lowest contrast of a part of a drawing against the page (WCAG 2.2, relative luminance). */
const faintest = (page: Page, selector: string, colour: "stroke" | "fill"): Promise<number> =>
  page.locator(selector).evaluateAll((all, property) => {
    const light = (text: string): number => {
      const [r = 0, g = 0, b = 0] = (text.match(/[\d.]+/g) ?? []).map((channel) => {
        const share = Number(channel) / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const ground = light(getComputedStyle(document.documentElement).backgroundColor);
    const ratios = all.map((each) => {
      const own = light(getComputedStyle(each)[property]);
      return (Math.max(own, ground) + 0.05) / (Math.min(own, ground) + 0.05);
    });
    return Math.min(...ratios);
  }, colour);

it("what is chosen can be told with the colours of the system alone", async () => {
  const { page, context } = await phone(browser, { forcedColors: "active" });
  await openAt(page, site, "kit");
  const outline = (selector: string): Promise<string> =>
    page
      .locator(selector)
      .first()
      .evaluate((e) => getComputedStyle(e).outlineStyle);
  expect(await outline(".choice label:has(:checked)")).toBe("solid");
  expect(await outline(".choice label:not(:has(:checked))")).toBe("none");
  expect(await outline(".nav a[aria-current]")).toBe("solid");
  expect(await outline(".nav a:not([aria-current])")).toBe("none");
  const bead = await page
    .locator(".pan-line i")
    .first()
    .evaluate((e) => getComputedStyle(e).backgroundColor);
  const ground = await page.locator("html").evaluate((e) => getComputedStyle(e).backgroundColor);
  expect(bead).not.toBe(ground);
  await go(page, "image");
  const swap = page.getByRole("button", { name: /reverse$/ }).first();
  expect(await swap.evaluate((e) => getComputedStyle(e).outlineStyle)).toBe("none");
  await swap.click();
  await states(page, /^Correct for Mara/);
  expect(await outline('button[aria-pressed="true"]')).toBe("solid");
  expect(await faintest(page, ".thread-line", "stroke")).toBeGreaterThan(3);
  expect(await faintest(page, ".threads text", "fill")).toBeGreaterThan(4.5);
  await context.close();
});

it("the verdict is said anew when it changes, in a part that stays", async () => {
  const { page, context } = await phone(browser);
  await openAt(page, site, "image");
  const verdict = page.getByRole("status").filter({ has: page.locator("h1") });
  expect(await verdict.count()).toBe(1);
  await verdict.evaluate((e) => Object.assign(e, { stays: true }));
  const before = await verdict.textContent();
  await page.getByRole("button", { name: "Patch Drums in reverse" }).click();
  await states(page, /^Correct for Mara/);
  expect(await verdict.textContent()).not.toBe(before);
  expect(await verdict.evaluate((e) => (e as unknown as { stays?: boolean }).stays)).toBe(true);
  await context.close();
});
