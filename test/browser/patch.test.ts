import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { Bus } from "../../src/core/model/setup";
import { alert, choose, downloaded, go, inputs, overhang, shown, states, unfold } from "./hall";
import { stored } from "./hands";
import { axeFindings, drawn, type Phone, phone, typeKeys } from "./harness";
import { browser, site } from "./stage";

const LIST = "Input list from or to a spreadsheet";

const toPatch = async (options?: Parameters<typeof phone>[1]): Promise<Phone> => {
  const user = await phone(browser, options);
  await user.page.goto(`${site.url}#patch`);
  await drawn(user.page);
  return user;
};

const startWith8 = async (page: Page): Promise<void> => {
  await go(page, "setups");
  await page.getByText("Start a new setup").waitFor();
  const start = page.getByRole("button", { name: "Start with 8 microphones" });
  if (!(await start.isVisible())) await unfold(page, "Start a new setup");
  await start.click();
  await states(page, "8 channels in Drums");
  await go(page, "patch");
};

const setInputCount = async (page: Page, count: string): Promise<void> => {
  const field = page.getByLabel("Monitor inputs", { exact: true });
  await typeKeys(field, count);
  await field.press("Enter");
};

/** Pages of a PDF, and the size of their paper in points. */
const pages = (pdf: Buffer): { readonly count: number; readonly paper: readonly number[] } => {
  const text = pdf.toString("latin1");
  const [, width, height] = /\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(text) ?? [];
  return {
    count: (text.match(/\/Type\s*\/Page\b/g) ?? []).length,
    paper: [Math.round(Number(width)), Math.round(Number(height))],
  };
};

