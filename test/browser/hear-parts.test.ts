import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { eveningOf, hitOn, panned, type Wrong } from "../core/hear/stage";
import { numbers } from "../tools/chance.mjs";
import { go, unfold } from "./hall";
import { openAt, tap } from "./hands";
import { launch, type Phone, phone, type Site, serveApp } from "./harness";
import { inspect, WALK_MS } from "./inspect";
import { byInput, giveInput, meter, openInput, played, RATE, strike } from "./pair";

const SETUP = exampleSetup();
/** Those that have died away soon: a gap in the sound of a busy machine makes no second hit of them. */
const DRUMS = SETUP.kit.pieces.filter(({ kind }) => !["overhead", "ride", "crash"].includes(kind));

/** What plays in real time has gaps where the machine is busy, and then is something else: it is played again. */
const LIVE = { retry: 2 };

let site: Site;
let browser: Awaited<ReturnType<typeof launch>>;
beforeAll(async () => {
  // What is played into the input begins without a tap.
  [site, browser] = await Promise.all([serveApp(), launch(["--autoplay-policy=no-user-gesture-required"])]);
});
afterAll(async () => {
  await browser.close();
  await site.stop();
});

const at = async (place: string): Promise<Phone> => {
  const user = await phone(browser);
  await openAt(user.page, site, place);
  return user;
};

/** How many hits the table has for each drum. */
const hitsOf = async (page: Page): Promise<Map<string, number>> => {
  const rows = page.getByRole("table", { name: "R − L of each drum, dB" }).locator("tbody tr");
  const cells = await rows.evaluateAll((all) =>
    all.map((row) => [row.querySelector("th")?.firstChild?.textContent, row.lastElementChild?.textContent]),
  );
  return new Map(cells.map(([name, count]) => [name ?? "", Number(count)]));
};

/** How many hits could be more than one drum. */
const unknownOf = async (page: Page): Promise<number> => {
  const says = page.getByText(/^Not in the table: \d+ hits? that could be of more than one drum\.$/);
  return (await says.count()) === 0 ? 0 : Number(/\d+/.exec((await says.textContent()) ?? "")?.[0]);
};

const countOf = async (page: Page): Promise<number> =>
  [...(await hitsOf(page)).values()].reduce((sum, count) => sum + count, await unknownOf(page));

/** Plays around the kit until it is known what is so, or so many times; which drums were hit, in order. */
const playAround = async (page: Page, wrong: Wrong, seed: number, turns: number): Promise<string[]> => {
  const evening = eveningOf(SETUP, wrong, RATE, numbers(seed));
  const question = page.locator("h1.question");
  const judging = page.getByText("Heard.", { exact: true });
  const hit: string[] = [];
  await question.waitFor();
  for (let n = 0; n < turns * DRUMS.length && (await question.isVisible()); n += 1) {
    const { id, name } = DRUMS[n % DRUMS.length] as (typeof DRUMS)[0];
    const { left, right } = hitOn(evening, id);
    await strike(page, [left, right]);
    hit.push(name);
    // Every hit is in a row, or among those that could be more than one drum: none is lost.
    await expect
      .poll(() => countOf(page), { timeout: 20_000, message: `hit ${hit.length}: ${name}` })
      .toBeGreaterThanOrEqual(hit.length);
    await judging.waitFor({ state: "detached" });
  }
  return hit;
};

const startFree = async (page: Page): Promise<void> => {
  await giveInput(page);
  await byInput(page);
  await openInput(page);
  await page.getByText("Any order: one drum at a time, around the kit").click();
  await tap(page.getByRole("button", { name: "Start the check" }));
};

