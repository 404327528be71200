import type { Locator, Page } from "playwright-core";
import { expect, it } from "vitest";
import { choose, downloaded, go, keepIt, overhang, shelved, states, unfold } from "./hall";
import { loaded, openAll, openAt, settled } from "./hands";
import { drawn, type Phone, phone, typeKeys } from "./harness";
import { CORPUS } from "./hostile";
import { harm, harmless } from "./hostile-page";
import { inspect, WALK_MS } from "./inspect";
import { browser, site } from "./stage";
import { lay, things } from "./things";

const at = async (place: string): Promise<Phone> => {
  const user = await phone(browser);
  await openAt(user.page, site, place);
  return user;
};
/** The part of Channels where desks are saved and used. */
const toDesks = async (page: Page): Promise<Locator> => {
  await go(page, "channels");
  await loaded(page);
  await unfold(page, "Saved desks");
  const part = page.locator("details", { has: page.locator("summary", { hasText: /^Saved desks$/ }) });
  await part.getByRole("button", { name: "Import a desk" }).waitFor();
  return part;
};
const toStart = async (page: Page): Promise<Locator> => {
  await go(page, "setups");
  const start = page.getByRole("button", { name: /^Start with / });
  if ((await start.count()) === 0) await unfold(page, "Start a new setup");
  return start;
};
const startNew = async (page: Page): Promise<void> => {
  await (await toStart(page)).click();
  await page.waitForFunction(() => location.hash === "#channels");
};
const deskField = async (page: Page, label: string): Promise<string> => {
  await go(page, "channels");
  await loaded(page);
  if ((await page.getByLabel(label, { exact: true }).count()) === 0) await unfold(page, "The desk: numbers");
  return page.getByLabel(label, { exact: true }).inputValue();
};
const setDesk = async (page: Page, name: string, channels: string): Promise<void> => {
  await deskField(page, "Desk name");
  await typeKeys(page.getByLabel("Desk name", { exact: true }), name);
  await typeKeys(page.getByLabel("Channels of the desk", { exact: true }), channels);
  await page.getByLabel("Channels of the desk", { exact: true }).blur();
};
const savedNames = (part: Locator): Promise<string[]> => part.locator(".saved-desk b").allInnerTexts();
const toast = (page: Page): Locator => page.locator(".toast");

it("a desk is saved, a new setup starts with it, and it reaches another phone by file and link", async () => {
  const user = await at("channels");
  const { page } = user;
  await startNew(page);
  await setDesk(page, "Hall desk", "32");
  const part = await toDesks(page);
  await part.getByRole("button", { name: "Save this desk" }).click();
  await toast(page).getByText("Desk saved as “Hall desk”").waitFor();
  await part.getByText("This setup’s desk is saved as “Hall desk”.").waitFor();
  await part.getByText("32 channels, 16 buses, 16 output ports").waitFor();

  // A new setup starts with it, and is not told apart.
  await startNew(page);
  expect(await deskField(page, "Desk name")).toBe("Hall desk");
  expect(await deskField(page, "Channels of the desk")).toBe("32");
  expect(await page.getByText("is for another desk").count()).toBe(0);

  await page.reload();
  await drawn(page);
  const again = await toDesks(page);
  await again.getByRole("button", { name: "More for Hall desk" }).click();
  await again.getByText("Share this desk").click();
  const file = await downloaded(page, "Share or download the file");
  const link = await again.getByLabel(/^The link, /).inputValue();
  expect(JSON.parse(file)).toMatchObject({ format: "hatside-desk", name: "Hall desk", channelCount: 32 });

  // The other phone has a setup of its own desk.
  const other = await at("channels");
  await startNew(other.page);
  await setDesk(other.page, "Club desk", "24");
  await go(other.page, "setups");
  await choose(other.page, "Import a setup or backup", "hall.hatside-desk.json", file);
  await states(other.page, "Import the desk “Hall desk”?");
  await other.page.getByText("32 channels, 16 buses, 16 output ports").waitFor();
  await inspect(other.page, "a desk before it is imported");
  await other.page.getByRole("button", { name: "Cancel" }).click();
  expect(Object.keys(await things(other.page)).filter((key) => key.startsWith("desk-"))).toEqual([]);

  await choose(other.page, "Import a setup or backup", "hall.hatside-desk.json", file);
  await other.page.getByRole("button", { name: "Import", exact: true }).click();
  await toast(other.page).getByText("Desk saved as “Hall desk”").waitFor();
  // Importing it changed no setup.
  expect(await deskField(other.page, "Desk name")).toBe("Club desk");

  await go(other.page, link.slice(link.indexOf("#") + 1));
  await states(other.page, "Import the desk “Hall desk”?");
  await other.page.getByRole("button", { name: "Import and use in the open setup" }).click();
  await toast(other.page).getByText("This setup’s desk is now “Hall desk 2”").waitFor();
  expect(await deskField(other.page, "Channels of the desk")).toBe("32");
  await other.page.getByRole("button", { name: "Undo: change desk" }).click();
  expect(await deskField(other.page, "Desk name")).toBe("Club desk");
  expect([...user.faults, ...other.faults]).toEqual([]);
  await user.context.close();
  await other.context.close();
});

