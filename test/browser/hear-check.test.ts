import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { checkNames } from "../../src/text/check";
import { describeHeardFault } from "../../src/text/hear-faults";
import { eveningOf, hitOn, type Wrong } from "../core/hear/stage";
import { numbers } from "../tools/chance.mjs";
import { longestTask } from "../tools/longest-task.mjs";
import { shown, visit } from "./hall";
import { tap } from "./hands";
import { launch, type Phone, phoneWithCopy, serveApp, stopServer } from "./harness";
import { inspect, WALK_MS } from "./inspect";
import { byInput, giveInput, openInput, RATE, strike } from "./pair";

/** What the app opens with at the first start. */
const SETUP = exampleSetup();
const MARA = SETUP.listeners.find(({ name }) => name === "Mara, drums");
if (!MARA) throw new Error("nobody is called Mara");

/** Nobody reads what to hit and strikes it sooner. */
const READ_MS = 1000;
/** Longer than a hit is on its way, measured, and said. */
const HEARD_MS = 800;

/** Hits what is asked for until there is a verdict, and again what did not count. */
const checkByHits = async (page: Page, wrong: Wrong, seed: number): Promise<void> => {
  const evening = eveningOf(SETUP, wrong, RATE, numbers(seed));
  const question = page.locator("h1.question");
  const judging = page.getByText("Heard.", { exact: true });
  await question.waitFor();
  while (await question.isVisible()) {
    const asked = (await question.textContent()) ?? "";
    const piece = SETUP.kit.pieces.find(({ name }) => asked === `Hit the ${name}.`);
    if (!piece) throw new Error(asked);
    await page.waitForTimeout(READ_MS);
    const { left, right } = hitOn(evening, piece.id);
    await strike(page, [left, right]);
    await page.waitForTimeout(HEARD_MS);
    await judging.waitFor({ state: "detached" });
  }
  await page.getByRole("button", { name: "Check again" }).waitFor();
};

/** Runs with a phone whose network is off and whose input hears a kit. */
const atKit = async (run: (user: Phone) => Promise<void>): Promise<void> => {
  const own = await serveApp();
  // What is played into the input begins without a tap.
  const browser = await launch(["--autoplay-policy=no-user-gesture-required"]);
  const user = await phoneWithCopy(browser);
  await visit(user, own);
  await stopServer(own);
  await giveInput(user.page);
  await byInput(user.page);
  await openInput(user.page);
  await tap(user.page.getByRole("button", { name: "Start the check" }));
  await run(user);
  await browser.close();
};

describe("a check by hits, with no network", () => {
  it("names the fault from the hits alone, with what to do, and records it", {
    timeout: WALK_MS,
  }, async () => {
    await atKit(async ({ page, faults }) => {
      const wrong = { fault: "left-only", channel: null };
      const { ms } = await longestTask(page, () => checkByHits(page, wrong, 2));
      expect(ms).toBeLessThan(50);
      const suspect = { fault: "left-only", channel: null, pan: null, trim: null } as const;
      const text = describeHeardFault(SETUP, MARA, checkNames(SETUP, MARA), suspect);
      expect(await page.locator("h1").textContent()).toContain(text.name);
      const main = await shown(page.locator("main"));
      for (const step of text.steps) expect(main).toContain(step);
      expect(main).toContain("L only");
      await inspect(page, "a verdict by hits");
      await page.getByText("Or leave it as it is").first().click();
      await tap(page.getByRole("button", { name: /^Record as found/ }).first());
      await page.getByText("The plan is now as found").waitFor();
      expect(faults).toEqual([]);
    });
  });

  it("says “as planned” where nothing is wrong", { timeout: WALK_MS }, async () => {
    await atKit(async ({ page, faults }) => {
      await checkByHits(page, { fault: "planned", channel: null }, 3);
      expect(await page.locator("h1").textContent()).toMatch(/^As planned/);
      expect(faults).toEqual([]);
    });
  });
});
