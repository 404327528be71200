import { expect, it } from "vitest";
import { go, shown, states } from "./hall";
import { openAll, openAt, tabTo } from "./hands";
import { phone, typeKeys } from "./harness";
import { browser, site } from "./stage";

const HELP = [
  ["kit", "What level, peak and send mean", /send × pan law × trims/],
  ["image", "What counts as the right side", /20 lg\(R \/ L\).* Mills 1960/],
  ["sum", "How headroom is counted", /Ceiling minus likely peak/],
  ["patch", "What the patch is checked for", /20 lg 2 = 6\.02 dB/],
  ["check", "How it finds the fault", /chance of each answer/],
] as const;

it.each(HELP)(
  "%s explains its figures in place, by keyboard, with the source",
  async (place, about, says) => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, place);
    const help = page.locator("details.explain", { hasText: about });
    const text = help.locator("> div");
    await help.waitFor();
    expect(await text.isVisible()).toBe(false);
    await tabTo(page, about);
    await page.keyboard.press("Enter");
    await expect.poll(() => shown(text)).toMatch(/Source: \S/);
    expect((await shown(text)).replace(/\s+/g, " ")).toMatch(says);
    await page.keyboard.press("Enter");
    await expect.poll(() => text.isVisible()).toBe(false);
    await context.close();
  },
);

it("no explanation leaves its source out", async () => {
  const { page, context } = await phone(browser);
  await openAt(page, site, "patch");
  await typeKeys(page.getByLabel("Slots of the monitor system", { exact: true }), "12");
  await states(page, "2 feeds too many for 12 slots");
  let seen = 0;
  for (const [place] of HELP) {
    await go(page, place);
    await openAll(page);
    const all = await page.locator("main details.explain").allTextContents();
    seen += all.length;
    expect(all.filter((text) => !/Source\b[^.:]*: /.test(text))).toEqual([]);
  }
  expect(seen).toBeGreaterThan(HELP.length + 3);
  await context.close();
});
