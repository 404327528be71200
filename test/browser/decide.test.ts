import { expect, it } from "vitest";
import { bestPlan } from "../../src/core/allocate/plans";
import { problemOf } from "../../src/core/allocate/problem";
import { patchIssues } from "../../src/core/inputs/issues";
import { readName } from "../../src/core/inputs/names";
import { BLANK_CHANNEL } from "../../src/core/model/defaults";
import { blankSetup } from "../../src/document/blank";
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

it("thirty channels are decided: three plans, a pin, and a patch that leaves nobody out", async () => {
  const setup = show();
  expect(setup.channels).toHaveLength(30);
  const user = await phone(browser);
  const { page } = user;
  await openAt(page, site, "setups");
  await takeIn(page, printSetup(setup));
  await go(page, "patch");
  await page.getByRole("link", { name: "Decide what goes where" }).first().click();
  await states(page, "30 channels, 16 monitor inputs");
  expect(new URL(page.url()).hash).toBe("#decide");

  const plans = page.locator(".plans > section");
  expect(await plans.count()).toBe(3);
  const pictures = await Promise.all([0, 1, 2].map((i) => shown(plans.nth(i).locator(".blocks"))));
  expect(new Set(pictures).size).toBe(3);
  for (const picture of pictures) expect(picture).toMatch(/Lead vox/);
  expect(await axeFindings(page)).toEqual([]);
  expect(await reachesOut(page)).toEqual([]);

  // BV 2 is pinned as a channel by itself, then the lead where it stands.
  await unfold(page, "Pins");
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
  await page.getByText(/^One input more \(17\)/).waitFor();
  expect(await axeFindings(page)).toEqual([]);

  await plans.first().getByRole("button", { name: "Apply to plan: Best" }).click();
  await page.getByText(/^Plan applied\. \d+ things to set at the desk\.$/).waitFor();
  await settled(page);
  const read = readSetupText(await stored(page));
  if (!read.ok) throw new Error(read.why);
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
