import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, expect, it } from "vitest";
import { go, states, unfold, visit } from "./hall";
import { imageRows, tap } from "./hands";
import { axeFindings, launch, type Phone, phone, type Site, serveApp, typeKeys } from "./harness";

let browser: Browser;
let site: Site;

beforeAll(async () => {
  [browser, site] = await Promise.all([launch(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await site.stop();
});

const toImage = async (): Promise<Phone> => {
  const user = await phone(browser);
  await visit(user, site, "#image");
  await repair(user.page).waitFor();
  return user;
};

const repair = (page: Page) => page.locator("section[aria-labelledby=repair]");
const verdict = (page: Page) => repair(page).locator("h2").textContent();
/** How far apart the two ends of each thread are, in the drawing's units: 0 is upright. */
const leans = (page: Page): Promise<number[]> =>
  page
    .locator(".threads")
    .first()
    .locator(".thread-line")
    .evaluateAll((lines) =>
      lines.map((line) => {
        const n = (line.getAttribute("d") ?? "").match(/-?[\d.]+/g)?.map(Number) ?? [];
        return Math.abs((n.at(-2) ?? Number.NaN) - (n[0] ?? Number.NaN));
      }),
    );
/** As long as a busy machine may take. */
const SOON = { timeout: 10_000 };
/** Whether any two threads cross: the order above is another than the order below. */
const crossed = (page: Page): Promise<number> =>
  page.locator(".threads").first().locator(".is-wrong").count();

it("goes from the hat on the wrong side to upright threads and back", async () => {
  const user = await toImage();
  const { page } = user;
  await states(page, "Reversed for Mara: 7 of 8 on the wrong side");
  const hat = (await imageRows(page, "Mara")).find((r) => r.name.startsWith("Hat"));
  expect(hat).toMatchObject({ stands: "left", heard: "right" });
  expect(await crossed(page)).toBe(7);
  const before = await leans(page);

  expect(await verdict(page)).toMatch(/^Patch Drums in reverse/);
  await unfold(page, "Step by step");
  expect(await repair(page).textContent()).toContain(
    "Patch the left leg of Drums into slot 2 and the right leg into slot 1.",
  );
  await unfold(page, "What would change this");
  await page
    .getByText(/faced the other way/)
    .first()
    .waitFor();
  await tap(page.getByRole("button", { name: "Show afterwards" }).first());
  await page.getByText(/^Afterwards: Right for Mara/).waitFor();
  await states(page, "Reversed for Mara");

  await tap(page.getByRole("button", { name: "Do it" }).first());
  await states(page, "Right for Mara: every side agrees");
  await expect.poll(() => crossed(page), SOON).toBe(0);
  const after = await leans(page);
  expect(Math.max(...after)).toBeLessThan(Math.max(...before) / 2);
  expect((await imageRows(page, "Mara")).find((r) => r.name.startsWith("Hat"))).toMatchObject({
    stands: "left",
    heard: "left",
  });
  await go(page, "patch");
  expect(await page.locator(".slot > summary").first().textContent()).toContain("Drums R");
  await go(page, "image");
  await tap(page.getByRole("button", { name: /^Undo/ }).first());
  await states(page, "Reversed for Mara: 7 of 8 on the wrong side");
  await expect.poll(() => crossed(page), SOON).toBe(7);
  expect(await axeFindings(page)).toEqual([]);
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("two negations cancel: a left-handed drummer needs no repair", async () => {
  const user = await toImage();
  const { page } = user;
  await tap(page.getByText("Left-handed", { exact: true }));
  await states(page, /^(Right|Mixed up) for Mara/);
  const rows = await imageRows(page, "Mara");
  const drums = rows.filter((r) => !r.name.startsWith("Overhead"));
  expect(drums.filter((r) => r.stands !== "middle" && r.stands !== r.heard)).toEqual([]);
  await page.getByLabel("As heard by").selectOption({ label: "Audience" });
  await states(page, /audience/);
  const house = (await imageRows(page, "Audience")).find((r) => r.name.startsWith("Hat"));
  expect(house).toMatchObject({ stands: "left", heard: "right" });
  await page.getByText("To look at in the house").waitFor();
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("recommends something else when the music director matters most", async () => {
  const user = await toImage();
  const { page } = user;
  const first = await verdict(page);
  await page.getByLabel("As heard by").selectOption({ label: "Ines, music director" });
  await states(page, "Right for Ines");
  await unfold(page, "Rules for the repair");
  await page.getByLabel("Who matters most").selectOption({ label: "Ines, music director" });
  const ines = page.locator("li.card", { hasText: "Ines" });
  await tap(ines.locator("summary"));
  await typeKeys(ines.getByRole("textbox", { name: /from facing the audience/ }), "0");
  await states(page, "Reversed for Ines");
  await expect.poll(() => verdict(page), SOON).not.toBe(first);
  expect(await verdict(page)).toBe("Patch Drums in reverse");
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("moves a piece by finger, by keys and by typed metres, and the threads follow", async () => {
  const user = await toImage();
  const { page } = user;
  const hat = page.getByRole("button", { name: /^Hat: / });
  const said = () => hat.getAttribute("aria-label");
  expect(await said()).toContain("0.50 m left");
  await hat.scrollIntoViewIfNeeded();
  const box = await hat.locator(".mark-body").boundingBox();
  if (!box) throw new Error("no hat on the plan");
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 20, y, { steps: 4 });
  await page.mouse.move(x + 140, y, { steps: 8 });
  await page.mouse.up();
  await expect.poll(said, SOON).toMatch(/Hat: 0\.\d+ m right/);
  await hat.focus();
  const right = Number(/(\d\.\d+) m right/.exec((await said()) ?? "")?.[1]);
  await hat.press("ArrowRight");
  await expect.poll(said, SOON).toContain(`${(right + 0.05).toFixed(2)} m right`);
  await unfold(page, "Pieces and their places, typed");
  await page.locator("details.card summary", { hasText: /^Hat/ }).click();
  await typeKeys(
    page.getByRole("textbox", { name: "Right of the throne, m" }).locator("visible=true"),
    "-0,4",
  );
  await expect.poll(said, SOON).toContain("0.40 m left");
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("is at once with reduced motion, and the turned pair is said", async () => {
  const user = await phone(browser, { reducedMotion: "reduce" });
  const { page } = user;
  await visit(user, site, "#image");
  const swap = page.getByRole("button", { name: /^Patch Drums in reverse/ }).first();
  await swap.waitFor();
  const before = await leans(page);
  await tap(swap);
  await states(page, "Right for Mara");
  expect(await page.locator("[role=status] h1").textContent()).toContain("Right for Mara");
  const now = await leans(page);
  await page.waitForTimeout(600);
  expect(await leans(page)).toEqual(now);
  expect(now).not.toEqual(before);
  await user.context.close();
});
