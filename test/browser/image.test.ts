import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { states } from "./hall";
import { imageRows, openAt, tap, threads, upright } from "./hands";
import { launch, type Phone, phone, type Site, serveApp, typeKeys } from "./harness";

let browser: Browser;
let site: Site;
beforeAll(async () => {
  [browser, site] = await Promise.all([launch(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await site.stop();
});

/** The example on Image, with everything of the screen there. */
const toImage = async (): Promise<Phone> => {
  const user = await phone(browser);
  await openAt(user.page, site, "image");
  await states(user.page, "Reversed for Mara: 7 of 8 on the wrong side");
  await user.page.getByRole("heading", { name: "Where it stands" }).waitFor();
  return user;
};

const MARA = "Mara, drums";
const INES = "Ines, music director";

const drawing = (page: Page): Locator => page.locator("figure.threads").first();

/** What the recommendation says, and why. */
const recommended = async (page: Page): Promise<string> => {
  const card = page.locator("section[aria-labelledby=repair]");
  await card.waitFor();
  return (await card.locator("h2").textContent()) ?? "";
};

/** Waits until another repair is recommended. */
const recommendsOtherThan = (page: Page, before: string): Promise<unknown> =>
  page.waitForFunction((old) => {
    const now = document.querySelector("#repair")?.textContent;
    return now !== undefined && now !== old;
  }, before);

const side = async (page: Page, name: string): Promise<string> => {
  const row = (await imageRows(page, MARA)).find((r) => r.name.startsWith(name));
  return `${row?.stands} ${row?.heard}`;
};

/** One of those who hear the pair, opened. */
const listener = async (page: Page, name: string): Promise<Locator> => {
  const card = page.locator("li.card", { has: page.locator("summary", { hasText: name }) });
  await tap(card.locator("summary"));
  return card;
};

describe("who hears it right, and what is best done about it", () => {
  it("hat on the wrong side: the recommendation is read, looked at, done and taken back", async () => {
    const { page, faults, context } = await toImage();
    expect(await side(page, "Hat")).toBe("left right");
    expect(upright(await threads(drawing(page)))).toBe(false);
    expect(await recommended(page)).toContain("Patch Drums in reverse");
    const card = page.locator("section[aria-labelledby=repair]");
    expect(await card.locator("p").first().textContent()).toMatch(
      /^Mara then has every side right; 7 were wrong\./,
    );

    await tap(card.getByRole("button", { name: "Show afterwards" }).first());
    const after = card.locator("figure.threads").first();
    await after.getByRole("img", { name: "Afterwards: Right for Mara" }).waitFor();
    expect(upright(await threads(after))).toBe(true);
    // Only looked at: nothing has changed.
    expect(await side(page, "Hat")).toBe("left right");
    await tap(card.getByRole("button", { name: "Show afterwards" }).first());
    await after.waitFor({ state: "detached" });

    await tap(card.getByRole("button", { name: "Do it" }).first());
    await states(page, "Right for Mara: every side agrees");
    await expect.poll(async () => upright(await threads(drawing(page)))).toBe(true);
    expect(await side(page, "Hat")).toBe("left left");
    // Whom the swap alone would have turned over has it right too.
    const ines = page.locator("li.card summary", { hasText: INES });
    expect(await ines.textContent()).toContain("Right for Ines: every side agrees");

    await tap(page.locator(".toast").getByRole("button", { name: "Undo" }));
    await states(page, "Reversed for Mara: 7 of 8 on the wrong side");
    await expect.poll(async () => upright(await threads(drawing(page)))).toBe(false);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("a left-handed drummer on the same pans hears her hat right, the house does not", async () => {
    const { page, faults, context } = await toImage();
    const before = await recommended(page);
    const plan = page.getByRole("group", { name: "The kit from above, as the drummer sees it" });
    const hat = plan.getByRole("button", { name: /^Hat: / });
    expect(await hat.getAttribute("aria-label")).toMatch(/ m left and /);
    await tap(page.getByRole("radio", { name: "Left-handed" }));
    // The overheads hang where they hung: only they are on the wrong side for her now.
    await states(page, "Mixed up for Mara: 2 of 8 on the wrong side");
    await page.getByText("Wrong: Overhead L and Overhead R.").waitFor();
    expect(await hat.getAttribute("aria-label")).toMatch(/ m right and /);
    expect(await side(page, "Hat")).toBe("right right");
    await recommendsOtherThan(page, before);
    await page.getByLabel("As heard by").selectOption("Audience");
    await states(page, "Reversed for the audience");
    expect(await page.locator("section[aria-labelledby=house-notes] li").count()).toBeGreaterThan(0);

    // Seen by the house the drawing is turned over: two turns cancel.
    await tap(page.getByRole("radio", { name: "As the house sees it" }));
    const house = page.getByRole("group", { name: "The kit from above, as the house sees it" });
    await house.waitFor();
    const x = async (name: RegExp): Promise<number> =>
      (await house.getByRole("button", { name }).boundingBox())?.x ?? Number.NaN;
    expect(await x(/^Hat: /)).toBeLessThan(await x(/^Floor tom: /));
    await tap(page.getByRole("radio", { name: "Right-handed" }));
    await states(page, "Right for the audience: every side agrees");
    expect(await x(/^Hat: /)).toBeGreaterThan(await x(/^Floor tom: /));
    expect(faults).toEqual([]);
    await context.close();
  });

  it("for a music director who faces the band another repair is best", async () => {
    const { page, faults, context } = await toImage();
    const forMara = await recommended(page);
    expect(forMara).toContain("Ines");

    // Turned to the audience as the others, she needs no flip of her own.
    const card = await listener(page, INES);
    const facing = card.getByLabel("Turned to the own left from facing the audience, °");
    await typeKeys(facing, "0");
    await facing.press("Enter");
    await recommendsOtherThan(page, forMara);
    expect(await recommended(page)).toContain("Patch Drums in reverse");
    expect(await recommended(page)).not.toContain("Ines");
    await typeKeys(facing, "180");
    await facing.press("Enter");
    await page.waitForFunction((old) => document.querySelector("#repair")?.textContent === old, forMara);

    // Once she matters most, Mara is the one who hears it her own way.
    await tap(card.getByLabel("Matters most"));
    await states(page, "Right for Ines: every side agrees");
    await expect.poll(() => page.getByLabel("As heard by").inputValue()).toBe("l6");
    expect(await card.getByLabel("Matters most").isDisabled()).toBe(true);
    const says = page.locator("section[aria-labelledby=repair] > p").first();
    await expect.poll(() => says.textContent()).toMatch(/^Ines /);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("a piece on the plan", () => {
  const hatOf = (page: Page): Locator =>
    page.getByRole("group", { name: /^The kit from above/ }).getByRole("button", { name: /^Hat: / });
  /** Where it is said to be, metres to the drummer's right and in front. */
  const said = async (hat: Locator): Promise<readonly [x: number, y: number]> => {
    const label = (await hat.getAttribute("aria-label")) ?? "";
    const [, x, way, y, ahead] =
      /: ([\d.]+) m (right|left) and ([\d.]+) m (in front|behind)/.exec(label) ?? [];
    return [Number(x) * (way === "left" ? -1 : 1), Number(y) * (ahead === "behind" ? -1 : 1)];
  };

  it("is dragged to the other side and back by one undo", async () => {
    const { page, faults, context } = await toImage();
    const hat = hatOf(page);
    await hat.scrollIntoViewIfNeeded();
    const from = await said(hat);
    const box = await hat.locator(".mark-body").boundingBox();
    if (!box) throw new Error("no hat on the plan");
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 60, y, { steps: 4 });
    await page.mouse.move(x + 160, y, { steps: 4 });
    await page.mouse.up();
    const to = await said(hat);
    expect(to[0]).toBeGreaterThan(0.3);
    expect(to[1]).toBeCloseTo(from[1], 1);
    expect(await side(page, "Hat")).toBe("right right");
    await tap(page.getByRole("button", { name: "Undo: move piece" }));
    expect(await said(hat)).toEqual(from);
    expect(await side(page, "Hat")).toBe("left right");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("is moved by arrow keys, and by metres that are typed", async () => {
    const { page, faults, context } = await toImage();
    const hat = hatOf(page);
    const [x, y] = await said(hat);
    await hat.focus();
    await hat.press("ArrowRight");
    expect((await said(hat))[0]).toBeCloseTo(x + 0.05, 6);
    await hat.press("Shift+ArrowUp");
    expect((await said(hat))[1]).toBeCloseTo(y + 0.5, 6);
    expect(await hat.evaluate((e) => e === document.activeElement)).toBe(true);

    const places = page.locator("details.card", { hasText: "Pieces and their places, typed" });
    await tap(places.locator("> summary"));
    const piece = places.locator("details", { has: page.locator("summary", { hasText: /^Hat/ }) });
    await tap(piece.locator("summary"));
    const right = piece.getByLabel("Right of the throne, m", { exact: true });
    await typeKeys(right, "0,65");
    await right.press("Enter");
    expect((await said(hat))[0]).toBe(0.65);
    expect(await piece.locator("summary").textContent()).toContain("0.65 m right");
    expect(await side(page, "Hat")).toBe("right right");
    expect(faults).toEqual([]);
    await context.close();
  });
});
