import { describe, expect, it } from "vitest";
import { expectFault } from "./faults";
import { alert, go, states } from "./hall";
import { openAll, openAt, settled } from "./hands";
import { drawn, keepsNothing, phone } from "./harness";
import { inspect, LONGEST, WALK_MS, wordsStay } from "./inspect";
import { slider } from "./kick";
import { agreeButton, withFirst } from "./newer";
import { browser, site } from "./stage";
import { lay, onlyKey, things } from "./things";

describe("nothing is found in a notice:", { timeout: WALK_MS }, () => {
  it("nothing can be kept, neither setups nor the app", async () => {
    const { page, context } = await phone(browser);
    await page.addInitScript((name) => {
      IDBFactory.prototype.open = () => {
        throw new DOMException("refused", "SecurityError");
      };
      navigator.serviceWorker.register = () => Promise.reject(new Error(`not on this ${name}`));
    }, LONGEST);
    await openAt(page, site, "channels");
    await alert(page).getByText("Nothing can be saved here").waitFor();
    await inspect(page, "channels");
    await go(page, "setups");
    await page.getByText(/^No offline copy: .* It works online only\.$/).waitFor();
    await inspect(page, "setups");
    await context.close();
  });

  it("storage is full, and no newer version before there is room", async () => {
    await withFirst(browser, async ({ page }, _, putSecond) => {
      await putSecond();
      await agreeButton(page).waitFor();
      await wordsStay(page);
      await page.evaluate(() => {
        IDBObjectStore.prototype.put = () => {
          throw new DOMException("no room", "QuotaExceededError");
        };
      });
      // In one go: once the write has failed, the button is gone.
      await agreeButton(page).evaluate((button) => {
        const kick = document.querySelector('[role=slider][aria-label="Channel pan of Kick"]');
        kick?.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
        (button as HTMLElement).click();
      });
      await page.locator(".toast").getByText("Not yet: the open setup is not saved.").waitFor();
      await alert(page).getByText("Not saved: the browser’s storage is full").waitFor();
      await inspect(page, "full");
      expect(await page.locator(".toast").count()).toBe(1);
    });
  });

  it.each([
    ["cannot be read", "was not opened and stays as it is.", (text: string) => text.slice(0, 500)],
    [
      "was not read whole",
      "was read only in part.",
      (text: string) => text.replace(/"(yaw|facing)": ?[-\d.]+/g, '"$1": 999'),
    ],
  ])("a setup %s", async (_, says, spoil) => {
    const { page, context } = await phone(browser);
    await openAt(page, site, "channels");
    const key = await onlyKey(page);
    const whole = (await things(page))[key] as { readonly text: string };
    await lay(page, key, { ...whole, name: LONGEST, text: spoil(whole.text) });
    await page.reload();
    await drawn(page);
    await alert(page).getByText(says).waitFor();
    await inspect(page, says);
    await context.close();
  });

  it("another tab is editing", async () => {
    const { page, context } = await phone(browser);
    await openAt(page, site, "channels");
    await settled(page);
    const other = await context.newPage();
    await openAt(other, site, "channels");
    await other.getByText("Another tab is editing. This one is view-only.").waitFor();
    await wordsStay(other);
    for (const place of ["channels", "patch", "setups"]) {
      await go(other, place);
      await openAll(other);
      await inspect(other, place);
    }
    await go(other, "image");
    await other.getByRole("button", { name: "Apply to plan" }).first().click();
    await other.locator(".toast").getByText("Not done: another tab is editing").waitFor();
    await inspect(other, "image");
    await context.close();
  });

  it("another tab changed the same setup", async () => {
    const { page, context } = await phone(browser);
    await openAt(page, site, "channels");
    await settled(page);
    const key = await onlyKey(page);
    const was = (await things(page))[key] as { readonly revision: number };
    await lay(page, key, { ...was, writer: "another", revision: was.revision + 1 });
    await slider(page).press("ArrowRight");
    await alert(page)
      .getByText(/^Another tab changed /)
      .waitFor();
    await inspect(page, "changed");
    await context.close();
  });
});

describe("nothing is found where a part", { timeout: WALK_MS }, () => {
  it("is still on its way", async () => {
    const { page, context } = await phone(browser);
    await keepsNothing(page);
    await page.route("**/repair-list-*.js", () => {});
    await openAt(page, site, "image");
    await states(page, /^L\/R swapped for Mara/);
    await page.getByText("One moment …").first().waitFor();
    await inspect(page, "on its way");
    await context.close();
  });

  it("is a whole screen and still on its way", async () => {
    const { page, context } = await phone(browser);
    await keepsNothing(page);
    await page.route("**/image-*.js", () => {});
    await openAt(page, site, "channels");
    await page.getByRole("link", { name: "Image" }).click();
    await states(page, "One moment …");
    await inspect(page, "on its way");
    await context.close();
  });

  it.each([
    ["image", "Image", "link"],
    ["repair-list", "Image", "link"],
    ["running", "Start the check", "button"],
  ] as const)("could not be loaded: %s", async (part, tapped, role) => {
    const { page, context } = await phone(browser);
    await keepsNothing(page);
    await page.route(`**/${part}-*.js`, (route) => route.abort());
    await openAt(page, site, role === "link" ? "channels" : "check");
    await page.getByRole(role, { name: tapped }).click();
    await alert(page).getByText("This part of Hatside could not be loaded").waitFor();
    await inspect(page, part);
    await expectFault(context, /ERR_FAILED/);
    await context.close();
  });
});