it("a setup of another desk is told apart when it is opened, and changed only on a tap", async () => {
  const user = await at("channels");
  const { page } = user;
  await startNew(page);
  await setDesk(page, "Hall desk", "32");
  await toStart(page);
  await page.getByLabel("Desk", { exact: true }).selectOption({ label: "A new desk, typical values" });
  await startNew(page);
  await setDesk(page, "Club desk", "24");
  await settled(page);
  const [second = "", first = ""] = await (async () => {
    await go(page, "setups");
    return shelved(page);
  })();
  const open = (name: string) =>
    page.getByRole("button", { name: new RegExp(`^${name}\\s*changed`) }).click();
  const notice = page.locator(".notice", { hasText: "is for another desk" });

  await open(first);
  await notice.getByText(`“${first}” is for another desk: “Hall desk”. You last used “Club desk”.`).waitFor();
  await notice.getByText("2 settings differ").click();
  await expect
    .poll(() => notice.locator("li").allInnerTexts())
    .toEqual(["Name Hall desk instead of Club desk", "Channels 32 instead of 24"]);
  await inspect(page, "a setup of another desk");
  expect(await deskField(page, "Channels of the desk")).toBe("32");
  // Nobody has answered: it is asked again after a start.
  await page.reload();
  await drawn(page);
  await notice.getByRole("button", { name: "Use “Club desk”" }).click();
  await expect.poll(() => notice.count()).toBe(0);
  expect(await deskField(page, "Channels of the desk")).toBe("24");
  await page.getByRole("button", { name: "Undo: change desk" }).click();
  expect(await deskField(page, "Channels of the desk")).toBe("32");

  await go(page, "setups");
  await open(second);
  await notice.getByRole("button", { name: "Keep the setup’s desk" }).click();
  await expect.poll(() => notice.count()).toBe(0);
  expect(await deskField(page, "Channels of the desk")).toBe("24");
  await page.reload();
  await drawn(page);
  await toDesks(page);
  expect(await notice.count()).toBe(0);
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("saved desks are replaced, renamed, copied, used and removed, each with a way back", async () => {
  const user = await at("channels");
  const { page } = user;
  await startNew(page);
  await setDesk(page, "Hall desk", "32");
  const part = await toDesks(page);
  await part.getByRole("button", { name: "Save this desk" }).click();
  await part.getByText("This setup’s desk is saved as “Hall desk”.").waitFor();
  await part.getByRole("button", { name: "More for Hall desk" }).click();
  await part.getByRole("button", { name: "Duplicate" }).click();
  await toast(page).getByText("Copied as “Hall desk 2”").waitFor();
  const name = part.getByLabel("Name of the saved desk");
  await typeKeys(name, "Hall desk 2");
  await name.press("Enter");
  await toast(page).getByText("“Hall desk 2” is taken: renamed to “Hall desk 3”").waitFor();
  expect((await savedNames(part)).sort()).toEqual(["Hall desk 2", "Hall desk 3"]);

  await setDesk(page, "Hall desk 2", "24");
  await part.getByText("1 setting differs from the saved one").waitFor();
  await part.getByRole("button", { name: "Save as “Hall desk 4”" }).waitFor();
  await part.getByRole("button", { name: "Replace the saved one" }).click();
  await part.getByText("24 channels, 16 buses, 16 output ports").waitFor();
  await toast(page).getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => part.getByText("24 channels").count()).toBe(0);

  await part.getByRole("button", { name: "Use Hall desk 3 in this setup" }).click();
  await toast(page).getByRole("button", { name: "Undo" }).click();
  expect(await deskField(page, "Desk name")).toBe("Hall desk 2");

  await part.getByRole("button", { name: "Remove" }).click();
  await toast(page).getByText("Saved desk “Hall desk 3” removed").waitFor();
  expect(await savedNames(part)).toEqual(["Hall desk 2"]);
  await toast(page).getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => savedNames(part)).toHaveLength(2);

  // A backup has them too.
  await go(page, "setups");
  const backup = await downloaded(page, /^Back up 2 setups and 2 desks$/);
  const other = await at("setups");
  await choose(other.page, "Import a setup or backup", "all.json", backup);
  await states(other.page, "2 setups and 2 desks to choose from");
  await other.page.getByRole("button", { name: "Import 2 setups and 2 desks" }).click();
  await other.page.getByText("2 setups and 2 desks imported").waitFor();
  expect((await savedNames(await toDesks(other.page))).sort()).toEqual(["Hall desk 2", "Hall desk 3"]);
  expect([...user.faults, ...other.faults]).toEqual([]);
  await user.context.close();
  await other.context.close();
});

