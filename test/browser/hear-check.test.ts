import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { checkNames } from "../../src/text/check";
import { describeHeardFault } from "../../src/text/hear-faults";
import { longestTask } from "../tools/longest-task.mjs";
import { shown, visit } from "./hall";
import { tap } from "./hands";
import { type Phone, phone, serveApp, stopServer } from "./harness";
import { inspect, WALK_MS } from "./inspect";
import { checkSound } from "./kit-sound";
import { byInput, launchHearing, openInput } from "./pair";

/** What the app opens with at the first start. */
const SETUP = exampleSetup();
const MARA = SETUP.listeners.find(({ name }) => name === "Mara, drums");
if (!MARA) throw new Error("nobody is called Mara");

/** Starts a check by input, and lets the hits begin with it; done once there is a verdict. */
const checkByHits = async (page: Page): Promise<void> => {
  await openInput(page);
  await tap(page.getByRole("button", { name: "Start the check" }));
  await page.getByText(/^Hit the /).waitFor();
  await tap(page.getByRole("button", { name: "Close the input" }));
  const last = page.getByRole("button", { name: "Remove last hit" });
  while (await last.isEnabled()) await tap(last);
  // A hit is not taken while the last one is still being judged, which takes a busy machine long.
  await page.waitForTimeout(5000);
  await openInput(page);
  await page.getByRole("button", { name: "Check again" }).waitFor({ timeout: 90_000 });
};

/** Runs with a phone whose network is off and whose input hears a kit. */
const atKit = async (
  wrong: Parameters<typeof checkSound>[1],
  run: (user: Phone) => Promise<void>,
): Promise<void> => {
  const own = await serveApp();
  const kit = await launchHearing(checkSound(SETUP, wrong));
  const user = await phone(kit.browser);
  await visit(user, own);
  await stopServer(own);
  await byInput(user.page);
  await run(user);
  await kit.close();
};

describe("a check by hits, with no network", () => {
  it("names the fault from the hits alone, with what to do, and records it", {
    timeout: WALK_MS,
  }, async () => {
    // Any hit tells this one: on a busy machine one may be lost, and those after it are then of other drums than asked for.
    await atKit({ fault: "left-only", channel: null }, async ({ page, faults }) => {
      const { ms } = await longestTask(page, () => checkByHits(page));
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
});
