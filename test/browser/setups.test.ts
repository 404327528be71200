import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { MAX_SETUP_BYTES } from "../../src/document/limits";
import { VERSION } from "../../src/document/schema";
import { packed } from "../shelf/forged";
import {
  choose,
  downloaded,
  go,
  inputs,
  keepIt,
  overhang,
  shelved,
  shown,
  states,
  unfold,
  visit,
} from "./hall";
import {
  axeFindings,
  drawn,
  type Phone,
  phone,
  phoneWithCopy,
  serveApp,
  stopServer,
  typeKeys,
} from "./harness";
import { browser, site } from "./stage";

const EXAMPLE = "Tallow Street Soul at Linden Hall";
const HOSTILE = `"><img src=x onerror="document.title='taken'"> ${"x".repeat(20)}`;
const FULL = readFileSync(join(import.meta.dirname, `../fixtures/setup-v${VERSION}.json`), "utf8");

const toSetups = async (options?: Parameters<typeof phone>[1]): Promise<Phone> => {
  const user = await phone(browser, options);
  await user.page.goto(`${site.url}#setups`);
  await drawn(user.page);
  await states(user.page, "on this device");
  return user;
};

const more = (page: Page, name: string): Promise<void> =>
  page.getByRole("button", { name: `More for ${name}`, exact: true }).click();

const rename = async (page: Page, from: string, to: string): Promise<void> => {
  await more(page, from);
  const field = page.getByLabel("Name", { exact: true });
  await typeKeys(field, to);
  await field.press("Enter");
  await page.getByRole("button", { name: `More for ${to}`, exact: true }).waitFor();
  await more(page, to);
};

const linkOf = async (page: Page): Promise<string> => {
  await unfold(page, "Share the open setup");
  return page.getByLabel(/^The link, /).inputValue();
};

/** How many setups the browser keeps, without asking the app. */
const kept = (page: Page): Promise<number> =>
  page.evaluate(
    () =>
      new Promise<number>((done, failed) => {
        const request = indexedDB.open("hatside");
        request.onerror = () => failed(request.error);
        request.onsuccess = () => {
          const db = request.result;
          const [store = ""] = db.objectStoreNames;
          const keys = db.transaction(store).objectStore(store).getAllKeys();
          keys.onsuccess = () => {
            db.close();
            done(keys.result.filter((key) => String(key).startsWith("setup-")).length);
          };
        };
      }),
  );

