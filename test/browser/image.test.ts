import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { go, states, unfold } from "./hall";
import { imageRows, openAt, tap, threads, upright } from "./hands";
import { axeFindings, type Phone, phone, typeKeys } from "./harness";
import { browser, site } from "./stage";

/** The example on Image, with everything of the screen there. */
const toImage = async (): Promise<Phone> => {
  const user = await phone(browser);
  await openAt(user.page, site, "image");
  await states(user.page, "L/R swapped for Mara: 7 of 8 on the wrong side");
  await user.page.getByRole("heading", { name: "Where it stands" }).waitFor();
  return user;
};

const MARA = "Mara, drums";
const INES = "Ines, music director";

const drawing = (page: Page): Locator => page.locator("figure.threads").first();

/** What the recommendation says, and why. */
const recommended = async (page: Page): Promise<string> => {
  const card = page.locator("section[aria-labelledby=recommendation]");
  await card.waitFor();
  return (await card.locator("h2").textContent()) ?? "";
};

/** Waits until something else is recommended. */
const recommendsOtherThan = (page: Page, before: string): Promise<unknown> =>
  page.waitForFunction((old) => {
    const now = document.querySelector("#recommendation")?.textContent;
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
    expect(await recommended(page)).toContain("Swap Drums L/R");
    const card = page.locator("section[aria-labelledby=recommendation]");
    expect(await card.locator("p").first().textContent()).toMatch(
      /^Mara then hears every channel on the right side; 7 are wrong now\./,
    );

    await tap(card.getByRole("button", { name: "Preview" }).first());
    const before = card.locator("figure.threads").first();
    const after = card.locator("figure.threads").nth(1);
    await before.getByRole("img", { name: "Now: L/R swapped for Mara" }).waitFor();
    await after.getByRole("img", { name: "Preview: All on the right side for Mara" }).waitFor();
    expect(upright(await threads(before))).toBe(false);
    expect(upright(await threads(after))).toBe(true);
    // Both are seen at once: they fit between the top of the screen and the places at its foot.
    const [top, bottom, foot] = await Promise.all(
      [before, after, page.locator(".nav")].map((l) => l.boundingBox()),
    );
    if (!top || !bottom || !foot) throw new Error("not drawn");
    expect(bottom.y + bottom.height - top.y).toBeLessThan(740 - foot.height);
    // Only looked at: nothing has changed.
    expect(await side(page, "Hat")).toBe("left right");
    await tap(card.getByRole("button", { name: "Preview" }).first());
    await after.waitFor({ state: "detached" });

    await tap(card.locator("summary", { hasText: "Step by step, and who hears what" }));
    const details = card.locator("details[open]").first();
    expect(await details.locator("p").first().textContent()).toBe(
      "Takes 2 changes, no extra monitor inputs; FOH stays as it is.",
    );
    const cells = await details
      .locator("table tr")
      .evaluateAll((rows) => rows.map((r) => [...r.children].map((c) => c.textContent)));
    expect(cells[0]).toEqual(["Listener", "Right side", "Wrong side", "Centred", "Not placed", "L/R lost"]);
    expect(cells.find(([who]) => who === "Lene, keys")).toEqual(["Lene, keys", "0", "0", "0", "8", "0"]);
    await tap(card.locator("summary", { hasText: "Other ways" }));
    const others = card
      .locator("details", { has: page.locator("summary", { hasText: "Other ways" }) })
      .locator("ul.stack > li");
    await others.nth(1).waitFor();
    for (const other of await others.all()) {
      await tap(other.locator("summary").first());
      expect(await other.locator("details[open] p").first().textContent()).toMatch(
        /^(Nothing to change|Takes \d+ changes?), (no|\d+) extra monitor inputs?; FOH /,
      );
    }

    await tap(card.getByRole("button", { name: "Apply to plan" }).first());
    await states(page, "All on the right side for Mara");
    await expect.poll(async () => upright(await threads(drawing(page)))).toBe(true);
    expect(await side(page, "Hat")).toBe("left left");
    // Whom the swap alone would have turned over has it right too.
    const ines = page.locator("li.card summary", { hasText: INES });
    expect(await ines.textContent()).toContain("All on the right side for Ines");

    await tap(page.locator(".toast").getByRole("button", { name: "Undo" }));
    await states(page, "L/R swapped for Mara: 7 of 8 on the wrong side");
    await expect.poll(async () => upright(await threads(drawing(page)))).toBe(false);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("a left-handed drummer on the same pans hears her hat right, FOH does not", async () => {
    const { page, faults, context } = await toImage();
    const before = await recommended(page);
    const plan = page.getByRole("group", { name: "The kit from above, as the drummer sees it" });
    const hat = plan.getByRole("button", { name: /^Hat: / });
    expect(await hat.getAttribute("aria-label")).toMatch(/ m left, /);
    await tap(page.getByRole("radio", { name: "Left-handed" }));
    // The overheads hang where they hung: only they are on the wrong side for her now.
    await states(page, "L/R mixed up for Mara: 2 of 8 on the wrong side");
    await page.getByText("Wrong side: Overhead L and Overhead R.").waitFor();
    expect(await hat.getAttribute("aria-label")).toMatch(/ m right, /);
    expect(await side(page, "Hat")).toBe("right right");
    await recommendsOtherThan(page, before);
    await page.getByLabel("As heard by").selectOption("Audience");
    await states(page, "L/R swapped for the audience");
    expect(await page.locator("section[aria-labelledby=house-notes] li").count()).toBeGreaterThan(0);

    // Seen by FOH the drawing is turned over: two turns cancel.
    await tap(page.getByRole("radio", { name: "As FOH sees it" }));
    const foh = page.getByRole("group", { name: "The kit from above, as FOH sees it" });
    await foh.waitFor();
    const x = async (name: RegExp): Promise<number> =>
      (await foh.getByRole("button", { name }).boundingBox())?.x ?? Number.NaN;
    expect(await x(/^Hat: /)).toBeLessThan(await x(/^Floor tom: /));
    await tap(page.getByRole("radio", { name: "Right-handed" }));
    await states(page, "All on the right side for the audience");
    expect(await x(/^Hat: /)).toBeGreaterThan(await x(/^Floor tom: /));
    expect(faults).toEqual([]);
    await context.close();
  });

  it("for a music director who faces the band something else is best", async () => {
    const { page, faults, context } = await toImage();
    const forMara = await recommended(page);
    expect(forMara).toContain("Ines");

    // Turned to the audience as the others, she needs no flip of her own.
    const card = await listener(page, INES);
    const facing = card.getByLabel("Turned to their left; 0 faces the audience, °");
    await typeKeys(facing, "0");
    await facing.press("Enter");
    await recommendsOtherThan(page, forMara);
    expect(await recommended(page)).toContain("Swap Drums L/R");
    expect(await recommended(page)).not.toContain("Ines");
    await typeKeys(facing, "180");
    await facing.press("Enter");
    await page.waitForFunction(
      (old) => document.querySelector("#recommendation")?.textContent === old,
      forMara,
    );

    // Once she matters most, Mara is the one who hears it her own way.
    await tap(card.getByLabel("Matters most"));
    await states(page, "All on the right side for Ines");
    await expect.poll(() => page.getByLabel("As heard by").inputValue()).toBe("l6");
    expect(await card.getByLabel("Matters most").isDisabled()).toBe(true);
    const says = page.locator("section[aria-labelledby=recommendation] > p").first();
    await expect.poll(() => says.textContent()).toMatch(/^Ines /);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("what would change it is found off the page, one fact after the other, and can be stopped", async () => {
    const { page, faults, context } = await toImage();
    const card = page.locator("section[aria-labelledby=recommendation]");
    await card.waitFor();
    const fold = page.locator("summary", { hasText: "What would change this" });
    await tap(fold);
    const facts = card.locator("details", { has: fold }).locator("li");
    await facts.filter({ hasText: "If Ines faced the other way: " }).waitFor();
    // Done: nothing is left to stop.
    await card.getByRole("button", { name: "Stop" }).waitFor({ state: "detached" });
    const said = await facts.allInnerTexts();
    expect(new Set(said).size).toBe(said.length);
    // Once another is applied it is worked out for that.
    await tap(card.getByRole("button", { name: "Apply to plan" }).first());
    await states(page, "All on the right side for Mara");
    await expect.poll(() => facts.allInnerTexts()).not.toEqual(said);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("what would change it is stopped where it takes too long", async () => {
    const { page, context } = await toImage();
    // No job ever reaches it.
    await page.evaluate(() => {
      Worker.prototype.postMessage = () => {};
    });
    const card = page.locator("section[aria-labelledby=recommendation]");
    await card.waitFor();
    await tap(card.locator("summary", { hasText: "What would change this" }));
    await card.getByRole("progressbar", { name: "What-ifs tried" }).waitFor();
    await tap(card.getByRole("button", { name: "Stop" }));
    await card.getByText("Stopped after 0 of 1 what-ifs.").waitFor();
    await context.close();
  });
});

describe("what everybody gets, in numbers", () => {
  /** Heads and cells of the table beside the threads. */
  const cells = (page: Page): Promise<(string | null)[][]> =>
    page
      .locator("table", { hasText: "Each channel as it reaches" })
      .locator("tr")
      .evaluateAll((rows) => rows.map((r) => [...r.children].map((c) => c.textContent)));

  it("the difference, the place and, for the audience, the angle before loudspeakers; a line for each listener", async () => {
    const { page, faults, context } = await toImage();
    const [head, ...rows] = await cells(page);
    expect(head?.slice(3)).toEqual(["L dB", "R dB", "R − L dB", "Place"]);
    const of = (name: string): (string | null)[] => rows.find(([first]) => first?.startsWith(name)) ?? [];
    expect(of("Overhead L").slice(5)).toEqual(["−∞", "hard left"]);
    expect(of("Kick").slice(5)).toEqual(["0.0", "centre"]);
    // 12.4 of 15 dB; Hat at R70 by sin/cos.
    expect(of("Hat").slice(5)).toEqual(["+12.4", "83 % right"]);

    await page.getByLabel("As heard by").selectOption("Audience");
    await states(page, "All on the right side for the audience");
    const [fohHead, ...foh] = await cells(page);
    expect(fohHead?.slice(6)).toEqual(["Place", "Angle, loudspeakers at ±30°"]);
    expect(foh.find(([first]) => first?.startsWith("Hat"))?.slice(5)).toEqual([
      "+12.4",
      "70 % right",
      "19.5° right",
    ]);

    const line = (name: string): Promise<string | null> =>
      page.locator("li.card summary", { hasText: name }).textContent();
    expect(await line(MARA)).toContain("1 on the right side, 7 on the wrong side, 0 not placed, score −0.77");
    expect(await line("Audience")).toContain(
      "8 on the right side, 0 on the wrong side, 11 not placed, score +0.77",
    );
    expect(await line("Lene, keys")).toContain(
      "0 on the right side, 0 on the wrong side, 8 not placed, no score",
    );
    expect(faults).toEqual([]);
    await context.close();
  });

  it("a bus without a name is called so, and whether its L/R are swapped is said once", async () => {
    const { page, faults, context } = await toImage();
    await go(page, "headroom");
    await unfold(page, "fader, trims and output chain");
    const name = page.getByLabel("Name", { exact: true });
    await typeKeys(name, "");
    await name.press("Enter");
    await go(page, "image");
    const swap = page.getByRole("button", { name: "Swap Unnamed bus L/R" });
    expect(await swap.getAttribute("aria-pressed")).toBe("false");
    await tap(swap);
    await states(page, "All on the right side for Mara");
    expect(await swap.getAttribute("aria-pressed")).toBe("true");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("crossed overheads are named", async () => {
    const { page, faults, context } = await toImage();
    const notes = page.locator("section[aria-labelledby=house-notes]");
    expect(await notes.count()).toBe(0);
    await go(page, "channels");
    await page.getByRole("slider", { name: "Channel pan of Overhead L" }).press("End");
    await page.getByRole("slider", { name: "Channel pan of Overhead R" }).press("Home");
    await go(page, "image");
    await notes.getByText("Overhead L and Overhead R disagree with the close mics at FOH: ").waitFor();
    await notes
      .getByText("For the audience the close mics are right. Swap the overhead pans")
      .first()
      .waitFor();
    await states(page, "L/R swapped for Mara: 5 of 8 on the wrong side");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("a recommendation that may use no free monitor input uses none", async () => {
    const { page, faults, context } = await toImage();
    const card = page.locator("section[aria-labelledby=recommendation]");
    const ways = (): Promise<string[]> => card.locator("li > details > summary").allInnerTexts();
    const ownBus = /of their own/;
    // A bus of one's own takes two inputs more, and the example has one left.
    await go(page, "patch");
    const inputCount = page.getByLabel("Monitor inputs", { exact: true });
    await typeKeys(inputCount, "18");
    await inputCount.press("Enter");
    // What must keep its sides and stands nowhere is panned round, so that who faces the band needs a bus of her own.
    await go(page, "channels");
    await tap(page.getByRole("button", { name: /^Hat/ }).first());
    await page.getByLabel("Kit piece").selectOption("");
    await tap(page.getByLabel("Keep L/R"));
    await go(page, "image");
    await tap(card.locator("summary", { hasText: "Other ways" }));
    await expect.poll(async () => `${await recommended(page)} ${await ways()}`).toMatch(ownBus);
    await tap(card.locator("summary", { hasText: "Rules for the recommendation" }));
    await card.getByText(/^Monitor inputs free now: \d+\./).waitFor();
    await tap(card.getByLabel("Use no free monitor inputs"));
    await expect.poll(async () => `${await recommended(page)} ${await ways()}`).not.toMatch(ownBus);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("where everybody stands", () => {
  const plan = (page: Page, name: string): Locator => page.getByRole("group", { name });

  it("a listener is dragged about the stage and back by one undo; nothing is found by axe there", async () => {
    const { page, faults, context } = await toImage();
    await tap(page.getByRole("radio", { name: "As FOH sees it" }));
    await plan(page, "The kit from above, as FOH sees it").waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await tap(page.getByRole("radio", { name: "The stage" }));
    const tobi = plan(page, "The stage from above").getByRole("button", { name: /Tobi, lead vox: / });
    await tobi.waitFor();
    expect(await axeFindings(page)).toEqual([]);
    const label = await tobi.getAttribute("aria-label");
    await tobi.scrollIntoViewIfNeeded();
    const box = await tobi.locator(".mark-body").boundingBox();
    if (!box) throw new Error("no Tobi on the stage");
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x - 30, y + 20, { steps: 4 });
    await page.mouse.move(x - 80, y + 40, { steps: 4 });
    await page.mouse.up();
    expect(await tobi.getAttribute("aria-label")).toMatch(/ m house left, .* m in front/);
    await tap(page.getByRole("button", { name: "Undo: move listener" }));
    expect(await tobi.getAttribute("aria-label")).toBe(label);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("the throne's turn is typed and every image follows", async () => {
    const { page, faults, context } = await toImage();
    await page.getByLabel("As heard by").selectOption("Audience");
    await states(page, "All on the right side for the audience");
    const yaw = page.getByLabel("Throne turned to the drummer’s left, °", { exact: true });
    await typeKeys(yaw, "180");
    await states(page, "L/R swapped for the audience: 7 of 8 on the wrong side");
    await typeKeys(yaw, "90");
    await states(page, "The audience stands side-on to the kit");
    await yaw.press("Enter");
    await page.getByLabel("As heard by").selectOption(MARA);
    // She turns with her kit.
    await states(page, "L/R swapped for Mara: 7 of 8 on the wrong side");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("an open-handed player has the ride at the left, and the hat where it was", async () => {
    const { page, faults, context } = await toImage();
    const says = async (name: RegExp): Promise<string> =>
      (await plan(page, "The kit from above").getByRole("button", { name }).getAttribute("aria-label")) ?? "";
    const hat = await says(/^Hat: /);
    expect(await says(/^Ride: /)).toMatch(/ m right, /);
    await tap(page.getByRole("radio", { name: "Open-handed" }));
    expect(await says(/^Ride: /)).toMatch(/ m left, /);
    expect(await says(/^Hat: /)).toBe(hat);
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
      /: ([\d.]+) m (right|left), ([\d.]+) m (in front of|behind)/.exec(label) ?? [];
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

    const places = page.locator("details.card", { hasText: "Pieces and their places, in metres" });
    await tap(places.locator("> summary"));
    const piece = places.locator("details", { has: page.locator("summary", { hasText: /^Hat/ }) });
    await tap(piece.locator("summary"));
    const right = piece.getByLabel("Right of the throne, m", { exact: true });
    await typeKeys(right, "0,65");
    await right.press("Enter");
    expect((await said(hat))[0]).toBe(0.65);
    expect(await piece.locator("summary").textContent()).toContain("0.65 m right");
    expect(await side(page, "Hat")).toBe("right right");

    // Far out it is still in the drawing, which grows, and goes on from there.
    await typeKeys(right, "3");
    await right.press("Enter");
    const inSight = async (): Promise<boolean> => {
      const [mark, all] = await Promise.all(
        [hat.locator(".mark-body"), page.getByRole("group", { name: /^The kit from above/ })].map((l) =>
          l.boundingBox(),
        ),
      );
      if (!mark || !all) throw new Error("not drawn");
      return mark.x >= all.x && mark.x + mark.width <= all.x + all.width;
    };
    expect((await said(hat))[0]).toBe(3);
    expect(await inSight()).toBe(true);
    await hat.press("ArrowRight");
    expect((await said(hat))[0]).toBe(3.05);
    expect(await inSight()).toBe(true);
    await typeKeys(right, "20");
    await right.press("Enter");
    await hat.press("ArrowRight");
    await page.locator(".toast", { hasText: "Not moved: places are −20 to 20 m from the throne" }).waitFor();
    expect((await said(hat))[0]).toBe(20);
    expect(faults).toEqual([]);
    await context.close();
  });
});
