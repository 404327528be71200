import { expect, it } from "vitest";
import { bestPlan } from "../../src/core/allocate/plans";
import { problemOf } from "../../src/core/allocate/problem";
import { patchIssues } from "../../src/core/inputs/issues";
import { readName } from "../../src/core/inputs/names";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import { blankSetup } from "../../src/document/blank";
import { exampleSetup } from "../../src/document/example";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { go, inputs, reachesOut, shown, states, takeIn, unfold } from "./hall";
import { openAt, settled, stored } from "./hands";
import { axeFindings, phone } from "./harness";
import { browser, site } from "./stage";

/** A hall's soul band with its guests, invented: thirty channels, nothing patched. */
const NAMES: readonly string[] = [
  ...["Kick In", "Kick Out", "Snare Top", "Snare Btm", "Hat", "Tom 1", "Tom 2", "Floor tom", "OH L", "OH R"],
  ...["Congas", "Bass DI", "Bass amp", "Guitar 1", "Guitar 2", "Keys", "Organ", "Trumpet", "Trombone", "Sax"],
  ...[
    "Lead vox",
    "BV 1",
    "BV 2",
    "BV 3",
    "Playback",
    "Click",
    "Talkback",
    "Host",
    "Room mic",
    "Reverb return",
  ],
];

const show = (): SetupFile => ({
  ...blankSetup("Thirty"),
  channels: NAMES.map((name, i) => ({
    ...BLANK_CHANNEL,
    id: `s${i + 1}`,
    name,
    kind: readName(name).kind,
    numbers: [i + 1],
  })),
});

