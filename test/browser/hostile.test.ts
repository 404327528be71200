import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { uniqueName } from "../../src/core/model/ids";
import { printSetup } from "../../src/document/read-setup";
import { toFragment } from "../../src/shelf/link";
import { noiseWav } from "../measure/noisewav";
import { alert, choose, downloaded, go, keepIt, states, unfold } from "./hall";
import { drop, openAll, openAt, settled, stored } from "./hands";
import type { Phone } from "./harness";
import { asId, asName, CORPUS, EVERYTHING, HALF, hostileSetup, polluted } from "./hostile";
import { harm, harmless, narrow } from "./hostile-page";
import { WALK_MS } from "./inspect";
import { site } from "./stage";

const SETUP = hostileSetup();

const take = async (page: Page, text: string): Promise<void> => {
  await openAt(page, site, "setups");
  await choose(page, "Import a setup or backup", `${CORPUS[0]}.json`, text);
};

it("the corpus reaches every text field there is", () => {
  const texts: string[] = [];
  JSON.stringify(SETUP, (_, value: unknown) => {
    if (typeof value === "string") texts.push(value);
    return value;
  });
  // Names of pieces, channels, sums and listeners, players, and every id and reference.
  for (const [at, text] of CORPUS.entries()) {
    const forms = [text, asId(text, at)];
    expect(texts.filter((each) => forms.includes(each)).length).toBeGreaterThan(8);
  }
  expect([SETUP.name, SETUP.note, SETUP.recording?.name]).toEqual([EVERYTHING, EVERYTHING, EVERYTHING]);
  expect(texts.filter((text) => /Kick|Drums|Mara|Rehearsal|^[psml]\d+$/.test(text))).toEqual([]);
});

describe("taken in by file, with keys for the prototype in every object", () => {
  let user: Phone;
  beforeAll(async () => {
    user = await narrow();
    await take(user.page, polluted(SETUP));
    await states(user.page, "Import “");
  });
  afterAll(() => user.context.close());

  it("is shown as text before it is kept", async () => {
    await openAll(user.page);
    await user.page.getByText("kit.__proto__: not known here; left out.").waitFor();
    await harmless(user.page, [EVERYTHING]);
    await keepIt(user.page);
    await settled(user.page);
    await expect.poll(async () => JSON.parse(await stored(user.page)).name).toBe(SETUP.name);
    expect(JSON.parse(await stored(user.page))).toEqual(JSON.parse(printSetup(SETUP)));
  });

  it.each([
    ["channels", CORPUS],
    ["image", CORPUS],
    ["headroom", CORPUS],
    ["patch", CORPUS],
    ["check", []],
    ["setups", [EVERYTHING]],
    ["about", []],
  ] as const)(
    "%s shows it as text and is as usable as ever",
    async (place, shows) => {
      const { page } = user;
      await go(page, place);
      if (place === "channels") await page.getByText(/^All channels/).click();
      await openAll(page);
      await harmless(page, shows);
    },
    WALK_MS,
  );

  it("the check asks for such pieces, and the line check lists such names", async () => {
    const { page } = user;
    await go(page, "check");
    await page.locator(".question").waitFor();
    const asked = (await page.locator(".question").textContent()) ?? "";
    expect(CORPUS.some((text) => asked === `Hit the ${text}. Where is it?`)).toBe(true);
    await page.getByRole("button", { name: "Stop" }).click();
    await page.getByText("Line check").waitFor();
    await openAll(page);
    await harmless(page, CORPUS);
  });

  it("the sheet on paper shows it as text", async () => {
    const { page } = user;
    await go(page, "patch");
    await unfold(page, "Patch sheet for the desk");
    await page.getByRole("button", { name: "Print the sheet" }).waitFor();
    await page.emulateMedia({ media: "print" });
    expect(await harm(page)).toEqual([]);
    const paper = await page.locator(".sheet").textContent();
    for (const text of CORPUS.filter((t) => !HALF.test(t))) expect(paper).toContain(text);
    await page.emulateMedia({ media: "screen" });
  });

  it("what goes out is a plain file name, and lists hold no formula", async () => {
    const { page } = user;
    await go(page, "setups");
    await page
      .getByRole("button", { name: /^More for / })
      .first()
      .click();
    const [file] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("button", { name: "Share or download the file" }).first().click(),
    ]);
    expect(file.suggestedFilename()).toMatch(/^[\p{L}\p{M}\p{N}-]+\.hatside\.json$/u);
    await go(page, "patch");
    await unfold(page, "Input list from or to a spreadsheet");
    const csv = await downloaded(page, "Export list as CSV");
    for (const text of ["=1+cmd", "+1+1", "-2+3", "@SUM"]) {
      expect(csv).toContain(`'${text}`);
      expect(csv).not.toMatch(new RegExp(`(^|[,;\\n"])${text.replace(/[+]/g, "\\+")}`));
    }
  });
});