it("where storage is full, a desk is not saved and that is said; while another tab edits nothing can be", async () => {
  const user = await at("channels");
  const { page, context } = user;
  await startNew(page);
  await setDesk(page, "Hall desk", "32");
  await settled(page);
  const part = await toDesks(page);
  await page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    IDBObjectStore.prototype.put = () => {
      IDBObjectStore.prototype.put = put;
      throw new DOMException("no room", "QuotaExceededError");
    };
  });
  await part.getByRole("button", { name: "Save this desk" }).click();
  await toast(page).getByText("Desk not saved: the browser’s storage is full.").waitFor();
  expect(await savedNames(part)).toEqual([]);
  await part.getByRole("button", { name: "Save this desk" }).click();
  await part.getByText("This setup’s desk is saved as “Hall desk”.").waitFor();

  const second = await context.newPage();
  await openAt(second, site, "channels");
  await second.getByText("Another tab is editing.").waitFor();
  const looksOn = await toDesks(second);
  await looksOn.getByRole("button", { name: "More for Hall desk" }).click();
  for (const button of ["Duplicate", "Remove"])
    expect(await looksOn.getByRole("button", { name: button }).isDisabled()).toBe(true);
  expect(await looksOn.getByLabel("Name of the saved desk").isDisabled()).toBe(true);
  expect(user.faults).toEqual([]);
  await context.close();
});

it("of any name and state they are shown as text and stay usable", { timeout: WALK_MS }, async () => {
  const user = await at("channels");
  const { page } = user;
  await startNew(page);
  const desk = JSON.parse(JSON.stringify({ format: "hatside-desk", version: 3 }));
  const names = CORPUS.slice(0, 12);
  for (const [n, name] of names.entries()) {
    const text = JSON.stringify({ ...desk, name });
    await lay(page, `desk-${n}`, { name, changed: n, text, writer: "", revision: 1 });
  }
  await lay(page, "desk-newer", {
    name: CORPUS[1],
    changed: 99,
    text: JSON.stringify({ ...desk, version: 9 }),
  });
  const part = await toDesks(page);
  await part.getByText("This desk is from a newer Hatside").waitFor();
  await openAll(page);
  await harmless(page, names);
  await inspect(page, "saved desks of any name");
  await go(page, "setups");
  await choose(
    page,
    "Import a setup or backup",
    "desk.json",
    JSON.stringify({ ...desk, name: CORPUS.join(" ") }),
  );
  await states(page, "Import the desk “");
  await openAll(page);
  await harmless(page, [CORPUS.join(" ")]);
  await page.getByRole("button", { name: "Import and use in the open setup" }).click();
  await page.waitForFunction(() => location.hash === "#channels");
  await toast(page).getByText("This setup’s desk is now “").waitFor();
  expect(await harm(page)).toEqual([]);
  expect(await overhang(page)).toBe(0);
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("a setup that comes by file and is of another desk is told apart once it is open", async () => {
  const user = await at("channels");
  const { page } = user;
  await startNew(page);
  await setDesk(page, "Hall desk", "32");
  await settled(page);
  await go(page, "setups");
  const [name = ""] = await shelved(page);
  await page.getByRole("button", { name: `More for ${name}`, exact: true }).click();
  const sent = JSON.parse(await downloaded(page, "Share or download the file"));
  const guest = { ...sent, name: "Guest band", desk: { ...sent.desk, name: "Guest desk", law: "linear" } };
  await choose(page, "Import a setup or backup", "guest.json", JSON.stringify(guest));
  await keepIt(page);
  await page
    .getByText("“Guest band” is for another desk: “Guest desk”. You last used “Hall desk”.")
    .waitFor();
  expect(await deskField(page, "Desk name")).toBe("Guest desk");
  expect(user.faults).toEqual([]);
  await user.context.close();
});
