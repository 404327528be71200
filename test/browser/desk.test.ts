import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { readName } from "../../src/core/inputs/names";
import { chainOf, traceOn } from "../../src/core/inputs/trace";
import type { LinkCode, TraceLink } from "../../src/core/inputs/trace-links";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import { blankSetup } from "../../src/document/blank";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { describeLook } from "../../src/text/trace-links";
import { go, reachesOut, states, takeIn, unfold, visit } from "./hall";
import { settled, stored } from "./hands";
import { axeFindings, drawn, phoneWithCopy } from "./harness";
import { browser, site } from "./stage";

/** A hall's soul band, invented: twelve channels, nothing patched. */
const NAMES = [
  ...["Kick", "Snare", "Hat", "OH L", "OH R", "Bass", "Guitar", "Keys", "Lead vox", "BV 1"],
  ...["Click", "Talkback"],
];

const band = (): SetupFile => ({
  ...blankSetup("Twelve"),
  channels: NAMES.map((name, i) => ({
    ...BLANK_CHANNEL,
    id: `s${i + 1}`,
    name,
    kind: readName(name).kind,
    numbers: [i + 1],
    directOut: { ...BLANK_CHANNEL.directOut, on: false },
  })),
});

const isWhole = async (page: Page): Promise<void> => {
  expect(await axeFindings(page)).toEqual([]);
  expect(await reachesOut(page)).toEqual([]);
};

/** A link that was tapped in a message: a page of its own. */
const opens = async (page: Page, link: string): Promise<void> => {
  await page.goto("about:blank");
  await page.goto(link);
  await drawn(page);
};

const FORGOTTEN: LinkCode = "feed";

/** The looks that lead to the forgotten switch, by where they send somebody, and what is seen there. */
const looksFor = (file: SetupFile, chain: readonly TraceLink[]): [where: string, answer: string][] => {
  const culprit = chain.findIndex((l) => l.code === FORGOTTEN);
  const looks: { link: LinkCode; said: "signal" | "no signal" }[] = [];
  for (;;) {
    const { next } = traceOn(chain, looks);
    const at = chain.findIndex((l) => l.code === next);
    if (at < 0) break;
    looks.push({ link: chain[at]?.code ?? FORGOTTEN, said: at < culprit ? "signal" : "no signal" });
  }
  return looks.map(({ link, said }) => [
    describeLook(file, chain.find((l) => l.code === link) as TraceLink).where,
    said === "signal" ? "Signal" : "No signal",
  ]);
};