it("thirty lines are pasted and decided: three plans, a pin, and a patch that leaves nobody out", async () => {
  const user = await phone(browser);
  const { page } = user;
  await openAt(page, site, "setups");
  await takeIn(page, printSetup(blankSetup("Thirty")));
  await go(page, "channels");
  await unfold(page, "Add channels");
  await page.getByLabel("One channel per line").focus();
  // At once, as a paste comes.
  await page.keyboard.insertText(NAMES.map((name, i) => `${i + 1} ${name}`).join("\n"));
  await page.getByRole("button", { name: /^Add \d+ channels$/ }).click();
  await go(page, "patch");
  await page.getByRole("link", { name: "Decide what goes where" }).first().click();
  await states(page, "30 channels, 16 monitor inputs");
  expect(new URL(page.url()).hash).toBe("#decide");
  const notYet = page.getByText("The patch matches none of these plans yet.");
  await notYet.waitFor();

  const plans = page.locator(".plans > section");
  expect(await plans.count()).toBe(3);
  const pictures = await Promise.all([0, 1, 2].map((i) => shown(plans.nth(i).locator(".blocks"))));
  expect(new Set(pictures).size).toBe(3);
  for (const picture of pictures) expect(picture).toMatch(/Lead vox/);
  expect(await axeFindings(page)).toEqual([]);
  expect(await reachesOut(page)).toEqual([]);

  // What cannot be is said, and taken back.
  await unfold(page, "Pins");
  const click = page.getByLabel("Click", { exact: true });
  await click.selectOption({ label: "Fold-back" });
  await states(page, "No plan keeps every pin");
  await page.getByText(/^Click pinned to the fold-back: not possible\./).waitFor();
  expect(await plans.count()).toBe(0);
  await click.selectOption({ label: "Not pinned" });
  await states(page, "30 channels, 16 monitor inputs");

  // BV 2 is pinned as a channel by itself, then the lead where it stands.
  await page.getByLabel("BV 2", { exact: true }).selectOption({ label: "Input of its own" });
  const own = plans
    .first()
    .locator(".blocks > li")
    .filter({ hasText: /In \d+ BV 2/ });
  await own.waitFor();
  const lead = plans.first().getByRole("button", { name: /^In \d+ Lead vox/ });
  const stands = await shown(lead);
  await lead.click();
  await plans.first().locator("[aria-pressed=true]").filter({ hasText: "Lead vox" }).waitFor();
  await unfold(page, "What if");
  for (const says of [
    /^One more input \(17\): /,
    /^One fewer input \(15\): /,
    /^A second system \(32 inputs\): /,
  ])
    await page.getByText(says).waitFor();
  for (const says of [/^Two drummers: /, /^Mono packs only: /]) await page.getByText(says).waitFor();
  expect(await axeFindings(page)).toEqual([]);

  await plans.first().getByRole("button", { name: "Apply to plan: Best" }).click();
  await page.getByText(/^Plan applied\. \d+ things to set at the desk\.$/).waitFor();
  await expect.poll(() => notYet.count()).toBe(0);
  await settled(page);
  const read = readSetupText(await stored(page));
  if (!read.ok) throw new Error(read.why.code);
  const issues = patchIssues(read.file);
  const left = bestPlan(problemOf(read.file, { channels: new Map(), buses: [] }))?.leftOut ?? [];
  expect(left).toEqual([]);
  expect(issues.filter(({ severity }) => severity !== "note")).toEqual([]);
  expect(issues.filter(({ code }) => code === "unfed channel")).toEqual([]);

  await page.getByRole("link", { name: "Back to Patch" }).click();
  await states(page, /of 16 inputs used, no issues$/);
  const lines = await inputs(page);
  expect(lines.some((line) => line.includes("BV 2"))).toBe(true);
  const at = Number(/\d+/.exec(stands)?.[0]);
  expect(lines[at - 1]).toContain("Lead vox");
  await page.getByRole("button", { name: "Undo: apply plan" }).click();
  await states(page, "No inputs assigned yet");
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("what a channel asks for is changed for one and for several, marked, taken back, and decides", async () => {
  const user = await phone(browser);
  const { page } = user;
  await openAt(page, site, "setups");
  await takeIn(page, printSetup(show()));
  await go(page, "decide");
  await states(page, "30 channels, 16 monitor inputs");
  const first = page.locator(".plans > section").first();
  const apart = (name: string) => first.getByRole("button", { name: new RegExp(`^In \\d+ ${name}`) });
  const rules = page.locator("details", { has: page.getByLabel("Rules for", { exact: true }) });
  const title = rules.locator("summary").first();
  await apart("BV 2").waitFor();
  expect(await apart("Trumpet").count()).toBe(0);

  // The first channel, with what its kind asks for and why.
  await unfold(page, "Rules");
  await rules.getByText("Kick: Everybody keeps time by it: an input of its own if one is left.").waitFor();
  const of = page.getByLabel("Rules for", { exact: true });
  const own = page.getByLabel(/^Input of its own/);
  expect(await shown(own.locator("option:checked"))).toBe("Default: if inputs are left");

  // A kind at once: the horns come apart, the backing vocals share for it.
  await of.selectOption({ label: "Kind: Horn (3)" });
  await own.selectOption({ label: "Prefer" });
  await apart("Trumpet").waitFor();
  expect(await apart("BV 2").count()).toBe(0);
  expect(await shown(title)).toBe("Rules · 3 channels changed");
  await page.getByLabel("Input of its own · changed", { exact: true }).waitFor();

  // One of them back: now they differ.
  await page.getByRole("button", { name: "Back to default: Sax" }).click();
  expect(await shown(title)).toBe("Rules · 2 channels changed");
  expect(await shown(own.locator("option:checked"))).toBe("Different");

  // Some of several kinds, beginning with those shown.
  await of.selectOption({ label: "Channels to tick" });
  await page.getByRole("checkbox", { name: "Trombone", exact: true }).uncheck();
  await page.getByRole("checkbox", { name: "Sax", exact: true }).uncheck();
  await page.getByRole("checkbox", { name: "Room mic", exact: true }).check();
  await page
    .getByLabel(/^Must reach/)
    .first()
    .selectOption({ label: "Only those ticked" });
  await page.getByRole("group", { name: "Must reach" }).getByRole("checkbox").first().waitFor();
  await page.getByLabel("Direct out tap point", { exact: true }).selectOption({ label: "Pre-EQ" });
  expect(await shown(title)).toBe("Rules · 3 channels changed");
  expect(await axeFindings(page)).toEqual([]);
  expect(await reachesOut(page)).toEqual([]);
  await settled(page);
  const read = readSetupText(await stored(page));
  if (!read.ok) throw new Error(read.why.code);
  const drummer = read.file.listeners.find(({ kind }) => kind === "drummer")?.id;
  const ruleOf = (name: string) => read.file.channels.find((c) => c.name === name)?.rule;
  expect(ruleOf("Trumpet")).toEqual({ own: "prefer", reach: [drummer], tap: "pre-eq" });
  expect(ruleOf("Room mic")).toEqual({ reach: [drummer], tap: "pre-eq" });
  expect(ruleOf("Trombone")).toEqual({ own: "prefer" });

  // Undo goes back one change, and all of them at once.
  await page.getByRole("button", { name: "Undo: change rules" }).click();
  await rules.getByText("Room mic: must reach:").waitFor();
  const plan = await shown(first);
  await page.getByRole("button", { name: "All back to default" }).click();
  await page.getByText("Rules of 3 channels are back to default").waitFor();
  await apart("BV 2").waitFor();
  expect(await shown(title)).toBe("Rules");
  await page.getByRole("button", { name: "Undo: reset rules" }).click();
  await expect.poll(() => shown(title)).toBe("Rules · 3 channels changed");
  await expect.poll(() => shown(first)).toBe(plan);
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("with two inputs too few the ways to free some are read, one is taken, and undo takes it back", async () => {
  const example = exampleSetup();
  const { monitor } = example;
  const user = await phone(browser);
  const { page } = user;
  await openAt(page, site, "setups");
  await takeIn(page, printSetup({ ...example, monitor: { ...monitor, inputCount: 13 } }));
  await go(page, "patch");
  await states(page, "2 feeds too many for 13 inputs");
  const ways = page.locator("section", { has: page.getByRole("heading", { name: "Ways to free inputs" }) });
  const titles = ways.getByRole("heading", { level: 3 });
  await titles.first().waitFor();
  // What must be freed, differently, then one and two more.
  expect(await titles.allInnerTexts()).toEqual([
    "Free 2 inputs",
    "Free 2 inputs",
    "Free 3 inputs",
    "Free 4 inputs",
  ]);
  const first = ways.locator("ol > li").first();
  await first.getByText("Mix Trumpet and Saxophone to a new mono bus, “Horn bus”.").waitFor();
  expect(await axeFindings(page)).toEqual([]);
  expect(await reachesOut(page)).toEqual([]);

  await first.getByRole("button", { name: "Apply to plan" }).click();
  await page.getByText(/^Plan changed\. \d+ things to set at the desk\.$/).waitFor();
  await states(page, /^13 of 13 inputs used, 3 buses short of headroom$/);
  expect(await ways.count()).toBe(0);
  expect((await inputs(page)).some((line) => line.includes("Horn bus"))).toBe(true);
  await page.getByRole("button", { name: "Undo: free inputs" }).click();
  await states(page, "2 feeds too many for 13 inputs");
  await titles.first().waitFor();
  expect(user.faults).toEqual([]);
  await user.context.close();
});
