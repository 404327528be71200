import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { go, reachesOut, states, unfold, visit } from "./hall";
import { settled } from "./hands";
import { axeFindings, drawn, type Phone, phoneWithCopy } from "./harness";
import { fromAfar, readQr } from "./paper";
import { browser, site } from "./stage";

const isWhole = async (page: Page): Promise<void> => {
  expect(await axeFindings(page)).toEqual([]);
  expect(await reachesOut(page)).toEqual([]);
};

/** A phone that was here once, and has no network now. */
const offline = async (place: string): Promise<Phone> => {
  const user = await phoneWithCopy(browser);
  await visit(user, site, place);
  await user.context.setOffline(true);
  return user;
};

const linkOf = async (page: Page): Promise<string> => page.getByLabel(/^The link, /).inputValue();

/** Every code that is shown, read from a picture of the screen, 200 px wide and blurred. */
const codesOf = async (page: Page): Promise<string[]> => {
  await page.getByRole("button", { name: /^Show/ }).click();
  const dialog = page.locator("dialog.codes");
  await dialog.waitFor();
  const count = Number(/of (\d+)/.exec((await dialog.locator("h2").textContent()) ?? "")?.[1] ?? 1);
  const texts: string[] = [];
  for (let at = 1; at <= count; at += 1) {
    await dialog.getByText(count === 1 ? "Code" : `Code ${at} of ${count}`, { exact: true }).waitFor();
    const far = await fromAfar(page, await page.screenshot(), 200, 1);
    texts.push(await readQr(far));
    if (count > 1) await dialog.getByRole("button", { name: "Next code" }).click();
  }
  await isWhole(page);
  await dialog.getByRole("button", { name: "Close" }).click();
  await dialog.waitFor({ state: "detached" });
  return texts;
};

const openCode = async (page: Page, code: string): Promise<void> => {
  // A camera opens a link as a page of its own.
  await page.goto("about:blank");
  await page.goto(code);
  await drawn(page);
};

it("goes over by codes read from afar, and comes back by codes, with no network", async () => {
  const [first, helper] = [await offline("#check"), await offline("#channels")];
  const one = first.page;
  const two = helper.page;
  await one.getByRole("button", { name: "Guitar no signal" }).click();
  await settled(one);
  await unfold(one, "Hand over to a helper’s phone");
  const link = await linkOf(one);
  await isWhole(one);
  const codes = await codesOf(one);
  expect(codes.length).toBeGreaterThan(1);
  expect(codes.length).toBeLessThanOrEqual(7);

  // In any order; what has come so far is kept.
  for (const [at, code] of [...codes].reverse().entries()) {
    await openCode(two, code);
    if (at < codes.length - 1) await states(two, `${at + 1} of ${codes.length} codes read`);
  }
  await states(two, "Help with “");
  await two.getByLabel("Your name, for ticks on this device").fill("Ada");
  await isWhole(two);
  await two.getByRole("button", { name: "Open it to help" }).click();

  // Whatever the address, there is nothing to edit.
  await states(two, "Line check");
  await isWhole(two);
  for (const place of ["channels", "headroom", "decide"]) {
    await two.evaluate((to) => {
      location.hash = to;
    }, place);
    await states(two, "Line check");
    // The only choice is where the lines are checked.
    expect(await two.locator("main :is(input, select, textarea)").count()).toBe(1);
    expect(await two.getByLabel("Checked at").count()).toBe(1);
  }
  const guitar = two.locator(".line-check li", { hasText: "Guitar" });
  expect(await guitar.locator(".who").textContent()).toMatch(/^No signal: \d\d:\d\d$/);
  await two.getByRole("button", { name: "Guitar OK" }).click();
  await two.getByRole("link", { name: "Desk list" }).click();
  await states(two, /^(\d+) of \1 controls to set$/);
  await two.locator(".desk-list input").first().check();
  await isWhole(two);
  await two.getByRole("link", { name: "Trace" }).click();
  await states(two, "Who can’t hear what?");
  await isWhole(two);
  await settled(two);

  // The phone was off, and is the helper's view again.
  await two.reload();
  await drawn(two);
  await two.getByRole("link", { name: "Send ticks" }).click();
  await states(two, "2 ticks to send");
  await two.getByText("By Ada: 1 of the line check and 1 of the desk list.").waitFor();
  await isWhole(two);
  const back = await codesOf(two);

  // The first phone ticked meanwhile.
  await one.getByRole("button", { name: "Bass OK" }).click();
  await settled(one);
  for (const code of back) await openCode(one, code);
  await states(one, "Merge ticks into “");
  await one.getByText("By Ada: 1 of the line check and 1 of the desk list.").waitFor();
  await isWhole(one);
  await one.getByRole("button", { name: "Merge" }).click();
  await one.getByText("2 ticks merged").waitFor();
  const who = (name: string) =>
    one.locator(".line-check li", { hasText: name }).locator(".who").textContent();
  expect(await who("Guitar")).toMatch(/^OK: Ada, \d\d:\d\d; no signal: \d\d:\d\d$/);
  expect(await who("Bass")).toMatch(/^OK: \d\d:\d\d$/);
  await go(one, "desk");
  await states(one, /^\d+ of \d+ controls to set$/);
  expect(await one.locator(".desk-list .who").allInnerTexts()).toEqual([
    expect.stringMatching(/^Set: Ada, /),
  ]);
  await settled(one);

  // A second time there is nothing new, and on a third phone nowhere to put them.
  for (const code of back) await openCode(one, code);
  await one.getByRole("button", { name: "Merge" }).click();
  await one.getByText("Nothing new: these ticks are here already").waitFor();
  for (const code of back) await openCode(two, code);
  await states(two, /^These ticks are for “.*”, which is not on this device$/);
  expect(link.length).toBeGreaterThan(200);
  expect([...first.faults, ...helper.faults]).toEqual([]);
  await first.context.close();
  await helper.context.close();
});
