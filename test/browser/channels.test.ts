import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import type { SetupFile } from "../../src/document/schema";
import { openAt, stored } from "./hands";
import { type Phone, phone, typeKeys } from "./harness";
import { browser, site } from "./stage";

const toKit = async (): Promise<Phone> => {
  const user = await phone(browser);
  await openAt(user.page, site, "channels");
  return user;
};

const row = (page: Page, name: string): Locator =>
  page.locator("li.channel").filter({ has: page.locator(".name b").getByText(name, { exact: true }) });

/** Opens what lies behind a channel's row. */
const open = async (page: Page, name: string): Promise<Locator> => {
  const it = row(page, name);
  await it.locator("button[aria-expanded]").click();
  await it.getByLabel("Name", { exact: true }).waitFor();
  return it;
};

const kept = async (page: Page): Promise<SetupFile> => JSON.parse(await stored(page));
const channelIn = ({ channels }: SetupFile, name: string) => channels.find((s) => s.name === name);

/** Waits until what is kept is so: every change is safe without a word of the user's. */
const keeps = async (page: Page, of: (file: SetupFile) => unknown, what: unknown): Promise<void> => {
  await expect.poll(async () => of(await kept(page))).toEqual(what);
};

const order = (file: SetupFile): string[] => file.channels.map((s) => s.name);
const listed = (page: Page): Promise<string[]> => page.locator("li.channel .name b").allInnerTexts();
const undo = (page: Page, what: string): Promise<void> =>
  page.getByRole("button", { name: `Undo: ${what}`, exact: true }).click();
const toastUndo = (page: Page): Locator => page.locator(".toast").getByRole("button", { name: "Undo" });

