import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { VERSION } from "../../src/document/schema";
import { go, shelved } from "./hall";
import { openAt, settled } from "./hands";
import { drawn, launch, typeKeys } from "./harness";
import { kickIn, level, openKick, panOf, peak, slider, storedKick } from "./kick";
import { agree, agreeButton, isNewer, withFirst } from "./newer";
import { lay, onlyKey, textsIn, things } from "./things";

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

it("a newer version that comes while somebody types changes nothing; taken at once, it has what was typed", async () => {
  await withFirst(browser, async ({ page }, _, putSecond) => {
    const title = await page.title();
    await openKick(page);
    await typeKeys(level(page), "-31.");
    await putSecond();
    await agreeButton(page).waitFor();
    expect(await page.title()).toBe(title);
    expect(await level(page).inputValue()).toBe("-31.");
    expect(await level(page).evaluate((field) => field === document.activeElement)).toBe(true);
    await page.keyboard.type("5");
    // No word of the offer moves while it is typed, so that nobody presses beside it.
    expect(await agreeButton(page).count()).toBe(1);
    await agree(page);
    await isNewer(page);
    await drawn(page);
    expect((await storedKick(page)).level).toBe(-31.5);
    await openKick(page);
    expect(await level(page).inputValue()).toBe("−31.5");
    expect(await agreeButton(page).count()).toBe(0);
  });
});

it("an edit in the last moment, after the button and before the page goes, is not lost either", async () => {
  await withFirst(browser, async ({ page }, _, putSecond) => {
    await putSecond();
    const before = await panOf(page);
    await page.evaluate(() => {
      navigator.serviceWorker.addEventListener("controllerchange", () => {
        const kick = document.querySelector('[role=slider][aria-label="Channel pan of Kick"]');
        if (!kick) document.title = "no slider";
        kick?.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
      });
    });
    await agree(page);
    await isNewer(page);
    await drawn(page);
    expect(await panOf(page)).toBe(before + 1);
  });
});

it("a newer version that takes its time is said to be on its way, and typing goes on", async () => {
  await withFirst(browser, async ({ page }, _, putSecond) => {
    await putSecond();
    // The asking goes unheard until it is let through.
    await page.evaluate(() => {
      const { postMessage } = ServiceWorker.prototype;
      ServiceWorker.prototype.postMessage = function (this: ServiceWorker, ...all: unknown[]) {
        addEventListener("let through", () => Reflect.apply(postMessage, this, all));
      };
    });
    await agree(page);
    await page.getByText("Switching versions.").waitFor();
    expect(await agreeButton(page).count()).toBe(0);
    await openKick(page);
    await typeKeys(level(page), "-26.5");
    await page.evaluate(() => dispatchEvent(new Event("let through")));
    await isNewer(page);
    await drawn(page);
    expect((await storedKick(page)).level).toBe(-26.5);
  });
});

it("the old version in one tab and the new one in another keep the same setup, and lose nothing", async () => {
  await withFirst(browser, async ({ page, context }, site, putSecond) => {
    await openKick(page);
    await typeKeys(level(page), "-27.5");
    const old = await context.newPage();
    await openAt(old, site, "channels");
    await old.getByText("Another tab is editing").waitFor();
    const title = await old.title();
    await putSecond();
    await agree(page);
    await isNewer(page);
    await drawn(page);
    // The page went for a moment, so the other tab has its turn.
    await old.getByText("Another tab is editing").waitFor({ state: "detached" });
    expect(await old.title()).toBe(title);
    await openKick(old);
    expect(await level(old).inputValue()).toBe("−27.5");
    await typeKeys(peak(old), "-7.5");
    await openKick(page);
    await expect.poll(() => peak(page).inputValue()).toBe("−7.5");
    await page.getByRole("button", { name: "Edit here instead" }).click();
    await page.getByText("Another tab is editing").waitFor({ state: "detached" });
    await slider(page).press("ArrowRight");
    await settled(page);
    expect(await storedKick(page)).toEqual({ level: -27.5, peak: -7.5, pan: 0.01 });
    await expect.poll(() => panOf(old)).toBe(1);
    await agree(old);
    await isNewer(old);
    await drawn(old);
    expect(await panOf(old)).toBe(1);
    await go(old, "setups");
    expect(await shelved(old)).toHaveLength(1);
  });
});

it("an old version never writes over what a newer one made of the same setup", async () => {
  await withFirst(browser, async ({ page }) => {
    const key = await onlyKey(page);
    const was = (await things(page))[key] as { text: string; revision: number };
    const newer = {
      ...was,
      text: was.text.replace(/"version": ?\d+/, `"version": ${VERSION + 1}`),
      writer: "a newer version",
      revision: was.revision + 1,
    };
    await lay(page, key, newer);
    await openKick(page);
    await typeKeys(level(page), "-29.5");
    await page.getByText(/^Another tab changed “.*”\. Your changes here are saved as/).waitFor();
    await settled(page);
    expect((await things(page))[key]).toEqual(newer);
    const mine = (await textsIn(page)).filter((text) => text !== newer.text);
    expect(mine.map((text) => kickIn(text).level)).toEqual([-29.5]);
  });
});
