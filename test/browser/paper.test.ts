import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { printSetup } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { describeBuses, describeMixers } from "../../src/text/bus-sheet";
import { TAP_NAMES } from "../../src/text/taps";
import { downloaded, go, shown, takeIn, unfold } from "./hall";
import { stored } from "./hands";
import { drawn, type Phone, phone, typeKeys } from "./harness";
import { INCH, MM, readQr, type Scan, scanned, textOf, type Word, wordsOf } from "./paper";
import { browser, site } from "./stage";

const toPatch = async (options?: Parameters<typeof phone>[1]): Promise<Phone> => {
  const user = await phone(browser, options);
  await user.page.goto(`${site.url}#patch`);
  await drawn(user.page);
  return user;
};

const setInputCount = async (page: Page, count: string): Promise<void> => {
  const field = page.getByLabel("Monitor inputs", { exact: true });
  await typeKeys(field, count);
  await field.press("Enter");
};

/** Takes in so many channels, from input 3 on: the example's drums keep the first two. */
const takeChannels = async (page: Page, count: number): Promise<string[]> => {
  // The drums lie in 1 and 2, the fold-back in 15.
  const at = Array.from({ length: count }, (_, i) => (i < 12 ? i + 3 : i + 4));
  const names = at.map((input) => `Line-${input}`);
  await unfold(page, "Input list from or to a spreadsheet");
  await page
    .getByLabel("Or paste rows from a spreadsheet")
    .fill(["Name,Monitor input", ...names.map((name, i) => `${name},${at[i]}`)].join("\n"));
  await page.getByRole("button", { name: "Read pasted rows" }).click();
  await page.getByText("Remove them", { exact: true }).click();
  await page.getByRole("button", { name: `Import ${count} channels` }).click();
  return names;
};

const toSheet = async (page: Page): Promise<void> => {
  await unfold(page, "Patch sheet for the desk");
  await page.getByRole("button", { name: "Print the sheet" }).waitFor();
};

const isInk = (grey: number): boolean => grey < 200;
const px = (points: number, { dpi }: Scan): number => Math.round((points / INCH) * dpi);

/** How far the outermost ink stays from each edge of the paper, mm. */
const margins = (scan: Scan): number[] => {
  const { width, height, grey, dpi } = scan;
  let [left, top, right, bottom] = [width, height, -1, -1];
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1)
      if (isInk(grey(x, y))) {
        left = Math.min(left, x);
        right = Math.max(right, x);
        top = Math.min(top, y);
        bottom = Math.max(bottom, y);
      }
  return [left, top, width - 1 - right, height - 1 - bottom].map((d) => (d / dpi) * 25.4);
};

/** Runs of ink along a line from one place to another. */
const runs = ({ grey }: Scan, y: number, from: number, to: number): number => {
  let count = 0;
  for (let x = from; x < to; x += 1) if (isInk(grey(x, y)) && !isInk(grey(x - 1, y))) count += 1;
  return count;
};

/** The heading of what stands under the table: "In the buses, sends in dB". */
const headings = (words: readonly Word[]): Word[] => words.filter((w) => w.text === "buses,");

/** Numbers of the inputs as they stand in the first column. */
const inputWords = (words: readonly Word[], count: number): Word[] => {
  const edge = words.find((w) => w.text === "Name")?.left ?? 0;
  const end = Math.min(...headings(words).map((w) => w.top));
  return Array.from({ length: count }, (_, i) => {
    const found = words.filter((w) => w.text === String(i + 1) && w.right < edge && w.bottom < end);
    expect(found, `input ${i + 1}`).toHaveLength(1);
    return found[0] as Word;
  });
};

/** How many tick boxes stand in a row: each is crossed by two lines, left and right. */
const boxesIn = (scan: Scan, { top, bottom }: Word, columns: readonly Word[]): number =>
  columns.filter((head) => {
    const middle = (head.left + head.right) / 2;
    // From the middle of the column's head 6 mm to each side; the head stands at the left of its column.
    return (
      runs(scan, px((top + bottom) / 2, scan), px(middle - 6 * MM, scan), px(middle + 6 * MM, scan)) === 2
    );
  }).length;