describe("the place for channels", () => {
  it("says of the example that it is one, and leads to a band of one's own, of which it says nothing", async () => {
    const { page, context } = await toKit();
    await page.getByText("This band is an invented example.").waitFor();
    await page.getByRole("button", { name: "Start your own" }).click();
    await page.getByRole("button", { name: "Start with 8 microphones" }).click();
    await page.getByRole("link", { name: "Channels" }).click();
    await row(page, "Kick").waitFor();
    expect(await page.getByText("invented example").count()).toBe(0);
    await context.close();
  });

  it("a pan dragged with a finger follows it, is kept, and goes back in one step", async () => {
    const { page, context } = await toKit();
    const bar = page.getByRole("slider", { name: "Channel pan of Hat" });
    const shown = row(page, "Hat").locator(".pan-shown");
    const before = await kept(page);
    expect(await shown.textContent()).toBe("R70");
    await bar.evaluate((e) => e.scrollIntoView({ block: "center" }));
    const box = await bar.boundingBox();
    if (!box) throw new Error("the bar is not drawn");
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
    await page.mouse.move(x, y);
    await page.mouse.down();
    expect(await shown.textContent(), "a touch alone changes nothing").toBe("R70");
    // A tenth of the bar is a fifth of the way from end to end: 20 of 100 steps.
    for (const [tenths, says] of [
      [1, "R50"],
      [2, "R30"],
      [3, "R10"],
    ] as const) {
      await page.mouse.move(x - (tenths * box.width) / 10, y);
      await expect.poll(() => shown.textContent()).toBe(says);
    }
    await page.mouse.up();
    await keeps(page, (file) => channelIn(file, "Hat")?.pan, 0.1);
    await undo(page, "pan");
    expect(await shown.textContent()).toBe("R70");
    await keeps(page, (file) => file, before);
    expect(await page.getByRole("button", { name: "Undo", exact: true }).isDisabled()).toBe(true);
    await context.close();
  });

  it("a channel is duplicated with its send, muted and inverted, and all of it is kept", async () => {
    const { page, context } = await toKit();
    const snare = await open(page, "Snare");
    await snare.getByRole("button", { name: "Duplicate" }).click();
    await row(page, "Snare 2").waitFor();
    expect((await listed(page)).slice(0, 4)).toEqual(["Kick", "Snare", "Snare 2", "Hat"]);
    await page.getByRole("button", { name: "Mute Snare 2" }).click();
    await snare.getByLabel("Polarity inverted").check();
    await keeps(page, (file) => order(file).slice(0, 4), ["Kick", "Snare", "Snare 2", "Hat"]);
    await keeps(page, (file) => [channelIn(file, "Snare 2")?.muted, channelIn(file, "Snare")?.inverted], [
      true,
      true,
    ]);
    const file = await kept(page);
    const [first, second] = [channelIn(file, "Snare"), channelIn(file, "Snare 2")];
    const sends = file.buses[0]?.sends ?? [];
    const levelOf = (id = "") => sends.find((s) => s.channel === id)?.level;
    expect(levelOf(second?.id)).toBe(levelOf(first?.id));
    expect(levelOf(first?.id)).toBe(-5);
    await context.close();
  });

  it("how much of the time a channel plays is typed in per cent; empty is what its kind has", async () => {
    const { page, context } = await toKit();
    const activity = (await open(page, "Hat")).getByLabel("Activity, %");
    expect(await activity.getAttribute("placeholder")).toBe("by its kind");
    await typeKeys(activity, "30");
    await activity.press("Enter");
    await keeps(page, (file) => channelIn(file, "Hat")?.activity, 0.3);
    await typeKeys(activity, "130");
    await activity.press("Enter");
    await page.getByText("Activity: 130 is outside 0 to 100 %").waitFor();
    await keeps(page, (file) => channelIn(file, "Hat")?.activity, 0.3);
    await typeKeys(activity, "");
    await activity.press("Enter");
    await keeps(page, (file) => channelIn(file, "Hat")?.activity, null);
    await context.close();
  });

  it("a removed channel comes back whole by the word at the bottom", async () => {
    const { page, context } = await toKit();
    const before = await kept(page);
    await (await open(page, "Hat")).getByRole("button", { name: "Remove" }).click();
    await page.getByText("Hat removed").waitFor();
    await keeps(page, (file) => [channelIn(file, "Hat"), file.buses[0]?.sends.length], [undefined, 7]);
    await toastUndo(page).click();
    await row(page, "Hat").waitFor();
    await keeps(page, (file) => file, before);
    await context.close();
  });

  it("the word at the bottom takes back only what it tells of", async () => {
    const { page, context } = await toKit();
    await (await open(page, "Hat")).getByRole("button", { name: "Remove" }).click();
    await toastUndo(page).waitFor();
    await page.getByRole("button", { name: "Mute Kick" }).click();
    await page.getByText("Hat removed").waitFor();
    expect(await toastUndo(page).count()).toBe(0);
    await undo(page, "change channel");
    // Now its own step is the last again.
    await toastUndo(page).click();
    await row(page, "Hat").waitFor();
    await context.close();
  });

  it("a channel moves past the one that is seen next to it, whatever lies between in the whole list", async () => {
    const { page, context } = await toKit();
    await page.getByText("All channels (20)").click();
    const bass = await open(page, "Bass");
    const up = bass.getByRole("button", { name: "Move Bass up" });
    for (const above of ["Overhead R", "Overhead L"]) {
      await up.click();
      await keeps(page, (file) => order(file).indexOf("Bass") < order(file).indexOf(above), true);
    }
    await page.getByText("In Drums (8)").click();
    const seen = ["Kick", "Snare", "Hat", "Tom 1", "Tom 2", "Floor tom"];
    expect(await listed(page)).toEqual([...seen, "Overhead L", "Overhead R"]);
    const left = await open(page, "Overhead L");
    await left.getByRole("button", { name: "Move Overhead L up" }).click();
    await expect
      .poll(() => listed(page))
      .toEqual([...seen.slice(0, 5), "Overhead L", "Floor tom", "Overhead R"]);
    await left.getByRole("button", { name: "Move Overhead L down" }).click();
    await left.getByRole("button", { name: "Move Overhead L down" }).click();
    await expect.poll(() => listed(page)).toEqual([...seen, "Overhead R", "Overhead L"]);
    expect(await left.getByRole("button", { name: "Move Overhead L down" }).isDisabled()).toBe(true);
    await keeps(page, (file) => order(file).slice(5, 10), [
      "Floor tom",
      "Bass",
      "Overhead R",
      "Overhead L",
      "Guitar",
    ]);
    await context.close();
  });

  it("a name is typed, may be empty, and a pan typed in the console's notation is kept", async () => {
    const { page, context } = await toKit();
    const kick = await open(page, "Kick");
    await typeKeys(kick.getByLabel("Channel pan", { exact: true }), "12l");
    await kick.getByLabel("Channel pan", { exact: true }).press("Enter");
    await keeps(page, (file) => channelIn(file, "Kick")?.pan, -0.12);
    const name = page.locator("li.channel").first().getByLabel("Name", { exact: true });
    await typeKeys(name, "");
    await name.press("Enter");
    await keeps(page, (file) => file.channels[0]?.name, "");
    await page.getByRole("button", { name: "Mute Unnamed channel" }).waitFor();
    await context.close();
  });
});