describe("free mode", LIVE, () => {
  it("gives each hit to its drum where the plan allows it, and comes to a verdict", {
    timeout: WALK_MS,
  }, async () => {
    const { page, faults, context } = await at("check");
    await startFree(page);
    await page.locator("h1.question", { hasText: "Hit one drum at a time, in any order." }).waitFor();
    expect(await page.getByRole("button", { name: "Hit, but no signal" }).count()).toBe(0);
    const hit = await playAround(page, { fault: "planned", channel: null }, 5, 2);
    expect(await page.locator("h1").textContent()).toMatch(/^As planned/);
    const given = await hitsOf(page);
    // To the drums that were hit, and to no other.
    for (const [name, count] of given) if (count > 0) expect(hit).toContain(name);
    expect([given.get("Ride"), given.get("Crash")]).toEqual([0, 0]);
    expect(await unknownOf(page)).toBeLessThanOrEqual(hit.length - 4);
    await inspect(page, "a verdict of hits that nobody asked for");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("counts the hits that could be more than one drum", { timeout: WALK_MS }, async () => {
    const { page, context } = await at("check");
    await startFree(page);
    await playAround(page, { fault: "all-centred", channel: null }, 8, 1);
    expect(await unknownOf(page)).toBeGreaterThan(0);
    await context.close();
  });
});

describe("hits that are asked for", LIVE, () => {
  it("say of one that comes too soon that it does not count", { timeout: WALK_MS }, async () => {
    const { page, context } = await at("check");
    await giveInput(page);
    await byInput(page);
    await openInput(page);
    await tap(page.getByRole("button", { name: "Start the check" }));
    const evening = eveningOf(SETUP, { fault: "planned", channel: null }, RATE, numbers(7));
    const question = page.locator("h1.question");
    await question.waitFor();
    const asked = await question.textContent();
    const { id } = DRUMS.find(({ name }) => asked === `Hit the ${name}.`) as (typeof DRUMS)[0];
    const twice = [hitOn(evening, id), hitOn(evening, id)] as const;
    await page.waitForTimeout(1000);
    await strike(page, [twice[0].left, twice[0].right]);
    // Longer than a hit is measured, so that the two are not one.
    await page.waitForTimeout(400);
    await strike(page, [twice[1].left, twice[1].right]);
    await page.getByText("One hit came too soon and did not count.").waitFor();
    await page.getByText("Heard.", { exact: true }).waitFor({ state: "detached" });
    expect(await countOf(page)).toBe(1);
    await context.close();
  });
});

/** From its next start the page lets everything that it plays be looked at: its highest sample on each side, by turns. */
const watchOutput = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    const analysers: AnalyserNode[] = [];
    const contexts: BaseAudioContext[] = [];
    Object.assign(globalThis, { contexts, analysers });
    const connect = AudioNode.prototype.connect as (...args: unknown[]) => unknown;
    AudioNode.prototype.connect = function (this: AudioNode, ...args: unknown[]) {
      if (args[0] instanceof AudioDestinationNode) {
        contexts.push(this.context);
        const sides = this.context.createChannelSplitter(2);
        connect.call(this, sides);
        for (const side of [0, 1]) {
          const analyser = new AnalyserNode(this.context, { fftSize: 2048 });
          connect.call(sides, analyser, side);
          analysers.push(analyser);
        }
      }
      return connect.apply(this, args);
    } as never;
  });

/** What sounds in so many seconds: highest sample of each side, and the sides that sounded together or alone. */
const listens = (page: Page, seconds: number) =>
  page.evaluate(async (until) => {
    const { analysers } = globalThis as unknown as { analysers: AnalyserNode[] };
    const tops = [0, 0];
    const seen = new Set<string>();
    const end = performance.now() + 1000 * until;
    while (performance.now() < end) {
      const samples = new Float32Array(2048);
      const now = analysers.slice(-2).map((analyser, side) => {
        analyser.getFloatTimeDomainData(samples);
        const top = samples.reduce((most, x) => Math.max(most, Math.abs(x)), 0);
        tops[side] = Math.max(tops[side] as number, top);
        return top > 1e-4;
      });
      if (now.some(Boolean)) seen.add(now.map((is, side) => (is ? "LR"[side] : "")).join(""));
      await new Promise((done) => setTimeout(done, 20));
    }
    return { tops, seen: [...seen] };
  }, seconds);

const outputs = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    (globalThis as unknown as { contexts: BaseAudioContext[] }).contexts.map(({ state }) => state),
  );