describe("the band's patch", () => {
  it("comes from a list, goes over the count, is put right, taken back and printed", async () => {
    const user = await toPatch();
    const { page } = user;
    const example = await inputs(page);
    await unfold(page, LIST);
    const csv = await downloaded(page, "Export list as CSV");
    expect(csv.split("\r\n")).toHaveLength(22);

    await startWith8(page);
    expect((await inputs(page)).slice(2, 14)).not.toEqual(example.slice(2, 14));
    await unfold(page, LIST);
    await choose(page, "Import a CSV list", "band.csv", csv);
    await page.getByText("12 new channels and 8 changed.").waitFor();
    expect((await inputs(page)).slice(2, 14)).not.toEqual(example.slice(2, 14));
    await page.getByRole("button", { name: "Import 20 channels" }).click();
    await page.getByText("20 channels imported").waitFor();
    // The list brings the fold-back bus and its sends; what a bus feeds is not said by a list of channels.
    await expect
      .poll(async () => JSON.parse(await stored(page)).buses.map((b: Bus) => [b.name, b.sends.length]))
      .toEqual([
        ["Drums", 8],
        ["Fold-back", 2],
      ]);
    const unnumbered = (lines: readonly string[]) =>
      lines.map((line) => line.replace(/(Ch|Bus) \d+, /, "").toLowerCase());
    const withoutBus = example.map((line, at) => (at === 14 ? "15 free" : line));
    expect(unnumbered(await inputs(page))).toEqual(unnumbered(withoutBus));

    await setInputCount(page, "12");
    await states(page, "2 feeds too many for 12 inputs");
    const first = page.getByRole("button", { name: "Apply to plan" }).first();
    await first.click();
    await states(page, /^(?!.*too many)/);
    const room = await inputs(page);
    expect(room.filter((line) => line.includes("over"))).toEqual([]);
    await page.locator(".toast").getByRole("button", { name: "Undo" }).click();
    await states(page, "2 feeds too many for 12 inputs");
    expect((await inputs(page)).filter((line) => line.includes("over"))).toHaveLength(2);

    await unfold(page, "Patch sheet for the desk");
    await page.getByRole("button", { name: "Print the sheet" }).waitFor();
    for (const [format, paper] of [
      ["A4", [596, 843]],
      ["Letter", [612, 792]],
    ] as const)
      expect(pages(await page.pdf({ format }))).toEqual({ count: 1, paper });
    await page.emulateMedia({ media: "print" });
    const printed = await shown(page.locator("body"));
    expect(printed).toMatch(
      /^8 drum microphones\s+Patch sheet · \d+ \w+ \d{4} · 14 of 12 inputs used, 2 beyond the last/,
    );
    for (const word of ["BV 2", "OFF", "BEYOND THE LAST INPUT", "pre-fader", "Desk", "Stage"])
      expect(printed).toContain(word);
    expect(printed).not.toContain("INVENTED");
    expect(printed).not.toMatch(/Image|Print the sheet/);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it.each([
    ["8", 1],
    ["24", 1],
    // The inputs fill one; what is in the buses has the other.
    ["64", 2],
  ])("with %s inputs and the longest names takes %i pages", async (count, most) => {
    const user = await toPatch();
    const { page } = user;
    await unfold(page, LIST);
    const name = "W".repeat(80);
    const rows = Array.from({ length: 14 }, (_, i) => `${name.slice(0, -2)}${i + 10},${i + 1}`);
    await page
      .getByLabel("Or paste rows from a spreadsheet")
      .fill(["Name,Monitor input", ...rows].join("\n"));
    await page.getByRole("button", { name: "Read pasted rows" }).click();
    await page.getByText("Remove them", { exact: true }).click();
    await page.getByRole("button", { name: "Import 14 channels" }).click();
    if (count !== "8") await setInputCount(page, count);
    await unfold(page, "Patch sheet for the desk");
    await page.getByRole("button", { name: "Print the sheet" }).waitFor();
    for (const format of ["A4", "Letter"]) expect(pages(await page.pdf({ format })).count).toBe(most);
    await page.emulateMedia({ media: "print" });
    expect(await shown(page.locator(".sheet"))).toContain("EXAMPLE · INVENTED DATA");
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("swaps the channels of a channel with one tap, which is a mistake until it is swapped back", async () => {
    const user = await toPatch();
    const { page } = user;
    const before = await inputs(page);
    await page.locator(".monitor-input > summary").nth(4).click();
    const swap = page.getByRole("button", { name: "Swap Keys L/R" });
    await swap.click();
    await states(page, "1 fault in the patch");
    expect((await inputs(page))[4]).toContain("Keys R");
    expect((await inputs(page))[4]).toContain("L/R swapped by mistake");
    await swap.click();
    await states(page, /^15 of 16 inputs used/);
    expect(await inputs(page)).toEqual(before);
    await page.locator(".monitor-input > summary").nth(5).click();
    await page.getByLabel("Input 6 fed by").selectOption({ label: "free" });
    const alone = await inputs(page);
    await swap.click();
    await page.locator(".toast").getByText("Only one side has an input").waitFor();
    expect(await inputs(page)).toEqual(alone);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("marks a pair that is swapped on purpose, on paper and in the CSV", async () => {
    const user = await toPatch();
    const { page } = user;
    await page.locator(".monitor-input > summary").first().click();
    await page.getByRole("button", { name: "Swap Drums L/R" }).click();
    await unfold(page, "Patch sheet for the desk");
    const csv = await downloaded(page, "Sheet as CSV");
    expect(csv.split("\r\n")[1]).toMatch(/^1,Drums R,.*L\/R swapped/);
    await page.emulateMedia({ media: "print" });
    const rows = await page.locator(".sheet tbody tr").allInnerTexts();
    expect(rows.filter((row) => row.includes("L/R swapped"))).toHaveLength(2);
    expect(rows[0]).toContain("Drums R");
    await user.context.close();
  });
});

/** Moves a finger or the mouse from one place to another in some steps, and lifts it. */
const drag = {
  mouse: async (page: Page, from: Point, to: Point): Promise<void> => {
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 25 });
    await page.mouse.up();
  },
  touch: async (page: Page, from: Point, to: Point): Promise<void> => {
    const session = await page.context().newCDPSession(page);
    const touch = (type: "touchStart" | "touchMove" | "touchEnd", at?: Point) =>
      session.send("Input.dispatchTouchEvent", { type, touchPoints: at ? [at] : [] });
    await touch("touchStart", from);
    for (let step = 1; step <= 25; step += 1)
      await touch("touchMove", {
        x: from.x + ((to.x - from.x) * step) / 25,
        y: from.y + ((to.y - from.y) * step) / 25,
      });
    await touch("touchEnd");
    await session.detach();
  },
} as const;

interface Point {
  readonly x: number;
  readonly y: number;
}

const middle = async (part: Locator): Promise<Point> => {
  const box = await part.boundingBox();
  if (!box) throw new Error("not to be seen");
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
};

describe.each(["mouse", "touch"] as const)("an input dragged by %s", (by) => {
  it.each([
    ["over occupied ones into a free one", false],
    // Its own row loses its handle at once, as nothing moves up into it.
    ["over a free one, leaving a gap", true],
  ])("goes %s and back by one undo", async (_, isGap) => {
    // High enough for all inputs: nothing scrolls.
    const user = await toPatch({ viewport: { width: 360, height: 1800 } });
    const { page } = user;
    const takes = page.getByLabel("Input 4 fed by");
    if (isGap) {
      await page.locator(".monitor-input > summary").nth(3).click();
      await takes.selectOption({ label: "free" });
      await page.locator(".monitor-input > summary").nth(3).click();
    }
    const before = await inputs(page);
    expect(before[2]).toContain("Bass");
    expect(before[3]).toContain(isGap ? "free" : "Guitar");
    expect(before[15]).toContain("free");
    const handle = await middle(page.getByRole("button", { name: /^Move input 3:/ }));
    const goal = await middle(page.locator(".monitor-input").nth(15));
    await drag[by](page, handle, { x: handle.x, y: goal.y });
    const after = await inputs(page);
    expect(after[15]).toContain("Bass");
    expect(after[2]).toContain(isGap ? "free" : "Guitar");
    const names = (lines: readonly string[]) => lines.map((line) => line.replace(/^\d+ /, "")).sort();
    expect(names(after)).toEqual(names(before));

    // The list has let go: what moves now moves nothing.
    await page.mouse.move(handle.x, handle.y);
    await page.mouse.move(handle.x, goal.y, { steps: 5 });
    expect(await inputs(page)).toEqual(after);

    // A second drag is a step of its own, upwards this time.
    const again = await middle(page.getByRole("button", { name: /^Move input 16:/ }));
    await drag[by](page, again, { x: again.x, y: handle.y });
    expect((await inputs(page))[2]).toContain("Bass");
    await page.getByRole("button", { name: /^Undo/ }).click();
    expect(await inputs(page)).toEqual(after);
    await page.getByRole("button", { name: /^Undo/ }).click();
    expect(await inputs(page)).toEqual(before);
    expect(await page.getByRole("button", { name: /^Undo/ }).isEnabled()).toBe(isGap);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

describe("a list from a spreadsheet", () => {
  it("is read with the user's delimiter, columns and header", async () => {
    const user = await toPatch();
    const { page } = user;
    await startWith8(page);
    await unfold(page, LIST);
    await choose(page, "Import a CSV list", "odd.csv", "1|Congas, high|left side\n2|Cowbell|right side\n");
    await page.getByText("bar", { exact: true }).click();
    await page.getByText("is a channel", { exact: true }).click();
    await unfold(page, "Columns:");
    await page.getByLabel("Name is in").selectOption({ label: "B: “Congas, high”" });
    await page.getByLabel("Monitor input is in").selectOption({ label: "A: “1”" });
    await page.getByRole("button", { name: "Import 2 channels" }).click();
    const lines = await inputs(page);
    expect(lines.some((line) => line.includes("Congas, high"))).toBe(true);
    expect(lines.some((line) => line.includes("Cowbell"))).toBe(true);
    await user.context.close();
  });

  it("is cut at any character that the user types, and back where that was wrong", async () => {
    const user = await toPatch();
    const { page } = user;
    await startWith8(page);
    await unfold(page, LIST);
    await choose(page, "Import a CSV list", "odd.csv", "Congas, high§15\nCowbell§16\n");
    await page.getByText("another character", { exact: true }).click();
    const field = page.getByLabel("Character", { exact: true });
    await field.fill("§§");
    await alert(page).getByText("“§§” cannot be it. Allowed: one character").waitFor();
    await field.fill("§");
    await page.getByText("Congas, high", { exact: true }).waitFor();
    expect(await field.inputValue()).toBe("§");
    expect(await field.evaluate((el) => el === document.activeElement)).toBe(true);
    await unfold(page, "Columns:");
    await page.getByLabel("Monitor input is in").selectOption({ label: "B: “15”" });
    await page.getByRole("button", { name: "Import 2 channels" }).click();
    const lines = await inputs(page);
    expect(lines[14]).toContain("Congas, high");
    expect(lines[15]).toContain("Cowbell");

    await choose(page, "Import a CSV list", "wide.csv", `Name,Pan\n${"x".repeat(70)},C\n`);
    await page.getByText("another character", { exact: true }).click();
    await page.getByLabel("Character", { exact: true }).fill("x");
    await alert(page).getByText("Is the “x” really the delimiter?").waitFor();
    await page.getByRole("button", { name: "Use the delimiter that was found" }).click();
    await page.getByRole("button", { name: "Import 1 channel" }).waitFor();
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("is refused whole, cell by cell, and nothing changes", async () => {
    const user = await toPatch();
    const { page } = user;
    const before = await inputs(page);
    await unfold(page, LIST);
    const bad = "Name,Pan,Monitor input\nKick,sideways,1\nSnare,C,99999\n=cmd|calc,C,x\n";
    await choose(page, "Import a CSV list", "bad.csv", bad);
    const faults = alert(page);
    await faults.getByText("3 cells cannot be read.").waitFor();
    const said = await shown(faults);
    expect(said).toContain("Row 2, column B. Pan: “sideways” is not a pan.");
    expect(said).toContain("Row 3, column C. Monitor input: 99999 is outside");
    expect(said).toContain("Row 4, column C. Monitor input: “x” is not a number.");
    expect(await page.getByRole("button", { name: /^Import \d/ }).count()).toBe(0);
    await page.getByRole("button", { name: "Cancel" }).click();
    for (const [content, says] of [
      ["a,b\n".repeat(100_000), /100,000 rows: too many/],
      ["x\n".repeat(600_000), /1\.2 MB: too large/],
      ["", /The file is empty/],
      [Buffer.from([0x50, 0x4b, 3, 4, 0, 0]), /workbook/],
    ] as const) {
      await choose(page, "Import a CSV list", "bad.csv", content);
      await alert(page).getByText(says).waitFor();
      await page.getByRole("button", { name: "Cancel" }).click();
    }
    expect(await inputs(page)).toEqual(before);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("with hostile names shows them as text", async () => {
    const user = await toPatch();
    const { page } = user;
    const hostile = `<img src=x onerror="document.title='taken'">`;
    await unfold(page, LIST);
    await page.getByLabel("Or paste rows from a spreadsheet").fill(`Name\tMonitor input\n${hostile}\t16\n`);
    await page.getByRole("button", { name: "Read pasted rows" }).click();
    await page.getByRole("button", { name: "Import 1 channel" }).click();
    expect((await inputs(page))[15]).toContain(hostile);
    await unfold(page, "Patch sheet for the desk");
    await page.emulateMedia({ media: "print" });
    await page.locator(".sheet").getByText(hostile, { exact: true }).waitFor();
    expect(await page.title()).toBe("Hatside");
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

it.each(["dark", "light"])(
  "has no findings and no sideways scroll in %s with everything open",
  async (theme) => {
    const user = await toPatch({ viewport: { width: 320, height: 640 } });
    const { page } = user;
    await page.evaluate((t) => localStorage.setItem("hatside-theme", t), theme);
    await page.reload();
    for (const title of [LIST, "Patch sheet for the desk", "Send this setup to another phone"])
      await unfold(page, title);
    await page.locator("svg.qr").waitFor();
    await choose(page, "Import a CSV list", "band.csv", "Name;Input;Pan\nBass;15;L30\nKeys;16;R30\n");
    await unfold(page, "Columns:");
    expect(await overhang(page)).toBe(0);
    expect(await axeFindings(page)).toEqual([]);
    expect(user.faults).toEqual([]);
    await user.context.close();
  },
);
