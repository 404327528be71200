import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";
import { expect, it } from "vitest";
import { evaluate } from "../../src/core/evaluate";
import { patchIssues } from "../../src/core/inputs/issues";
import { formatNumber } from "../../src/core/lib/number";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import { packed } from "../shelf/forged";
import { go, keepIt, states, takeIn, visit } from "./hall";
import { settled, stored } from "./hands";
import { phone } from "./harness";
import { textOf } from "./paper";
import { browser, site } from "./stage";

/** A hall's soul band with its guests behind eight drum microphones, invented, as people write a list; L and R are one channel. */
const LINES = [
  "9 Bass DI",
  "10 Gtr L",
  "11 Gtr R",
  "12-13 Keys",
  "14 Tpt",
  "15 Tbn",
  "16 Sax",
  "17 Lead vox",
  "18 BV 1",
  "19 BV 2",
  "20 BV 3",
  "21 Click",
  "22-23 Playback",
  "24 Talkback",
  "25 Host speech",
  "26 Room mic",
  "27-28 Video",
];
const ADDED = LINES.length - 1;

it("a band of one's own is entered, decided and on paper in at most forty taps and typing", async () => {
  const user = await phone(browser);
  const { page } = user;
  let taps = 0;
  const tap = async (what: Locator): Promise<void> => {
    taps += 1;
    await what.click();
  };
  await visit(user, site, "#channels");
  await tap(page.getByRole("button", { name: "Start your own" }));
  await tap(page.getByRole("button", { name: "Start with 8 microphones" }));
  await tap(page.getByRole("link", { name: "Channels" }));
  await tap(page.getByText("Add channels", { exact: true }));
  await tap(page.getByLabel("One channel a line"));
  await page.keyboard.type(LINES.join("\n"));
  await tap(page.getByRole("button", { name: `Add ${ADDED} channels` }));
  await page.getByText(`All channels (${8 + ADDED})`).waitFor();

  // The drums have their bus from the start; its numbers are typed.
  await tap(page.getByRole("link", { name: "Headroom" }));
  await tap(page.getByText("trims, sides"));
  await tap(page.getByLabel("Bus number", { exact: true }));
  await page.keyboard.type("5");
  await page.keyboard.press("Enter");
  await tap(page.getByLabel("Bus number of R", { exact: true }));
  await page.keyboard.type("6");
  await page.keyboard.press("Enter");

  await tap(page.getByRole("link", { name: "Patch" }));
  await tap(page.getByRole("link", { name: "Decide what goes where" }).first());
  await tap(page.getByRole("button", { name: "Apply to plan: Best" }));
  await tap(page.getByRole("link", { name: "Back to Patch" }));
  await tap(page.getByText("Patch sheet for the desk"));
  await page.getByRole("button", { name: "Print the sheet" }).waitFor();
  expect(taps).toBeLessThanOrEqual(40);

  // Nobody is left out, and the sheet says where everything comes from.
  await settled(page);
  const read = readSetupText(await stored(page));
  if (!read.ok) throw new Error(read.why);
  const { buses, channels, monitor } = read.file;
  expect(channels).toHaveLength(8 + ADDED);
  expect(patchIssues(read.file).filter(({ code }) => code === "unfed channel")).toEqual([]);
  expect(monitor.inputs.filter((input) => input !== null).length).toBeGreaterThan(12);
  const foldBack = buses.find((bus) =>
    bus.sends.some((send) => send.channel === channels.find((c) => c.name === "Room mic")?.id),
  );
  expect(foldBack?.name).toBe("Fold-back");
  for (const format of ["A4", "Letter"]) {
    const text = textOf(await page.pdf({ format })).replace(/\s+/g, " ");
    for (const [index, input] of monitor.inputs.entries()) {
      if (!input) continue;
      const { feed, port } = input;
      const from =
        feed.kind === "bus"
          ? buses.find((b) => b.id === feed.bus)
          : channels.find((c) => c.id === feed.channel);
      expect(port, `port of input ${index + 1}`).not.toBeNull();
      expect(text).toContain(`Out ${port}`);
      expect(text).toContain(from?.name);
      if (feed.kind === "channel")
        expect(text).toMatch(new RegExp(`Ch ${from?.numbers[feed.side === "right" ? 1 : 0]}\\b`));
    }
    expect(text).toMatch(/Bus 5\b/);
    expect(text).toMatch(/Bus 6\b/);
    expect(text).toContain("Bus 5–6 Drums, stereo");
  }
  expect(user.faults).toEqual([]);
  await user.context.close();
});

const VERSION_2 = readFileSync(join(import.meta.dirname, "../fixtures/setup-v2.json"), "utf8");

it.each(["file", "link"])("a setup of version 2 opens by %s with its figures", async (way) => {
  const user = await phone(browser);
  const { page } = user;
  const read = readSetupText(VERSION_2);
  if (!read.ok) throw new Error(read.why);
  if (way === "file") {
    await visit(user, site, "#setups");
    await takeIn(page, VERSION_2);
  } else {
    await page.goto(`${site.url}${packed(VERSION_2)}`);
    await states(page, "Import “");
    await keepIt(page);
  }
  // The example on the shelf has its name.
  const name = `${read.file.name} 2`;
  await expect.poll(async () => JSON.parse(await stored(page)).name).toBe(name);
  expect(JSON.parse(await stored(page))).toEqual(JSON.parse(printSetup({ ...read.file, name })));
  // What these figures were before stands in frozen-figures.test.ts; here they are what the screen shows.
  const [bus] = read.file.buses;
  const figures = bus && evaluate(read.file).buses.get(bus.id);
  if (!figures) throw new Error("no bus");
  await go(page, "headroom");
  const row = page.locator("tr", { has: page.getByRole("rowheader", { name: "Likely peak" }) }).first();
  await expect
    .poll(async () => (await row.locator("td").allInnerTexts()).slice(0, 2))
    .toEqual(figures.sides.map(({ likely }) => formatNumber(likely, 1)));
  expect(user.faults).toEqual([]);
  await user.context.close();
});