describe("the test signal", LIVE, () => {
  it("starts on a tap, low, after the caution, and ends on Stop and when its part is left", async () => {
    const { page, faults, context } = await phone(browser);
    await watchOutput(page);
    await openAt(page, site, "check");
    await unfold(page, "Play a test signal");
    await page.getByText("Start low: turn the phone down before the earpieces are in").waitFor();
    await page.getByText("Level: −30 dB").waitFor();
    expect(await outputs(page)).toEqual([]);
    await tap(page.getByRole("button", { name: "Play the test signal" }));
    // One turn of the beeps takes five seconds.
    const { tops, seen } = await listens(page, 7);
    expect(seen.toSorted()).toEqual(["L", "LR", "R"]);
    for (const top of tops) {
      expect(top).toBeLessThanOrEqual(10 ** (-30 / 20));
      expect(top).toBeGreaterThan(10 ** (-34 / 20));
    }
    await page.getByRole("slider", { name: "Level" }).fill("-20");
    await page.getByText("Pink noise on both").click();
    const louder = await listens(page, 3);
    expect(louder.seen).toEqual(["LR"]);
    expect(Math.max(...louder.tops)).toBeGreaterThan(10 ** (-30 / 20));
    expect(Math.max(...louder.tops)).toBeLessThanOrEqual(10 ** (-20 / 20));
    await tap(page.getByRole("button", { name: "Stop the test signal" }));
    await expect.poll(() => outputs(page)).toEqual(["closed"]);
    await tap(page.getByRole("button", { name: "Play the test signal" }));
    await expect.poll(() => outputs(page)).toEqual(["closed", "running"]);
    await go(page, "patch");
    await expect.poll(() => outputs(page)).toEqual(["closed", "closed"]);
    expect(faults).toEqual([]);
    await context.close();
  });
});

describe("the pan law by input", LIVE, () => {
  it("is found from a tone at the pans that were set, over the noise that was measured", {
    timeout: WALK_MS,
  }, async () => {
    const { page, faults, context } = await at("channels");
    await giveInput(page);
    await unfold(page, "Desk: pan law");
    await unfold(page, "Find the pan law from meter readings");
    await unfold(page, "Measure with an audio input");
    const part = page.locator("details", { has: page.locator("summary", { hasText: "Measure with an" }) });
    // The signal to measure is at hand: this screen need not be left for it, which would close the input.
    await unfold(page, "Play a test signal");
    await page.getByText("Tone on both, 1 kHz").waitFor();
    await openInput(page);
    await tap(page.getByRole("button", { name: "Measure noise only" }));
    await page.getByText(/^Noise: L −(59|60)\.\d, R −(59|60)\.\d dBFS; it is subtracted\.$/).waitFor();
    const desk = { ...SETUP.desk, law: "linear", reference: "sides" } as const;
    for (const [typed, pan] of [
      ["C", 0],
      ["L50", -0.5],
      ["R70", 0.7],
    ] as const) {
      const field = page.getByLabel("Pan at the desk");
      await field.fill(typed);
      await field.blur();
      const [left, right] = panned(desk, pan);
      const tone = (gain: number) => (t: number) => 0.2 * gain * Math.sin(2 * Math.PI * 997 * t);
      const sides = played(7, tone(left), tone(right)).map((side) => Float32Array.from(side));
      await strike(page, sides);
      const begun = Date.now();
      await page.waitForTimeout(300);
      await tap(page.getByRole("button", { name: "Measure at this pan" }));
      await page.getByText("Measuring for 3 s").waitFor();
      await page.getByText("Measuring for 3 s").waitFor({ state: "detached" });
      // Nothing of it sounds into the next.
      await page.waitForTimeout(Math.max(0, 7500 - (Date.now() - begun)));
    }
    expect(await meter(page, "2")).toEqual(["L50", "−19.5", "−29.0"]);
    // Which end is 0 dB moves all levels alike, so that no input tells.
    await part
      .getByText("2 laws fit: “Linear (unity hard-panned)” and “Linear (unity at centre)”.")
      .waitFor();
    await part.getByText("No other reading is likely to tell them apart: use the first.").waitFor();
    await tap(page.getByRole("button", { name: "Use Linear (unity hard-panned)" }));
    await page.getByText("The plan now has this pan law").waitFor();
    await inspect(page, "a law by input");
    expect(faults).toEqual([]);
    await context.close();
  });
});
