import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { toFragment } from "../../src/shelf/link";
import { states, unfold } from "./hall";
import { openAt } from "./hands";
import { phone } from "./harness";
import { browser, site } from "./stage";

/** Taps what says so, or presses a key once it is there, in the very moment that it comes: before the next frame. */
const inTheMoment = (page: Page, selector: string, says: string, key?: string): Promise<void> =>
  page.evaluate(
    ([all, word, pressed]) =>
      new MutationObserver((_, watch) => {
        const it = [...document.querySelectorAll<HTMLElement>(all)].find((e) =>
          e.textContent?.startsWith(word),
        );
        if (!it) return;
        watch.disconnect();
        if (pressed) it.dispatchEvent(new KeyboardEvent("keydown", { key: pressed, bubbles: true }));
        else it.click();
      }).observe(document.body, { childList: true, subtree: true, characterData: true }),
    [selector, says, key] as const,
  );

describe("who is quicker than the next frame", () => {
  it("prints the sheet, not the screen", async () => {
    const { page, faults, context } = await phone(browser);
    await openAt(page, site, "patch");
    await page.evaluate(() => {
      globalThis.print = () => {
        document.body.dataset.printed = document.querySelector(".paper h1")?.textContent ?? "no sheet";
      };
    });
    await inTheMoment(page, "button", "Print the sheet");
    await unfold(page, "Patch sheet for the desk");
    await page.locator("body[data-printed]").waitFor();
    expect(await page.locator("body").getAttribute("data-printed")).toBe("Tallow Street Soul at Linden Hall");
    expect(faults).toEqual([]);
    await context.close();
  });

  it("answers the first question of a check by key", async () => {
    const { page, faults, context } = await phone(browser);
    await openAt(page, site, "check");
    await inTheMoment(page, ".question", "Hit the ", "1");
    await page.getByRole("button", { name: "Start the check" }).click();
    await page.getByText("Next hit").waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });

  it("sees no link to the setup as it was", async () => {
    const { page, faults, context } = await phone(browser);
    await openAt(page, site, "patch");
    await page.locator(".monitor-input > summary").first().click();
    await page.locator(".monitor-input button").first().waitFor();
    await unfold(page, "Send this setup to another phone");
    const link = page.getByLabel(/^The link, /);
    await link.waitFor();
    const stale = await page.evaluate(
      (was) => {
        const shows = new Promise<boolean>((done) =>
          new MutationObserver((_, watch) => {
            watch.disconnect();
            requestAnimationFrame(() =>
              done([...document.querySelectorAll("textarea")].some((field) => field.value === was)),
            );
          }).observe(document.body, {
            childList: true,
            subtree: true,
            characterData: true,
            attributes: true,
          }),
        );
        document.querySelector<HTMLElement>(".monitor-input button")?.click();
        return shows;
      },
      await link.inputValue(),
    );
    expect(stale).toBe(false);
    await link.waitFor();
    expect(faults).toEqual([]);
    await context.close();
  });

  it("sees what a link brings, and not the setups of the device first", async () => {
    const { page, faults, context } = await phone(browser);
    await page.addInitScript(() => {
      const seen: string[] = [];
      Object.assign(globalThis, { seen });
      const look = (): void => {
        seen.push(document.querySelector("main h1")?.textContent ?? "");
        requestAnimationFrame(look);
      };
      requestAnimationFrame(look);
    });
    await page.goto(`${site.url}${await toFragment(exampleSetup())}`);
    await states(page, "Import “Tallow Street Soul at Linden Hall”?");
    const seen = await page.evaluate(() => (globalThis as unknown as { seen: string[] }).seen);
    expect(seen.filter((says) => says.includes("on this device"))).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("hears what is to be heard", async () => {
    const { page, faults, context } = await phone(browser);
    await openAt(page, site, "image");
    await inTheMoment(page, "button", "Listen");
    await unfold(page, "Listen to it");
    await page.getByRole("button", { name: "Stop", exact: true }).click();
    expect(faults).toEqual([]);
    await context.close();
  });
});