describe("which pan law this desk has", () => {
  const result = (page: Page): Promise<string[]> =>
    page.locator("main [role=status] .notice li").allInnerTexts();
  const enter = async (page: Page, label: string, text: string): Promise<void> => {
    await typeKeys(page.getByLabel(label, { exact: true }), text);
    await page.getByLabel(label, { exact: true }).press("Enter");
  };

  it("is found from readings, the suggested one among them, taken into the plan and taken back", async () => {
    const { page, context, faults } = await toKit();
    await page.getByText("Desk: pan law, notation, levels").click();
    await page.getByText("Find the pan law from meter readings").click();
    await page.getByLabel("Meter, reading 1, dB").waitFor();
    expect(await result(page)).toEqual(["Enter at least two readings."]);
    await enter(page, "Meter, reading 1, dB", "-18");
    // A desk with a linear law: 20 lg 0.5 = −6.02 dB at the centre, as a comma and a true minus write it.
    await enter(page, "Meter, reading 2, dB", "\u221224,0");
    const [fit = "", next = ""] = await result(page);
    expect(fit).toContain("“Linear (unity hard-panned)”");
    expect(fit).toContain("“Cosine squared (unity hard-panned)”");
    expect(next).toBe("Read next: R of the bus, with the pan at L50.");
    await page.getByRole("button", { name: "Add this reading" }).click();
    expect(await page.getByLabel("Pan, reading 3").inputValue()).toBe("L50");

    // Nothing on a meter: said, and the readings before it stand.
    await enter(page, "Meter, reading 3, dB", "-inf");
    await page.getByText(/^Meter, reading 3: “-inf” is not a number\. Allowed: /).waitFor();
    expect(await result(page)).toEqual([fit, next]);
    // 20 lg 0.25 = −12.04 dB.
    await enter(page, "Meter, reading 3, dB", "-30");
    await expect.poll(() => result(page)).toEqual(["Only “Linear (unity hard-panned)” fits."]);

    // What was read stands when the fold was closed.
    await page.getByText("Find the pan law from meter readings").click();
    await page.getByText("Find the pan law from meter readings").click();
    expect(await page.getByLabel("Meter, reading 3, dB").inputValue()).toBe("\u221230");
    const law = async (): Promise<unknown> => (await kept(page)).desk.law;
    const before = await law();
    await page.getByRole("button", { name: "Use Linear (unity hard-panned)" }).click();
    await page.getByText("The plan now has this pan law").waitFor();
    await keeps(page, (file) => [file.desk.law, file.desk.reference], ["linear", "sides"]);
    expect(await page.getByLabel("Pan law", { exact: true }).inputValue()).toBe("linear");
    await toastUndo(page).click();
    await keeps(page, (file) => file.desk.law, before);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("many channels at once", () => {
  it("thirty rows take three screens of a phone, however long their figures", async () => {
    const { page, context } = await toKit();
    await page.setViewportSize({ width: 390, height: 740 });
    await page.getByText("All channels (20)").click();
    const heights = await page
      .locator("li.channel .channel-head")
      .evaluateAll((rows) =>
        rows.map((row) => (row.parentElement as Element).getBoundingClientRect().height),
      );
    expect(heights).toHaveLength(20);
    // Marks of a bus without headroom stand under few; most rows have none.
    const sorted = [...heights].sort((a, b) => a - b);
    expect(30 * (sorted[18] ?? 0)).toBeLessThan(3 * 740);
    await context.close();
  });

  it("a channel that leaves the shown bus stays until the list is left", async () => {
    const { page, context } = await toKit();
    const hat = await open(page, "Hat");
    await hat.getByLabel("In Drums", { exact: true }).uncheck();
    await page.getByText("no send").waitFor();
    await page.getByText("In Drums (7)").waitFor();
    expect(await listed(page)).toHaveLength(8);
    await hat.getByLabel("In Drums", { exact: true }).check();
    await hat.getByLabel("In Drums", { exact: true }).uncheck();
    expect(await listed(page)).toContain("Hat");
    await page.getByRole("link", { name: "Headroom" }).click();
    await page.getByRole("link", { name: "Channels" }).click();
    await page.getByText("In Drums (7)").waitFor();
    expect(await listed(page)).not.toContain("Hat");
    await context.close();
  });

  it("the first channel of an empty bus takes no other out of the list; the bus alone is one tap", async () => {
    const { page, context } = await toKit();
    await page.getByRole("link", { name: "Headroom" }).click();
    await page.getByRole("button", { name: "Add a mono bus" }).click();
    await expect.poll(async () => (await kept(page)).buses.length).toBe(3);
    const name = (await kept(page)).buses[2]?.name ?? "";
    await page.getByRole("link", { name: "Channels" }).click();
    await page.getByRole("radio", { name, exact: true }).check();
    expect(await listed(page)).toHaveLength(20);
    const bass = await open(page, "Bass");
    await bass.getByLabel(`In ${name}`, { exact: true }).check();
    const only = page.getByRole("radio", { name: `In ${name} (1)` });
    await only.waitFor();
    expect(await listed(page)).toHaveLength(20);
    expect(await only.isChecked()).toBe(false);
    await only.check();
    await expect.poll(() => listed(page)).toEqual(["Bass"]);
    await context.close();
  });

  it("a new channel has its name selected: what is typed replaces it", async () => {
    const { page, context } = await toKit();
    await page.getByRole("button", { name: "Add a channel" }).click();
    await page.keyboard.type("Cowbell");
    await page.keyboard.press("Enter");
    await row(page, "Cowbell").waitFor();
    await keeps(page, (file) => file.channels.at(-1)?.name, "Cowbell");
    await context.close();
  });

  it("several are selected and set in one step of undo each", async () => {
    const { page, context } = await toKit();
    const before = await kept(page);
    await page.getByRole("button", { name: "Select", exact: true }).click();
    for (const name of ["Tom 1", "Tom 2", "Floor tom"])
      await page.getByRole("checkbox", { name, exact: false }).check();
    await page.getByText("3 of 8 selected").waitFor();
    const toms = (of: (channel: SetupFile["channels"][number]) => unknown) => (file: SetupFile) =>
      ["Tom 1", "Tom 2", "Floor tom"].map((name) => of(channelIn(file, name) as never));
    const set = page.getByLabel("Set", { exact: true });
    const to = page.getByLabel("To", { exact: true });
    await to.selectOption("Percussion");
    await keeps(
      page,
      toms((c) => c.kind),
      ["percussion", "percussion", "percussion"],
    );
    // What was just set does not cover what is set next.
    const toast = await page.locator(".toast").boundingBox();
    const bar = await page.getByLabel("Set on selected channels").boundingBox();
    expect((toast?.y ?? 0) + (toast?.height ?? 0)).toBeLessThanOrEqual(bar?.y ?? 0);
    await set.selectOption("Direct out tap point");
    await to.selectOption("post-fader");
    await keeps(
      page,
      toms((c) => c.directOut.tap),
      Array(3).fill("post-fader"),
    );
    await set.selectOption("Colour");
    await to.selectOption("Teal");
    await set.selectOption("Mute");
    await to.selectOption("muted");
    await keeps(
      page,
      toms((c) => [c.colour, c.muted]),
      Array(3).fill(["teal", true]),
    );
    await set.selectOption("Send to Fold-back");
    expect(await to.locator("option:checked").textContent()).toBe("not in it");
    await to.selectOption("pre-fader");
    await keeps(
      page,
      (file) => file.buses[1]?.sends.filter((s) => s.tap === "pre-fader").length,
      (before.buses[1]?.sends.filter((s) => s.tap === "pre-fader").length ?? 0) + 3,
    );
    await page.getByRole("button", { name: "Done" }).click();
    await undo(page, "change sends");
    for (let n = 0; n < 4; n += 1) await undo(page, "change channels");
    await keeps(page, (file) => file, before);
    await context.close();
  });
});