/** The link with a setup of version 1 in it that has a field which no version knows. */
const carrying = (unknown: string) => (link: string) =>
  link.replace(/#.*/, packed(`{"format": "hatside-setup", "version": 1, "unknown": ${unknown}}`));

describe("a setup by link", () => {
  it("reaches a fresh phone with no network, is shown, and kept only on a tap", async () => {
    const own = await serveApp();
    const [sender, receiver] = [await phoneWithCopy(browser), await phoneWithCopy(browser)];
    await visit(sender, own);
    await visit(receiver, own);
    await stopServer(own);

    await go(sender.page, "setups");
    await rename(sender.page, EXAMPLE, HOSTILE);
    const link = await linkOf(sender.page);
    expect(link).toMatch(new RegExp(`^${own.url}#s=`));
    await sender.page.getByRole("img", { name: /^QR code of the link to/ }).waitFor();
    await sender.context.grantPermissions(["clipboard-read", "clipboard-write"]);
    await sender.page.getByRole("button", { name: "Share the link" }).click();
    await sender.page.getByText("Link copied.").waitFor();
    expect(await sender.page.evaluate(() => navigator.clipboard.readText())).toBe(link);
    // What was said of the setup as it was goes when it changes, and the link is another.
    await typeKeys(sender.page.getByLabel("Note on the open setup"), "Bring the spare snare");
    await expect.poll(() => sender.page.getByText("Link copied.").count()).toBe(0);
    await expect.poll(() => sender.page.getByLabel(/^The link, /).inputValue()).not.toBe(link);
    await go(sender.page, "patch");
    const sent = await inputs(sender.page);

    const page = await receiver.context.newPage();
    await receiver.page.close();
    await page.goto(link);
    await states(page, `Import “${HOSTILE}”?`);
    await page
      .getByText("20 channels, 2 buses, 6 listeners and 15 of 16 inputs used; right-handed kit.")
      .waitFor();
    expect(await kept(page)).toBe(1);
    await page.getByRole("button", { name: "Cancel" }).click();
    await states(page, "on this device");
    expect(await shelved(page)).toEqual([EXAMPLE]);
    expect(await kept(page)).toBe(1);

    await go(page, link.slice(link.indexOf("#") + 1));
    await keepIt(page);
    await states(page, "8 channels in Drums");
    expect(await page.evaluate(() => location.hash)).toBe("#channels");
    await go(page, "patch");
    expect(await inputs(page)).toEqual(sent);
    await go(page, "setups");
    expect(await shelved(page)).toEqual([HOSTILE, EXAMPLE]);
    await page.reload();
    await drawn(page);
    expect(await shown(page.locator(".head .name"))).toContain(HOSTILE.slice(0, 40));
    expect(await page.title()).toBe("Hatside");
    expect([...sender.faults, ...receiver.faults]).toEqual([]);
    await sender.context.close();
    await receiver.context.close();
  });

  it.each([
    ["cut off", (link: string) => link.slice(0, -40), /cut off: \d+ of \d+ characters/],
    ["altered", (link: string) => link.replace(/.$/, (c) => (c === "A" ? "B" : "A")), /altered on its way/],
    ["empty", (link: string) => link.replace(/#s=.*/, "#s="), /no setup in this link/],
    ["of a newer version", (link: string) => link.replace("#s=1.", "#s=7."), /newer version of this app/],
    ["too large once it is expanded", carrying(`"${"a".repeat(4_000_000)}"`), /expands to more than 4 MB/],
  ])("that is %s says so, and nothing is kept", async (_, spoil, says) => {
    const user = await toSetups();
    const { page } = user;
    const link = spoil(await linkOf(page));
    await page.goto("about:blank");
    await page.goto(link);
    await states(page, "Nothing to import");
    await page.getByText(says).waitFor();
    // The history does not keep it either.
    expect(await page.evaluate(() => location.hash)).toBe("#setups");
    await page.getByRole("button", { name: "Back to setups" }).click();
    expect(await shelved(page)).toEqual([EXAMPLE]);
    await go(page, "channels");
    await page.goBack();
    await states(page, "on this device");
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

describe("files", () => {
  it("a backup is restored on another phone, as much of it as is chosen", async () => {
    const user = await toSetups();
    await more(user.page, EXAMPLE);
    await user.page.getByRole("button", { name: "Duplicate" }).click();
    await user.page.getByRole("button", { name: "Back up 2 setups" }).waitFor();
    await more(user.page, EXAMPLE);
    await rename(user.page, `${EXAMPLE} 2`, "Next week's drummer");
    const backup = await downloaded(user.page, "Back up 2 setups");

    const other = await toSetups();
    const { page } = other;
    await choose(page, "Import a setup or backup", "all.json", backup);
    await states(page, "2 setups to choose from");
    expect(await kept(page)).toBe(1);
    await page.getByRole("checkbox", { name: EXAMPLE }).uncheck();
    await page.getByRole("button", { name: "Import 1 setup" }).click();
    await page.getByText("1 setup imported").waitFor();
    expect(await shelved(page)).toEqual(["Next week's drummer", EXAMPLE]);
    await choose(page, "Import a setup or backup", "all.json", backup);
    await page.getByRole("button", { name: "Import 2 setups" }).click();
    await page.getByText("2 setups imported").waitFor();
    expect((await shelved(page)).sort()).toEqual([
      "Next week's drummer",
      "Next week's drummer 2",
      EXAMPLE,
      `${EXAMPLE} 2`,
    ]);
    expect(await kept(page)).toBe(4);
    expect([...user.faults, ...other.faults]).toEqual([]);
    await user.context.close();
    await other.context.close();
  });

  it("a second tap imports nothing twice, nor opens or removes it twice", async () => {
    const user = await toSetups();
    const { page } = user;
    const twice = (name: string): Promise<void> =>
      page.getByRole("button", { name, exact: true }).evaluate((button) => {
        (button as HTMLElement).click();
        (button as HTMLElement).click();
      });
    await more(page, EXAMPLE);
    await twice("Duplicate");
    await page.getByText("Copied as").waitFor();
    expect(await shelved(page)).toEqual([`${EXAMPLE} 2`, EXAMPLE]);
    const backup = await downloaded(page, "Back up 2 setups");
    await choose(page, "Import a setup or backup", "all.json", backup);
    await twice("Import 2 setups");
    await page.getByText("2 setups imported").waitFor();
    await choose(page, "Import a setup or backup", "one.json", FULL);
    await twice("Import and open");
    await page.waitForFunction(() => location.hash === "#channels");
    await go(page, "setups");
    expect(await shelved(page)).toHaveLength(5);
    const name = JSON.parse(FULL).name as string;
    await more(page, name);
    await twice("Remove");
    await page.getByText(`“${name}” removed`).waitFor();
    await page.waitForTimeout(300);
    expect(await page.locator(".toast").textContent()).toContain("removed");
    expect(await kept(page)).toBe(4);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("what could not be imported for want of room is what is still chosen", async () => {
    const user = await toSetups();
    const { page } = user;
    const one = JSON.parse(FULL);
    const setups = [1, 2, 3].map((n) => ({ ...one, name: `Night ${n}` }));
    const backup = JSON.stringify({ format: "hatside-backup", version: 1, setups, unread: [] });
    await choose(page, "Import a setup or backup", "all.json", backup);
    await page.getByRole("button", { name: "Import 3 setups" }).waitFor();
    await page.evaluate(() => {
      const { put } = IDBObjectStore.prototype;
      let left = 2;
      IDBObjectStore.prototype.put = function (...given) {
        if (left === 0) {
          IDBObjectStore.prototype.put = put;
          throw new DOMException("no room", "QuotaExceededError");
        }
        left -= 1;
        return put.apply(this, given);
      };
    });
    await page.getByRole("button", { name: "Import 3 setups" }).click();
    await page.getByText("2 setups imported, then stopped: the browser’s storage is full").waitFor();
    await page.getByRole("button", { name: "Import 1 setup", exact: true }).click();
    await page.getByText("1 setup imported").waitFor();
    expect((await shelved(page)).sort()).toEqual(["Night 1", "Night 2", "Night 3", EXAMPLE]);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("a setup file is shown with what was not understood, and comes back whole", async () => {
    const user = await toSetups();
    const { page } = user;
    const spoilt = JSON.stringify({ ...JSON.parse(FULL), name: HOSTILE, colour: "red", note: 7 });
    await choose(page, "Import a setup or backup", "spoilt.hatside.json", spoilt);
    await states(page, `Import “${HOSTILE}”?`);
    await unfold(page, "in the file; the rest is complete");
    await page.getByText(/^note: 7/).waitFor();
    await keepIt(page);
    await go(page, "setups");
    await more(page, HOSTILE);
    const out = JSON.parse(await downloaded(page, "Share or download the file"));
    expect(out).toEqual({ ...JSON.parse(FULL), name: HOSTILE, note: "" });
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it.each([
    ["no JSON", "{ half", /this is not JSON/],
    ["something else", `{"a":1}`, /not a setup of Hatside/],
    ["a newer setup", FULL.replace('"version": 3', '"version": 99'), /from a newer Hatside/],
    [
      "a newer backup",
      `{"format":"hatside-backup","version":9,"setups":[]}`,
      /backup is from a newer Hatside/,
    ],
    ["no text", Buffer.from([0xff, 0xfe, 0xfd]), /not a text file/],
  ])("%s is refused with the reason", async (_, content, says) => {
    const user = await toSetups();
    const { page } = user;
    await choose(page, "Import a setup or backup", "odd.json", content);
    await states(page, "Nothing to import");
    expect(await shown(page.getByRole("listitem").filter({ hasText: says }))).toContain("odd.json");
    expect(await kept(page)).toBe(1);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("too large a file is refused with the reason", async () => {
    const user = await toSetups();
    const { page } = user;
    await page.getByLabel("Import a setup or backup").evaluate((input, size) => {
      const chosen = new DataTransfer();
      chosen.items.add(new File(["x".repeat(size)], "odd.json"));
      (input as HTMLInputElement).files = chosen.files;
      input.dispatchEvent(new Event("change", { bubbles: true }));
    }, MAX_SETUP_BYTES + 1);
    await states(page, "Nothing to import");
    await page.getByText("“odd.json”: 40.1 MB is too large. Allowed: up to 40.0 MB.").waitFor();
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("shared to the app are looked at when it opens: a setup, and a list", async () => {
    const user = await toSetups();
    const { page } = user;
    const share = (name: string, content: string) =>
      page.evaluate(
        async ([file, text]) => {
          const cache = await caches.open("hatside-shared");
          await cache.put(`shared/1/${encodeURIComponent(file ?? "")}`, new Response(text));
        },
        [name, content],
      );
    await share("from a friend.hatside", FULL);
    await page.goto(site.url);
    await states(page, `Import “${JSON.parse(FULL).name}”?`);
    await page.getByRole("button", { name: "Cancel" }).click();
    await share("band.csv", "Name,Input\nCongas,15\n");
    await page.goto("about:blank");
    await page.goto(site.url);
    await page.getByRole("button", { name: "Import 1 channel" }).waitFor();
    await page.getByText("From “band.csv”").waitFor();
    expect(await kept(page)).toBe(1);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

describe("the shelf", () => {
  it("duplicates, renames, finds, compares, deletes and puts back", async () => {
    const user = await toSetups();
    const { page } = user;
    await more(page, EXAMPLE);
    // A copy is open at once, and asks what is different next time.
    await page.getByRole("button", { name: "Duplicate" }).click();
    await page.getByText(`Copied as “${EXAMPLE} 2”`).waitFor();
    await page.getByText(`Open now: “${EXAMPLE} 2”.`).waitFor();
    const card = page.getByRole("region", { name: "What is different next time?" });
    await card.getByLabel("Drummer").fill("Nia, drums");
    await card.getByText("Left-handed").click();
    await card.getByLabel("Trumpet").uncheck();
    await card.getByLabel("Lene, keys").uncheck();
    await card.getByLabel("New channels, one per line").fill("24 Congas");
    expect(await overhang(page)).toBe(0);
    expect(await axeFindings(page)).toEqual([]);
    await card.getByRole("button", { name: "Apply to plan" }).click();
    await page.getByText("Plan changed for next time").waitFor();
    expect(await card.count()).toBe(0);
    await page.getByRole("link", { name: "What to set at the desk" }).click();
    await page.getByText("Ch 13 Trumpet").first().waitFor();
    await go(page, "image");
    await page.getByText("Nia").first().waitFor();
    await page.getByRole("button", { name: "Undo: set up next time" }).click();
    await page.getByText("Mara").first().waitFor();
    await go(page, "setups");
    await more(page, EXAMPLE);
    for (let n = 3; n <= 5; n += 1) {
      await page.getByRole("button", { name: "Duplicate" }).click();
      await page.getByText(`Copied as “${EXAMPLE} ${n}”`).waitFor();
    }
    await more(page, EXAMPLE);
    await rename(page, `${EXAMPLE} 5`, "Next week's drummer");
    await page.getByLabel("Search by name").fill("NEXT week");
    expect(await shelved(page)).toEqual(["Next week's drummer"]);
    await page.getByRole("button", { name: /^Next week's drummer/ }).click();
    await states(page, "8 channels in Drums");
    await page.getByRole("button", { name: "Mute Hat" }).click();
    await go(page, "setups");
    await page.getByLabel("Search by name").fill("");
    await unfold(page, "Compare two setups");
    await page.getByLabel("First").selectOption({ label: EXAMPLE });
    await page.getByLabel("Second").selectOption({ label: "Next week's drummer" });
    await page.getByText("1 difference. In “Next week's drummer”:").waitFor();
    expect(await page.locator(".differences li").allInnerTexts()).toEqual([
      "Hat: muted instead of not muted",
    ]);

    await more(page, "Next week's drummer");
    await page.getByRole("button", { name: "Remove" }).click();
    await page.getByText("“Next week's drummer” removed").waitFor();
    expect(await shelved(page)).not.toContain("Next week's drummer");
    expect(await kept(page)).toBe(4);
    await page.locator(".toast").getByRole("button", { name: "Undo" }).click();
    await page.getByText("Open now: “Next week's drummer”.", { exact: true }).waitFor();
    expect(await shelved(page)).toContain("Next week's drummer");
    await go(page, "channels");
    expect(await page.getByRole("button", { name: "Mute Hat" }).getAttribute("aria-pressed")).toBe("true");
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("keeps the chosen looks, and follows the device where that is chosen", async () => {
    const user = await toSetups({ colorScheme: "dark" });
    const { page } = user;
    const looks = () => page.evaluate(() => document.documentElement.dataset.theme);
    expect(await looks()).toBe("dark");
    await page.getByText("Light", { exact: true }).click();
    expect(await looks()).toBe("light");
    await page.reload();
    await drawn(page);
    expect(await looks()).toBe("light");
    await page.getByText("System", { exact: true }).click();
    expect(await looks()).toBe("dark");
    await page.emulateMedia({ colorScheme: "light" });
    await expect.poll(looks).toBe("light");
    await user.context.close();
  });
});

it.each(["Dark", "Light"])("has no findings and no sideways scroll, %s", async (looks) => {
  const user = await toSetups({ viewport: { width: 320, height: 640 } });
  const { page } = user;
  await page.getByText(looks, { exact: true }).click();
  await more(page, EXAMPLE);
  await page.getByRole("button", { name: "Duplicate" }).click();
  await page.getByText("Copied as").waitFor();
  await linkOf(page);
  await unfold(page, "Compare two setups");
  await page.getByText("No difference except the name.").waitFor();
  const check = async () => {
    expect(await overhang(page)).toBe(0);
    expect(await axeFindings(page)).toEqual([]);
  };
  await check();
  const backup = await downloaded(page, "Back up 2 setups");
  await choose(page, "Import a setup or backup", `${"long".repeat(30)}.json`, backup);
  await states(page, "2 setups to choose from");
  await check();
  expect(user.faults).toEqual([]);
  await user.context.close();
});
