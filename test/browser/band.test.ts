import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Locator } from "playwright-core";
import { expect, it } from "vitest";
import { evaluate } from "../../src/core/evaluate";
import { patchIssues } from "../../src/core/inputs/issues";
import { formatNumber } from "../../src/core/lib/number";
import { printSetup, readSetupText } from "../../src/document/read-setup";
import { packed } from "../shelf/forged";
import { go, keepIt, states, takeIn, unfold, visit } from "./hall";
import { settled, stored } from "./hands";
import { phoneWithCopy } from "./harness";
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
  const user = await phoneWithCopy(browser);
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
  await tap(page.getByLabel("One channel per line"));
  await page.keyboard.type(LINES.join("\n"));
  await tap(page.getByRole("button", { name: `Add ${ADDED} channels` }));
  await page.getByText(`All channels (${8 + ADDED})`).waitFor();

  // The drums have their bus from the start; its numbers are typed.
  await tap(page.getByRole("link", { name: "Headroom" }));
  await tap(page.getByText("trims and output chain"));
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
  if (!read.ok) throw new Error(read.why.code);
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

/** A hall's input list, invented, as it is kept in a spreadsheet: what is set at the desk and on the stage, no bus, no level. */
const INPUT_LIST = [
  "Ch\tName\tMic\tStand\t48V\tNotes",
  "1\tKick in\tboundary\t\tY\t",
  "2\tKick out\tdynamic\tshort boom\t\t",
  "3\tSnr Top\tdynamic\tclip\t\ttaped",
  "4\tHH\tcondenser\tshort boom\tY\t",
  "5\tRack 1\tdynamic\tclip\t\t",
  "6\tFloor\tdynamic\tclip\t\t",
  "7\tOH SR\tcondenser\ttall boom\tY\t",
  "8\tOH SL\tcondenser\ttall boom\tY\t",
  "9\tCongas\tdynamic\tboom\t\tguest",
  "12\tBass\tDI\t\t\t",
  "13\tKeys L\tDI\t\t\t",
  "14\tKeys R\tDI\t\t\t",
  "17\tLead vox\tdynamic\tboom\t\t",
  "21\tClick\t\t\t\t",
];

it("a stage's input list, which names no bus, brings its drums into the drum bus, and says so before", async () => {
  const user = await phoneWithCopy(browser);
  const { page } = user;
  await visit(user, site, "#channels");
  await page.getByRole("button", { name: "Start your own" }).click();
  await page.getByRole("button", { name: "Start with 8 microphones" }).click();
  await page.getByRole("link", { name: "Patch" }).click();
  await unfold(page, "Input list from or to a spreadsheet");
  await page.getByLabel("Or paste rows from a spreadsheet").fill(INPUT_LIST.join("\n"));
  await page.getByRole("button", { name: "Read pasted rows" }).click();
  await page.getByText("Remove them", { exact: true }).click();
  const sent = page.getByLabel("Send new drums and percussion to Drums");
  const preview = page.getByLabel("What changes");
  const congas = preview.locator("li", { hasText: "Congas" });
  await expect.poll(() => congas.textContent()).toContain("Drums post-fader, 0 dB");
  await sent.uncheck();
  await expect.poll(() => congas.textContent()).not.toContain("Drums");
  await sent.check();
  await page.getByRole("button", { name: "Import 13 channels" }).click();
  await page.getByText("13 channels imported").waitFor();
  await settled(page);
  const read = readSetupText(await stored(page));
  if (!read.ok) throw new Error(read.why.code);
  const { buses, channels } = read.file;
  const nameOf = (id: string) => channels.find((c) => c.id === id)?.name ?? "";
  expect(buses.map(({ name }) => name)).toEqual(["Drums"]);
  const inside = buses[0]?.sends.map((s) => nameOf(s.channel)) ?? [];
  const drums = ["Kick in", "Kick out", "Snr Top", "HH", "Rack 1", "Floor", "OH SR", "OH SL", "Congas"];
  expect([...inside].sort()).toEqual([...drums].sort());
  expect(channels.find((c) => c.name === "OH SR")).toMatchObject({ numbers: [7], pan: -1, kind: "drum" });
  expect(channels.find((c) => c.name === "Keys")).toMatchObject({ numbers: [13, 14], lines: 2 });
  // Nobody knows how loud any of it is: the headline says what is missing.
  await go(page, "headroom");
  await states(page, "No peaks entered for Drums");
  expect(user.faults).toEqual([]);
  await user.context.close();
});

const VERSION_2 = readFileSync(join(import.meta.dirname, "../fixtures/setup-v2.json"), "utf8");

it.each(["file", "link"])("a setup of version 2 opens by %s with its figures", async (way) => {
  const user = await phoneWithCopy(browser);
  const { page } = user;
  const read = readSetupText(VERSION_2);
  if (!read.ok) throw new Error(read.why.code);
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