it("by link and by backup it arrives as it is, shown as text", async () => {
  const user = await narrow();
  const { page } = user;
  await page.goto(`${site.url}${await toFragment(SETUP)}`);
  await states(page, "Import “");
  await harmless(page, [EVERYTHING]);
  await keepIt(page);
  await expect.poll(async () => JSON.parse(await stored(page)).name).toBe(SETUP.name);
  expect(JSON.parse(await stored(page))).toEqual(JSON.parse(printSetup(SETUP)));
  const backup = { format: "hatside-backup", version: 1, setups: [SETUP, SETUP], unread: [...CORPUS] };
  await go(page, "setups");
  await choose(page, "Import a setup or backup", "all.json", polluted(backup));
  await states(page, "2 setups to choose from");
  await harmless(page, [EVERYTHING]);
  await page.getByRole("button", { name: "Import 2 setups" }).click();
  await page.getByText("2 setups imported").waitFor();
  await openAll(page);
  await harmless(page, [EVERYTHING, uniqueName(EVERYTHING, [{ name: EVERYTHING }])]);
  await user.context.close();
});

it("by a list from a spreadsheet it is shown as text", async () => {
  const user = await narrow();
  const { page } = user;
  // A name in a list is one line of up to 80 characters.
  const names = CORPUS.filter((text) => !HALF.test(text) && [...text].length <= 80);
  const cell = (text: string): string => `"${text.replaceAll('"', '""')}"`;
  await openAt(page, site, "patch");
  await unfold(page, "Input list from or to a spreadsheet");
  const csv = ["Name,Kit piece", ...names.map((text) => `${cell(text)},${cell(text)}`)].join("\r\n");
  await choose(page, "Import a CSV list", `${CORPUS[1]}.csv`, csv);
  const button = page.getByRole("button", { name: `Import ${names.length} channels` });
  await button.waitFor();
  // As many rows as it takes to see that the columns are right.
  const asRead = names.map((text) => text.replace(/[\s\p{Cc}]+/gu, " ").trim());
  await harmless(page, asRead.slice(0, 8));
  await button.click();
  await go(page, "channels");
  await page.getByText(/^All channels/).click();
  await harmless(page, asRead);
  await user.context.close();
});

it("by recordings' file names it is shown as text", async () => {
  const user = await narrow();
  const { page } = user;
  await openAt(page, site, "headroom");
  await unfold(page, "Measure a recording");
  const wav = noiseWav(1, 4800);
  await drop(
    page,
    CORPUS.map((name) => ({ name: `${name}.wav`, content: wav })),
  );
  await page.getByText(`of ${CORPUS.length} tracks matched to a channel`).waitFor();
  const names = CORPUS.map((text) => `${asName(text)}.wav`);
  await harmless(page, names);
  await drop(
    page,
    CORPUS.map((name) => ({ name: `${name}.wav`, content: Buffer.from("no sound") })),
  );
  await alert(page).getByText("null.wav").waitFor();
  await harmless(page, names);
  await user.context.close();
});