describe.each(["A4", "Letter"])("the patch sheet on %s", (format) => {
  const expectSheet = (pdf: Buffer, count: number, names: readonly string[]): void => {
    const words = wordsOf(pdf).filter((w) => w.page === 1);
    // Printers leave out up to 6 mm; the sheet keeps 10.
    const coarse = scanned(pdf, 60);
    for (const margin of margins(coarse)) expect(margin).toBeGreaterThan(9);
    const text = textOf(pdf);
    for (const name of names) expect(text).toMatch(new RegExp(`\\b${name}\\b`));
    const fine = scanned(pdf, 150);
    const inputs = inputWords(words, count);
    const last = inputs.at(-1) as Word;
    const [from, to] = [px(last.left, coarse), px(last.right, coarse)];
    const inked = (y: number): boolean => runs(coarse, y, from - 1, to + 1) > 0;
    const lines = Array.from(
      { length: px(last.bottom - last.top, coarse) },
      (_, i) => px(last.top, coarse) + i,
    );
    expect(lines.some(inked)).toBe(true);
    const columns = ["Desk", "Stage"].map((head) => words.find((w) => w.text === head) as Word);
    const boxes = inputs.map((input) => boxesIn(fine, input, columns));
    expect(boxes).toEqual(inputs.map((_, i) => (i < names.length ? 2 : 0)));
  };

  it("holds the example's sixteen inputs", async () => {
    const user = await toPatch();
    const { page } = user;
    const names = await page
      .locator(".monitor-input > summary > .grow")
      .evaluateAll((parts) =>
        parts.map((part) => part.firstChild?.textContent ?? "").filter((name) => name !== "free"),
      );
    expect(names).toHaveLength(15);
    await toSheet(page);
    const pdf = await page.pdf({ format });
    expectSheet(pdf, 16, names);
    // What is in the buses and at the mixers is on the same page.
    expect(new Set(wordsOf(pdf).map((w) => w.page)).size).toBe(1);
    const text = textOf(pdf).replace(/\s+/g, " ");
    for (const said of [
      ...describeBuses(exampleSetup()).map(({ says }) => says),
      ...describeMixers(exampleSetup()),
    ])
      expect(text).toContain(said);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("holds sixty-four full inputs, the most a system has, on one page, and the buses on the next", async () => {
    const user = await toPatch();
    const { page } = user;
    const names = await takeChannels(page, 61);
    await setInputCount(page, "64");
    await toSheet(page);
    await page.getByText("Two pages, A4 or Letter").waitFor();
    const pdf = await page.pdf({ format });
    // The inputs fill one page, the buses have the next.
    expect(headings(wordsOf(pdf)).map((w) => w.page)).toEqual([2]);
    expect(new Set(wordsOf(pdf).map((w) => w.page)).size).toBe(2);
    expectSheet(pdf, 64, ["Drums L", "Drums R", ...names.slice(0, 12), "Fold-back", ...names.slice(12)]);
    await user.context.close();
  });

  it("goes on to another page with many beyond the count, and says so before", async () => {
    const user = await toPatch();
    const { page } = user;
    const names = await takeChannels(page, 97);
    await setInputCount(page, "64");
    await toSheet(page);
    await page.getByText("up to 64 inputs fit on one page, these 100 may take more").waitFor();
    const pdf = await page.pdf({ format });
    const text = textOf(pdf);
    for (const name of names) expect(text).toMatch(new RegExp(`\\b${name}\\b`));
    const heads = wordsOf(pdf).filter((w) => w.text === "Desk");
    expect(heads.map((w) => w.page)).toEqual([1, 2]);
    await user.context.close();
  });
});

/** Text of the sheet's table that is not wholly seen in its cell, on A4 less its margins. */
const cutOff = async (page: Page): Promise<string[]> => {
  await page.setViewportSize({ width: Math.floor((190 / 25.4) * 96), height: 1000 });
  await page.emulateMedia({ media: "print" });
  return page.locator(".sheet td, .sheet th").evaluateAll((cells) => {
    const range = document.createRange();
    return cells
      .filter((cell) => {
        const box = cell.getBoundingClientRect();
        range.selectNodeContents(cell);
        return [...range.getClientRects()].some(
          ({ right, bottom }) => right > box.right + 0.5 || bottom > box.bottom + 0.5,
        );
      })
      .map((cell) => cell.textContent ?? "");
  });
};

describe("no cell of the patch sheet is cut", () => {
  const example = exampleSetup();
  const [first, second, ...rest] = example.monitor.inputs;
  const widest: SetupFile = {
    ...example,
    desk: { ...example.desk, portName: "Stage box", firstPort: 101, trimStep: 0.1 },
    channels: example.channels.map((channel) => ({
      ...channel,
      directOut: { tap: "post-fader", on: true, trim: -12.5 },
    })),
    // A pair that lies swapped by mistake.
    monitor: { ...example.monitor, inputs: [second ?? null, first ?? null, ...rest] },
  };

  it.each([
    ["the example", example],
    ["the longest that a cell says", widest],
  ])("%s", async (_, file) => {
    const user = await toPatch();
    const { page } = user;
    await takeIn(page, printSetup(file));
    await go(page, "patch");
    await toSheet(page);
    expect(await cutOff(page)).toEqual([]);
    await user.context.close();
  });
});

describe("an input list over a band", () => {
  const paste = async (page: Page, text: string): Promise<string> => {
    await unfold(page, "Input list from or to a spreadsheet");
    await page.getByLabel("Or paste rows from a spreadsheet").fill(text);
    await page.getByRole("button", { name: "Read pasted rows" }).click();
    const changes = page.getByRole("region", { name: "What changes" });
    await changes.waitFor();
    return shown(changes);
  };

  it("with channel, microphone, stand and notes keeps them with the channels, to be changed and exported again", async () => {
    const user = await toPatch();
    const { page } = user;
    const lines = exampleSetup().channels.map(
      ({ name, numbers }) => `${numbers.join("-")},${name},dynamic,boom,yes,taped`,
    );
    const said = await paste(page, ["Ch,Name,Mic,Stand,48V,Notes", ...lines, "24,Conga,,,,"].join("\n"));
    expect(said).toMatch(
      /^1 new channel and 20 changed\.\s+Kick\s+Extra columns: none → Mic: dynamic; Stand: boom; 48V: yes; Notes: taped\n/,
    );
    await page.getByText("Kept with each channel and exported again: Mic, Stand, 48V and Notes.").waitFor();
    await page.getByRole("button", { name: "Import 21 channels" }).click();
    await page.getByText("21 channels imported").waitFor();
    const { channels } = exampleSetup();
    await expect.poll(async () => JSON.parse(await stored(page)).channels).toHaveLength(21);
    const columns = (notes: string) =>
      Object.entries({ Mic: "dynamic", Stand: "boom", "48V": "yes", Notes: notes }).map(([head, value]) => ({
        head,
        value,
      }));
    expect(JSON.parse(await stored(page)).channels.slice(0, 20)).toEqual(
      channels.map((channel) => ({ ...channel, extra: columns("taped") })),
    );
    expect(JSON.parse(await stored(page)).monitor).toEqual(exampleSetup().monitor);
    await page.getByRole("link", { name: "Channels" }).click();
    await page.getByRole("button", { name: /^Kick / }).click();
    const kick = page.locator("li.channel").first();
    expect(await kick.getByLabel("Mic", { exact: true }).inputValue()).toBe("dynamic");
    await kick.getByLabel("Notes", { exact: true }).fill("=own, “B”");
    await kick.getByLabel("Notes", { exact: true }).press("Enter");
    await expect
      .poll(async () => JSON.parse(await stored(page)).channels[0].extra)
      .toEqual(columns("=own, “B”"));
    await page.getByRole("link", { name: "Patch" }).click();
    await unfold(page, "Input list from or to a spreadsheet");
    const [heads, first, second] = (await downloaded(page, "Export list as CSV")).split("\r\n");
    expect(heads).toMatch(/,Mic,Stand,48V,Notes$/);
    expect(first).toMatch(/,dynamic,boom,yes,"'=own, “B”"$/);
    expect(second).toMatch(/,dynamic,boom,yes,taped$/);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("shows what would change of each channel, old and new", async () => {
    const user = await toPatch();
    const { page } = user;
    const said = await paste(
      page,
      "Name,Pan,Peak,Mute,Monitor input\nBass,L20,–,yes,\nGuitar,,,no,16\nConga,R10,,,4\nKeys,,,,\n",
    );
    expect(
      said
        .split("\n")
        .map((line) => line.trim())
        .filter((line) => line !== ""),
    ).toEqual([
      "1 new channel and 2 changed; 18 stay as they are.",
      "Bass",
      "Channel pan: C → L20",
      "Mute: off → on",
      "Peak: −10 dBFS → not entered",
      "Guitar",
      `Monitor input: In 4 ${TAP_NAMES["pre-fader"]} → In 16 ${TAP_NAMES["pre-fader"]}`,
      `Conga new: percussion, mono, pan R10, In 4 ${TAP_NAMES["pre-fader"]}, Drums ${TAP_NAMES["post-fader"]}, 0 dB`,
    ]);
    await page.getByText("Remove them", { exact: true }).click();
    await page.getByText("1 new channel, 2 changed and 17 removed; 1 stays as it is.").waitFor();
    await page.getByText("Keep them", { exact: true }).click();
    await page.getByRole("button", { name: "Import 4 channels" }).click();
    const was = exampleSetup().channels;
    const want = was.map((s) => (s.name === "Bass" ? { ...s, pan: -0.2, peak: null, muted: true } : s));
    await expect.poll(async () => JSON.parse(await stored(page)).channels.slice(0, was.length)).toEqual(want);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

it.each(["dark", "light"])(
  "the QR code of the link in %s is read back to the link by another reader",
  async (theme) => {
    const user = await toPatch();
    const { page } = user;
    await page.evaluate((t) => localStorage.setItem("hatside-theme", t), theme);
    await page.reload();
    await unfold(page, "Send this setup to another phone");
    const code = page.locator("svg.qr");
    await code.waitFor();
    const link = await page.getByLabel(/^The link/).inputValue();
    expect(link).toContain("#s=");
    // With its quiet zone, as a camera sees it.
    expect(await readQr(await code.screenshot())).toBe(link);
    expect(user.faults).toEqual([]);
    await user.context.close();
  },
);
