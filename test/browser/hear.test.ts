import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { longestTask } from "../tools/longest-task.mjs";
import { alert, go, unfold } from "./hall";
import { openAt, tap } from "./hands";
import { type Phone, phone, type Site, serveApp } from "./harness";
import { inspect, WALK_MS } from "./inspect";
import {
  byInput,
  type Hearing,
  launchHearing,
  meter,
  openInput,
  outOfSight,
  type Played,
  played,
  tone,
  trackStates,
  unplug,
  watchTracks,
} from "./pair";

/** A tone, 6 dB less on the right. */
const STEADY = played(2, tone(-12), tone(-18));

let site: Site;
let steady: Hearing;
beforeAll(async () => {
  [site, steady] = await Promise.all([serveApp(), launchHearing(STEADY)]);
});
afterAll(async () => {
  await steady.close();
  await site.stop();
});

/** A phone at the check by input. */
const atInput = async (on: Hearing = steady): Promise<Phone> => {
  const user = await phone(on.browser);
  await watchTracks(user.page);
  await openAt(user.page, site, "check");
  await byInput(user.page);
  return user;
};

/** The first of them as a number. */
const reads = async (page: Page, name: string): Promise<number> =>
  Number((await meter(page, name))[0]?.replace("−", "-"));

describe("the audio input", () => {
  it("opens on a tap, says so, reads back what the system does, and measures both sides", async () => {
    const { page, faults, context } = await atInput();
    expect(await trackStates(page)).toEqual([]);
    await openInput(page);
    await page
      .getByText(/kHz\. Echo cancellation, noise suppression and automatic gain control are off\./)
      .waitFor();
    await unfold(page, "Meters of L and R");
    // What the app promises is a tenth of a dB.
    await expect.poll(() => meter(page, "R − L, dB")).toEqual(["−6.0"]);
    expect(await meter(page, "Correlation")).toEqual(["1.00"]);
    expect(await meter(page, "Highest peak")).toEqual(["−12.0", "−18.0"]);
    expect(await meter(page, "Times clipped")).toEqual(["0", "0"]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("is given back when its part is left, on Close, and while Hatside is out of sight", async () => {
    const { page, context } = await atInput();
    await openInput(page);
    expect(await trackStates(page)).toEqual(["live"]);
    await go(page, "patch");
    expect(await trackStates(page)).toEqual(["ended"]);
    await go(page, "check");
    await openInput(page);
    await tap(page.getByRole("button", { name: "Close the input" }));
    expect(await trackStates(page)).toEqual(["ended", "ended"]);
    expect(await alert(page).count()).toBe(0);
    await openInput(page);
    await outOfSight(page, true);
    expect((await trackStates(page)).at(-1)).toBe("ended");
    await outOfSight(page, false);
    await alert(page).getByText("Hatside was in the background, so the input was closed.").waitFor();
    await openInput(page);
    expect((await trackStates(page)).at(-1)).toBe("live");
    await context.close();
  });

  it("says that it was unplugged, and opens again, or another one", async () => {
    const { page, context } = await atInput();
    await openInput(page);
    await unplug(page);
    await alert(page).getByText("The input was unplugged, so it is closed.").waitFor();
    await openInput(page);
    expect(await alert(page).count()).toBe(0);
    const choice = page.getByLabel("Input", { exact: true });
    await choice.selectOption({ label: "Fake Audio Input 2" });
    await expect.poll(() => trackStates(page)).toEqual(["ended", "ended", "live"]);
    await expect.poll(() => choice.locator("option:checked").textContent()).toBe("Fake Audio Input 2");
    await context.close();
  });

  it.each([
    ["NotFoundError", "No audio input was found."],
    ["NotReadableError", "The input is in use or does not answer."],
    ["TypeError", "Measuring the input has failed."],
    ["", "This browser cannot open an audio input."],
  ])("that ends in “%s” is told with a way on: %s", async (name, says) => {
    const { page, context } = await atInput();
    await page.evaluate((named) => {
      const refuse = () => Promise.reject(new DOMException("", named));
      Object.assign(navigator.mediaDevices, { getUserMedia: named === "" ? undefined : refuse });
    }, name);
    await tap(page.getByRole("button", { name: "Open the input" }));
    await alert(page).getByText(says).waitFor();
    await page.getByRole("button", { name: "Open the input" }).waitFor();
    await context.close();
  });

  it("that nobody allows is said to be refused", async () => {
    const deaf = await launchHearing(STEADY, true);
    const { page } = await atInput(deaf);
    await tap(page.getByRole("button", { name: "Open the input" }));
    await alert(page).getByText("Allow the microphone for this site").waitFor();
    await page.getByRole("button", { name: "Open the input" }).waitFor();
    await deaf.close();
  });

  it.each<readonly [string, Played, string]>([
    ["one channel", played(2, tone(-12)), "L and R cannot be told apart."],
    ["the same on both", played(2, tone(-12), tone(-12)), "Both channels are identical."],
    [
      "silence",
      played(
        2,
        () => 0,
        () => 0,
      ),
      "No signal.",
    ],
    ["too much", played(2, (t) => 4 * tone(0)(t), tone(-12)), "The input clips."],
  ])("that brings %s is told with what to do", async (_, what, says) => {
    const it = await launchHearing(what);
    const { page } = await atInput(it);
    await openInput(page);
    await page.getByRole("status").getByText(says).waitFor();
    const isNoPair = says.includes("identical") || says.includes("L and R");
    expect(await page.getByRole("button", { name: "Start the check" }).isDisabled()).toBe(isNoPair);
    await it.close();
  });

  it("holds its highest figures until Reset", async () => {
    const loudOnce = await launchHearing(played(6, (t) => tone(t < 0.1 ? -3 : -40)(t), tone(-40)));
    const { page } = await atInput(loudOnce);
    await openInput(page);
    await unfold(page, "Meters of L and R");
    await expect.poll(() => reads(page, "Highest peak")).toBeGreaterThan(-4);
    await expect.poll(() => reads(page, "Peak")).toBeLessThan(-30);
    expect(await reads(page, "Highest peak")).toBeGreaterThan(-4);
    await tap(page.getByRole("button", { name: "Reset" }));
    await expect.poll(() => reads(page, "Highest peak"), { interval: 50 }).toBeLessThan(-30);
    await loudOnce.close();
  });

  it("saves what it measured with the bus and the date, by the sides that the mixer brings", {
    timeout: WALK_MS,
  }, async () => {
    const { page, faults, context } = await atInput();
    await openInput(page);
    await unfold(page, "Meters of L and R");
    const save = page.getByRole("button", { name: "Save as measured" });
    expect(await save.isDisabled()).toBe(true);
    await expect.poll(() => save.isEnabled(), { timeout: 15_000 }).toBe(true);
    const planned = await meter(page, "Drums as planned: average RMS");
    await tap(save);
    await page.getByText("Measured levels of Drums saved").waitFor();
    const when = page.getByText(/^Measured \d+ \w+ 20\d\d, \d\d:\d\d at a listener’s mixer, over/);
    await when.waitFor();
    await page.getByText(/^Peak over RMS needs no gain: measured L \d+\.\d, R \d+\.\d dB, planned/).waitFor();
    await go(page, "headroom");
    await expect.poll(() => meter(page, "Measured peak")).toEqual(["−12.0", "−18.0", ""]);
    // A busy machine leaves gaps in what it plays, on both sides alike.
    const [left = Number.NaN, right = Number.NaN] = (await meter(page, "Measured RMS")).map((level) =>
      Number(level.replace("−", "-")),
    );
    expect(left).toBeGreaterThan(-18);
    expect(left).toBeLessThan(-14.9);
    expect(left - right).toBeCloseTo(6, 0);
    expect((await meter(page, /^Average RMS(?!,)/)).slice(0, 2)).toEqual(planned);
    await when.waitFor();
    await tap(page.getByRole("button", { name: "Undo: save as measured" }));
    await when.waitFor({ state: "detached" });
    expect(await meter(page, "Measured RMS")).toEqual([]);
    // Patched the other way round, what the mixer brings on L is R of the bus.
    await go(page, "image");
    await tap(page.getByRole("button", { name: "Swap Drums L/R" }));
    await go(page, "check");
    await openInput(page);
    await unfold(page, "Meters of L and R");
    expect(await meter(page, "Drums as planned: average RMS")).toEqual(planned.toReversed());
    await expect.poll(() => save.isEnabled(), { timeout: 15_000 }).toBe(true);
    await tap(save);
    await page.getByText("Measured levels of Drums saved").waitFor();
    await go(page, "headroom");
    await expect.poll(() => meter(page, "Measured peak")).toEqual(["−18.0", "−12.0", ""]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("never holds the page up for 50 ms while it measures", async () => {
    const { page, context } = await atInput();
    await openInput(page);
    await unfold(page, "Meters of L and R");
    await page.waitForTimeout(500);
    const { ms, tasks } = await longestTask(page, () => page.waitForTimeout(3000));
    expect(tasks).toBeGreaterThan(20);
    expect(ms).toBeLessThan(50);
    await context.close();
  });

  it("stands on every screen size, with nothing for axe to find", { timeout: WALK_MS }, async () => {
    const { page, context } = await atInput();
    await openInput(page);
    await unfold(page, "Meters of L and R");
    await inspect(page, "an open input");
    await context.close();
  });
});
