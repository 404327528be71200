import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { go, overhang, shelved } from "./hall";
import { openAt, settled } from "./hands";
import { axeFindings, type Phone, phone, typeKeys } from "./harness";
import { kickIn, level, openKick, panOf, peak, slider, storedKick } from "./kick";
import { browser, site } from "./stage";
import { textsIn } from "./things";

const looksOn = (page: Page) => page.getByText("Another tab is editing. This one is view-only.");
const takeOver = (page: Page) => page.getByRole("button", { name: "Edit here instead" });
const openKickAt = async (page: Page): Promise<void> => {
  await openAt(page, site, "channels");
  await openKick(page);
};

/** Two tabs of one browser, both with the kick's fields open; the first edits. */
const twoTabs = async (): Promise<Phone & { readonly other: Page }> => {
  const user = await phone(browser);
  await openKickAt(user.page);
  await settled(user.page);
  const other = await user.context.newPage();
  await openKickAt(other);
  await looksOn(other).waitFor();
  expect(await looksOn(user.page).count()).toBe(0);
  return { ...user, other };
};

describe("two tabs with one setup", () => {
  it("the second says that it looks on, shows every edit of the first, and changes nothing", async () => {
    const { page, other, faults, context } = await twoTabs();
    expect(await axeFindings(other)).toEqual([]);
    expect(await overhang(other)).toBe(0);
    await typeKeys(level(page), "-27");
    await expect.poll(() => level(other).inputValue()).toBe("−27");

    await typeKeys(level(other), "-12");
    expect(await looksOn(other).evaluate((e) => e.getBoundingClientRect().top)).toBeGreaterThanOrEqual(0);
    await level(other).press("Enter");
    await expect.poll(() => level(other).inputValue()).toBe("−27");
    await slider(other).press("End");
    expect(await panOf(other)).toBe(await panOf(page));
    await go(other, "setups");
    for (const button of await other.getByRole("button", { name: /^Start with/ }).all())
      expect(await button.isDisabled()).toBe(true);
    await settled(other);
    expect((await storedKick(page)).level).toBe(-27);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("says so wherever the page is scrolled to", async () => {
    const { other, context } = await twoTabs();
    await other.evaluate(() => scrollTo(0, document.body.scrollHeight));
    expect(await other.evaluate(() => scrollY)).toBeGreaterThan(500);
    const { top, bottom, height } = await looksOn(other).evaluate((e) => ({
      top: e.getBoundingClientRect().top,
      bottom: e.getBoundingClientRect().bottom,
      height: innerHeight,
    }));
    expect(top).toBeGreaterThanOrEqual(0);
    expect(bottom).toBeLessThan(height);
    await context.close();
  });

  it("edits of neither are lost when the second takes over in the midst of the first's", async () => {
    const { page, other, faults, context } = await twoTabs();
    await typeKeys(level(page), "-31.5");
    // At once: what was typed is not stored by itself yet.
    await takeOver(other).click();
    await looksOn(page).waitFor();
    await looksOn(other).waitFor({ state: "detached" });
    expect(await axeFindings(page)).toEqual([]);
    await expect.poll(() => level(other).inputValue()).toBe("−31.5");
    await typeKeys(peak(other), "-7.5");
    await settled(other);
    expect(await storedKick(other)).toMatchObject({ level: -31.5, peak: -7.5 });
    await expect.poll(() => peak(page).inputValue()).toBe("−7.5");

    await takeOver(page).click();
    await looksOn(other).waitFor();
    await looksOn(page).waitFor({ state: "detached" });
    await typeKeys(level(page), "-30");
    await settled(page);
    expect(await storedKick(page)).toMatchObject({ level: -30, peak: -7.5 });
    await go(page, "setups");
    expect(await shelved(page)).toHaveLength(1);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("the second edits by itself once the first is closed", async () => {
    const { page, other, faults, context } = await twoTabs();
    await typeKeys(level(page), "-28.5");
    await page.close({ runBeforeUnload: true });
    await looksOn(other).waitFor({ state: "detached" });
    await expect.poll(() => level(other).inputValue()).toBe("−28.5");
    await typeKeys(peak(other), "-8.5");
    await settled(other);
    expect(await storedKick(other)).toMatchObject({ level: -28.5, peak: -8.5 });
    expect(faults).toEqual([]);
    await context.close();
  });

  it("a frozen first one loses its turn and none of its edits", async () => {
    const { page, other, faults, context } = await twoTabs();
    await typeKeys(level(page), "-26.5");
    await settled(page);
    const tools = await context.newCDPSession(page);
    await tools.send("Page.setWebLifecycleState", { state: "frozen" });
    await takeOver(other).click();
    await looksOn(other).waitFor({ state: "detached" });
    await typeKeys(peak(other), "-6.5");
    await tools.send("Page.setWebLifecycleState", { state: "active" });
    await looksOn(page).waitFor();
    await settled(other);
    expect(await storedKick(other)).toMatchObject({ level: -26.5, peak: -6.5 });
    await expect.poll(() => peak(page).inputValue()).toBe("−6.5");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("in a browser without locks both edit, and what they did at once is kept as two setups", async () => {
    const user = await phone(browser);
    await user.context.addInitScript(() => {
      Object.defineProperty(Navigator.prototype, "locks", { value: undefined });
    });
    await openKickAt(user.page);
    await settled(user.page);
    const other = await user.context.newPage();
    await openKickAt(other);
    await typeKeys(level(user.page), "-25.5");
    await settled(user.page);
    await typeKeys(level(other), "-24.5");
    await other.getByText(/^Another tab changed “.*”\. Your changes here are saved as/).waitFor();
    expect(await axeFindings(other)).toEqual([]);
    await settled(other);
    const levels = (await textsIn(other)).map((text) => kickIn(text).level);
    expect(levels.sort()).toEqual([-24.5, -25.5]);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});
