import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { go, states, unfold } from "./hall";
import { openAt } from "./hands";
import { type Phone, phone, typeKeys } from "./harness";
import { measureTwo } from "./inspect";
import { browser, site } from "./stage";

/** How often a thread was drawn anew between a swap and its rest. */
const drawnOnSwap = async (page: Page): Promise<number> => {
  await openAt(page, site, "image");
  await states(page, /^L\/R swapped for Mara/);
  await page.evaluate(() => {
    const path = document.querySelector(".thread.is-wrong .thread-line");
    const seen = new Set<string | null>();
    Object.assign(globalThis, { drawnThreads: seen });
    if (!path) throw new Error("no thread");
    new MutationObserver(() => seen.add(path.getAttribute("d"))).observe(path, { attributeFilter: ["d"] });
  });
  await page.getByRole("button", { name: "Swap Drums L/R" }).click();
  await states(page, /^All on the right side for Mara/);
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

/** Lowest contrast of what is drawn against the page, or against what it lies on (WCAG 2.2, relative luminance). */
const faintest = (
  page: Page,
  selector: string,
  colour: "stroke" | "fill" | "backgroundColor" | "borderTopColor",
  ground = "html",
): Promise<number> =>
  page.locator(selector).evaluateAll(
    (all, [property, under]) => {
      if (all.length === 0) throw new Error("nothing is drawn");
      const light = (text: string): number => {
        const [r = 0, g = 0, b = 0] = (text.match(/[\d.]+/g) ?? []).map((channel) => {
          const share = Number(channel) / 255;
          return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
        });
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
      };
      const ratios = all.map((each) => {
        const own = light(getComputedStyle(each)[property]);
        const other = light(getComputedStyle(each.closest(under) ?? each).backgroundColor);
        return (Math.max(own, other) + 0.05) / (Math.min(own, other) + 0.05);
      });
      return Math.min(...ratios);
    },
    [colour, ground] as const,
  );

it("what is chosen can be told with the colours of the system alone", async () => {
  const { page, context } = await phone(browser, { forcedColors: "active" });
  await openAt(page, site, "channels");
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
  await states(page, /^All on the right side for Mara/);
  expect(await outline('button[aria-pressed="true"]')).toBe("solid");
  expect(await faintest(page, ".thread-line", "stroke")).toBeGreaterThan(3);
  expect(await faintest(page, ".threads text", "fill")).toBeGreaterThan(4.5);
  await context.close();
});

describe.each(["dark", "light"] as const)("with the colours of a %s system alone", (colorScheme) => {
  const start = async (place: string): Promise<Phone> => {
    const user = await phone(browser, { forcedColors: "active", colorScheme });
    await openAt(user.page, site, place);
    return user;
  };

  it("bars, tones, marks on the plans, answers and the word with its way back can be seen", async () => {
    const { page, context } = await start("image");
    const tone = () => page.locator(".verdict path").getAttribute("d");
    await states(page, /^L\/R swapped for Mara/);
    const wrong = await tone();
    expect(await faintest(page, ".verdict svg", "stroke")).toBeGreaterThan(3);
    for (const view of ["As the drummer sees it", "The stage"]) {
      await page.getByText(view).click();
      expect(await faintest(page, ".plan .mark-body", "stroke"), view).toBeGreaterThan(3);
      expect(await faintest(page, ".plan .mark text", "fill"), view).toBeGreaterThan(4.5);
    }
    await page.getByRole("button", { name: "Apply to plan" }).first().click();
    await states(page, /^All on the right side for Mara/);
    // A tone is told by its drawing, not by its colour.
    expect(await tone()).not.toBe(wrong);
    expect(await faintest(page, ".verdict svg", "stroke")).toBeGreaterThan(3);
    expect(await faintest(page, ".toast", "backgroundColor")).toBeGreaterThan(3);

    await go(page, "headroom");
    await page.locator(".bars i").first().waitFor();
    expect(await faintest(page, ".bars i", "backgroundColor")).toBeGreaterThan(3);

    await go(page, "check");
    await page.getByRole("button", { name: "Start the check" }).click();
    await page.locator(".question").waitFor();
    expect(await faintest(page, ".answer", "borderTopColor")).toBeGreaterThan(3);
    expect(await faintest(page, ".progress i", "backgroundColor", ".progress")).toBeGreaterThan(3);
    await context.close();
  });

  it("both lines of a recording and its mark can be seen and told apart; so can a wrong field and a code", async () => {
    const { page, context } = await start("headroom");
    await measureTwo(page);
    await page.locator(".course-line").first().waitFor();
    expect(await faintest(page, ".course-line, .course-mark", "stroke")).toBeGreaterThan(3);
    expect(await faintest(page, ".course text", "fill")).toBeGreaterThan(4.5);
    const dashes = page
      .locator(".course-line")
      .evaluateAll((all) => all.map((e) => getComputedStyle(e).strokeDasharray));
    expect(new Set(await dashes).size).toBe(2);

    const field = page.getByLabel("Send of Kick, dB");
    const edge = () => field.evaluate((e) => getComputedStyle(e).border + getComputedStyle(e).boxShadow);
    const right = await edge();
    await typeKeys(field, "4000");
    await page.getByText(/^Send of Kick: 4000 is outside/).waitFor();
    expect(await edge()).not.toBe(right);
    expect(await faintest(page, "[aria-invalid=true]", "borderTopColor")).toBeGreaterThan(3);

    await go(page, "setups");
    await unfold(page, "Share the open setup");
    const code = page.getByRole("img", { name: /^QR code/ });
    await code.waitFor();
    const fills = code.locator("rect, path").evaluateAll((all) => all.map((e) => getComputedStyle(e).fill));
    expect(await fills).toEqual(["rgb(255, 255, 255)", "rgb(0, 0, 0)"]);
    await context.close();
  });
});