it("a plan is applied and set to its last control but one, the trace finds that one, and a helper sets it", async () => {
  const user = await phoneWithCopy(browser);
  const { page } = user;
  await visit(user, site, "#setups");
  await takeIn(page, printSetup(band()));
  await user.context.setOffline(true);
  await go(page, "decide");
  await page.getByRole("button", { name: "Apply to plan: Best" }).click();
  await page.getByRole("link", { name: "What to set at the desk" }).click();

  // Only what the plan changed, to the last control but the direct out of the bass.
  await states(page, /^(\d+) of \1 controls to set$/);
  expect(await page.getByLabel("List", { exact: true }).inputValue()).toBe("change");
  await isWhole(page);
  const bass = page
    .locator(".desk-list li", { hasText: "Ch 6 Bass" })
    .filter({ hasText: /direct out: (off → )?on/ });
  expect(await bass.count()).toBe(1);
  const all = page.locator(".desk-list input");
  for (let at = 0; at < (await all.count()); at += 1) await all.nth(at).check();
  await states(page, /^Everything is set: \d+ controls$/);
  await bass.getByRole("checkbox").uncheck();
  await states(page, /^1 of \d+ controls to set$/);
  await page.getByLabel("Hide what is set").check();
  await expect.poll(() => page.locator(".desk-list li").count()).toBe(1);
  await settled(page);

  // The ticks are there after the phone was off.
  await page.reload();
  await drawn(page);
  await states(page, /^\d+ of \d+ controls to set$/);
  expect(await bass.getByRole("checkbox").isChecked()).toBe(false);
  const snare = page.locator(".desk-list li", { hasText: "Ch 2 Snare" }).first();
  expect(await snare.getByRole("checkbox").isChecked()).toBe(true);

  // The line check finds it, and leads on.
  await go(page, "check");
  await page.getByRole("button", { name: "Bass no signal" }).click();
  await page.getByRole("button", { name: "Trace Bass" }).click();
  await states(page, /^It can be in \d+ places$/);
  await isWhole(page);
  await settled(page);
  const read = readSetupText(await stored(page));
  if (!read.ok || !read.file.trace) throw new Error("no trace is kept");
  const { file } = read;
  const { about, listener } = read.file.trace;
  const chain = chainOf(file, file.listeners.find((l) => l.id === listener) as never, about) ?? [];
  const looks = looksFor(file, chain);
  expect(looks.length).toBeLessThan(chain.length - 1);
  for (const [at, [where, answer]] of looks.entries()) {
    await page.locator(".look-at", { hasText: where }).waitFor();
    // Two touches within a quarter of a second are one.
    await page.waitForTimeout(300);
    await page.getByRole("button", { name: answer, exact: true }).click();
    if (at > 0) continue;
    await settled(page);
    await page.reload();
    await drawn(page);
  }
  await states(page, "Found: Direct out");
  await page.getByText("Switch the direct out of Ch 6 Bass on, ").waitFor();
  await isWhole(page);
  await page.getByRole("button", { name: "Undo answer" }).click();
  await page.locator(".look-at", { hasText: looks.at(-1)?.[0] ?? "" }).waitFor();
  await page.getByRole("button", { name: "End the trace" }).click();
  await states(page, "Who can’t hear what?");

  // A helper’s phone opens the link, sets it and ticks, and the ticks arrive back.
  await go(page, "check");
  await unfold(page, "Hand over to a helper’s phone");
  const helper = await phoneWithCopy(browser);
  await visit(helper, site);
  await helper.context.setOffline(true);
  const other = helper.page;
  await opens(other, await page.getByLabel(/^The link, /).inputValue());
  await states(other, "Help with “Twelve”?");
  await other.getByLabel("Your name, for ticks on this device").fill("Ada");
  await other.getByRole("button", { name: "Open it to help" }).click();
  await states(other, "Line check");
  await other.getByRole("button", { name: "Trace Bass" }).click();
  await states(other, /^It can be in \d+ places$/);
  await other.getByRole("link", { name: "Desk list" }).click();
  await states(other, /^1 of \d+ controls to set$/);
  await other.getByLabel("Hide what is set").check();
  await other.locator(".desk-list input").click();
  await states(other, /^Everything is set: \d+ controls$/);
  await other.getByRole("link", { name: "Line check" }).click();
  await other.getByRole("button", { name: "Bass OK" }).click();
  await other.getByRole("link", { name: "Send ticks" }).click();
  await states(other, "2 ticks to send");
  await opens(page, await other.getByLabel(/^The link, /).inputValue());
  await states(page, "Merge ticks into “Twelve”?");
  await page.getByRole("button", { name: "Merge" }).click();
  await page.getByText("2 ticks merged").waitFor();
  await page.getByText(/^OK: Ada, \d\d:\d\d; no signal: \d\d:\d\d$/).waitFor();
  await go(page, "desk");
  await states(page, /^Everything is set: \d+ controls$/);
  expect([...user.faults, ...helper.faults]).toEqual([]);
  await helper.context.close();
  await user.context.close();
});

it("a trace says what the plan itself stops, what reaches nobody, and what arrives twice", async () => {
  const user = await phoneWithCopy(browser);
  const { page } = user;
  await visit(user, site, "#trace");
  await states(page, "Who can’t hear what?");
  await unfold(page, "Where to look, and why");
  await isWhole(page);
  const start = page.getByRole("button", { name: "Start the trace" });
  const what = page.getByLabel("What", { exact: true });
  const names = await what.locator("option").allInnerTexts();
  expect(names.slice(0, 3)).toEqual(["Everything", "The left side", "The right side"]);
  await start.click();
  await states(page, "It can be in 3 places");
  await page.waitForTimeout(300);
  await page.getByRole("button", { name: "Can’t see" }).click();
  await page.waitForTimeout(300);
  await page.getByRole("button", { name: "Can’t see" }).click();
  await states(page, "It is one of these 3");
  await isWhole(page);
  await page.getByRole("button", { name: "Start again" }).click();
  await states(page, "It can be in 3 places");
  await page.getByRole("button", { name: "End the trace" }).click();
  await page.getByText("Too loud").click();
  await start.click();
  await states(page, /arrives|reaches no monitor input/);
  await isWhole(page);
  expect(user.faults).toEqual([]);
  await user.context.close();
});
