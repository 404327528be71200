import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { printSetup, readSetup } from "../../src/document/read-setup";
import { VERSION } from "../../src/document/schema";
import { alert, downloaded, go, shelved, states, visit } from "./hall";
import { openAt, settled, stored } from "./hands";
import { axeFindings, drawn, type Phone, phone, phoneWithMemory, withFolder } from "./harness";
import { kickIn, panOf, slider } from "./kick";
import { agree, agreeButton, isNewer, withFirst } from "./newer";
import { browser, site } from "./stage";
import { lay, onlyKey, textsIn, things } from "./things";

const FIRST = readFileSync(join(import.meta.dirname, "../fixtures/setup-v1.json"), "utf8");

/** Moves the kick by keys; gives the pan that stands afterwards, −100…+100. */
const pan = async (page: Page, key = "ArrowRight"): Promise<number> => {
  const before = await panOf(page);
  await slider(page).press(key);
  await expect.poll(() => panOf(page)).not.toBe(before);
  return panOf(page);
};
/** The kick's pan in a file is the one that is shown. */
const expectKick = (text: string, shown: number): void => {
  expect(kickIn(text).pan).toBeCloseTo(shown / 100, 6);
};

/** An edit is kept, and there after a reload. */
const keepsOn = async (page: Page): Promise<void> => {
  const edited = await pan(page);
  await settled(page);
  expectKick(await stored(page), edited);
  await page.reload();
  await drawn(page);
  expect(await panOf(page)).toBe(edited);
};

/** Asks the page to close, as a user does, and says whether it asked back. It stays open then. */
const asksBeforeClosing = async (page: Page): Promise<boolean> => {
  const asked = page.waitForEvent("dialog").then(async (dialog) => {
    expect(dialog.type()).toBe("beforeunload");
    await dialog.dismiss();
    return true;
  });
  const closed = page.waitForEvent("close").then(() => false);
  await page.close({ runBeforeUnload: true });
  return Promise.race([asked, closed]);
};

describe("where nothing can be kept", () => {
  /** What a page does then: it says so, works, hands out the file, and asks before what was done is lost. */
  const worksWithout = async (page: Page, why: string): Promise<void> => {
    await drawn(page);
    await expect.poll(() => alert(page).textContent()).toContain(`Nothing can be saved here: ${why}.`);
    expect(await axeFindings(page)).toEqual([]);
    const edited = await pan(page);
    await settled(page);
    expectKick(await downloaded(page, "Download the setup"), edited);
    await go(page, "setups");
    await page.getByText("Nothing can be saved in this browser: download your setups.").waitFor();
    expect(await shelved(page)).toEqual([exampleSetup().name]);
    await go(page, "channels");
    expect(await panOf(page)).toBe(edited);
    expect(await alert(page).count()).toBe(1);
    expect(await asksBeforeClosing(page)).toBe(true);
  };

  it.each([
    [
      "throws",
      "the browser does not let this page keep data",
      () => {
        IDBFactory.prototype.open = () => {
          throw new DOMException("refused", "SecurityError");
        };
      },
    ],
    [
      "fails",
      "the browser’s storage is refused or damaged",
      () => {
        IDBFactory.prototype.open = () => {
          const request = Object.setPrototypeOf(new EventTarget(), IDBOpenDBRequest.prototype);
          Object.defineProperty(request, "error", { value: new DOMException("broken", "UnknownError") });
          setTimeout(() => request.dispatchEvent(new Event("error")));
          return request;
        };
      },
    ],
    [
      "never answers",
      "the browser’s storage does not answer",
      () => {
        IDBFactory.prototype.open = () =>
          Object.setPrototypeOf(new EventTarget(), IDBOpenDBRequest.prototype);
      },
    ],
    [
      "is not there",
      "this browser keeps no data for pages",
      () => {
        Object.defineProperty(globalThis, "indexedDB", { value: undefined });
      },
    ],
  ])("because storage %s, it is said, work goes on, and the file can be taken", async (_, why, spoil) => {
    const { page, faults, context } = await phone(browser);
    await page.addInitScript(spoil);
    await page.goto(`${site.url}#channels`);
    await worksWithout(page, why);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("because the user forbids this page to keep anything", async () => {
    await withFolder(async (profile) => {
      mkdirSync(join(profile, "Default"));
      // Chromium's own setting “do not allow sites to save data on your device”.
      const settings = { profile: { default_content_setting_values: { cookies: 2 } } };
      writeFileSync(join(profile, "Default", "Preferences"), JSON.stringify(settings));
      const { page, faults, context } = await phoneWithMemory(profile);
      await page.goto(`${site.url}#channels`);
      await worksWithout(page, "the browser’s storage is refused or damaged");
      await go(page, "setups");
      await page.getByText(/^No offline copy: .* It works online only\.$/).waitFor();
      expect(await page.locator(".toast").count()).toBe(0);
      expect(faults).toEqual([]);
      await context.close();
    });
  });
});

/** From now on every write is refused, until it is let through again. */
const refuseWrites = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const { put } = IDBObjectStore.prototype;
    addEventListener("room again", () => Object.assign(IDBObjectStore.prototype, { put }), { once: true });
    IDBObjectStore.prototype.put = () => {
      throw new DOMException("no room", "QuotaExceededError");
    };
  });
const letWrites = (page: Page): Promise<boolean> =>
  page.evaluate(() => dispatchEvent(new Event("room again")));

describe("where storage is full", () => {
  it("it is said, work goes on, the file can be taken, and saving goes on by itself once there is room", async () => {
    await withFolder(async (profile) => {
      const first = await phoneWithMemory(profile);
      await visit(first, site, "#channels");
      const before = await pan(first.page);
      await settled(first.page);
      await first.context.close();

      // Chromium asks for the room that is left only now and then: it is short from the start of this browser.
      const { page, faults, context } = await phoneWithMemory(profile);
      const tools = await context.newCDPSession(page);
      const { origin } = new URL(site.url);
      await tools.send("Storage.overrideQuotaForOrigin", { origin, quotaSize: 1 });
      await openAt(page, site, "channels");
      expect([await panOf(page), await alert(page).count()]).toEqual([before, 0]);
      await pan(page);
      await expect
        .poll(() => alert(page).textContent())
        .toContain("Not saved: the browser’s storage is full.");
      expect(await axeFindings(page)).toEqual([]);
      const edited = await pan(page);
      expectKick(await downloaded(page, "Download the setup"), edited);
      expect(await asksBeforeClosing(page)).toBe(true);
      expectKick(await stored(page), before);

      await tools.send("Storage.overrideQuotaForOrigin", { origin });
      // It tries again by itself every 5 s.
      await alert(page).waitFor({ state: "detached", timeout: 15_000 });
      expectKick(await stored(page), edited);
      const again = await context.newPage();
      await openAt(again, site, "channels");
      expect(await panOf(again)).toBe(edited);
      expect(await asksBeforeClosing(page)).toBe(false);
      expect([...first.faults, ...faults]).toEqual([]);
      await context.close();
    });
  });

  it("while a single write is refused, the next edit is written at once", async () => {
    const { page, faults, context } = await phone(browser);
    await openAt(page, site, "channels");
    await page.evaluate(() => {
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = () => {
        IDBObjectStore.prototype.put = put;
        throw new DOMException("no room", "QuotaExceededError");
      };
    });
    await pan(page);
    await expect.poll(() => alert(page).textContent()).toContain("Not saved: the browser’s storage is full.");
    const edited = await pan(page);
    await alert(page).waitFor({ state: "detached" });
    expectKick(await stored(page), edited);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("no newer version is offered, so nothing is lost by that, before there is room again", async () => {
    await withFirst(browser, async ({ page }, _, putSecond) => {
      await refuseWrites(page);
      const edited = await pan(page);
      await alert(page).waitFor();
      await putSecond();
      await settled(page);
      expect(await agreeButton(page).count()).toBe(0);
      await letWrites(page);
      await agreeButton(page).waitFor();
      await agree(page);
      await isNewer(page);
      await drawn(page);
      expect(await panOf(page)).toBe(edited);
    });
  });

  it("a newer version that was offered before is not taken either, and it is said why", async () => {
    await withFirst(browser, async ({ page }, _, putSecond) => {
      await putSecond();
      await agreeButton(page).waitFor();
      const title = await page.title();
      const before = await panOf(page);
      await refuseWrites(page);
      // In one go: once the write has failed, the button is gone.
      await agreeButton(page).evaluate((button) => {
        const kick = document.querySelector('[role=slider][aria-label="Channel pan of Kick"]');
        kick?.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
        (button as HTMLElement).click();
      });
      await page.getByText("Not yet: the open setup is not saved.").waitFor();
      await settled(page);
      expect([await page.title(), await panOf(page)]).toEqual([title, before + 1]);
      expect(await agreeButton(page).count()).toBe(0);
      await letWrites(page);
      await agree(page);
      await isNewer(page);
      await drawn(page);
      expect(await panOf(page)).toBe(before + 1);
    });
  });
});

/** Another page of the same origin that holds every transaction up, until it is closed. */
const holdUp = async ({ context, page }: Phone): Promise<Page> => {
  const [other] = await Promise.all([
    context.waitForEvent("page"),
    page.evaluate(() => void window.open("about:blank")),
  ]);
  await other.evaluate(
    () =>
      new Promise<void>((holds) => {
        const opened = indexedDB.open("hatside");
        opened.onsuccess = () => {
          const store = opened.result.transaction("things", "readwrite").objectStore("things");
          const again = (): void => {
            const asked = store.get("open");
            asked.onsuccess = () => {
              holds();
              again();
            };
          };
          again();
        };
      }),
  );
  return other;
};

describe("while another page holds storage up", () => {
  it("a start says so after 2 s, goes on after 10 s without what is saved, and deletes nothing", async () => {
    const user = await phone(browser);
    const { page, faults, context } = user;
    await openAt(page, site, "channels");
    const edited = await pan(page);
    await settled(page);
    const other = await holdUp(user);
    await page.goto("about:blank");
    await page.goto(`${site.url}#channels`);
    await states(page, "Opening your setups …");
    expect(await axeFindings(page)).toEqual([]);
    await alert(page).getByText("the browser’s storage does not answer").waitFor();
    expect(await alert(page).textContent()).toContain("Nothing saved here earlier is deleted.");
    await drawn(page);
    await pan(page);
    expect(await asksBeforeClosing(page)).toBe(true);
    await other.close();
    await page.reload();
    await drawn(page);
    expect([await panOf(page), await alert(page).count()]).toEqual([edited, 0]);
    expect(faults).toEqual([]);
    await context.close();
  });

  it("an edit is said not to be saved yet after 2 s, closing asks, and it is saved once storage answers", async () => {
    const user = await phone(browser);
    const { page, faults, context } = user;
    await openAt(page, site, "channels");
    await settled(page);
    const other = await holdUp(user);
    const edited = await pan(page);
    await alert(page).getByText("Not saved yet: the browser’s storage has not answered.").waitFor();
    expect(await asksBeforeClosing(page)).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
    await alert(page).getByText("Not saved: the browser’s storage does not answer.").waitFor();
    await other.close();
    await alert(page).waitFor({ state: "detached" });
    expectKick(await stored(page), edited);
    expect(await asksBeforeClosing(page)).toBe(false);
    expect(faults).toEqual([]);
    await context.close();
  });
});

it("where a newer version of the app keeps its setups, they are said to be there still, and are", async () => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, "channels");
  await settled(page);
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        const opened = indexedDB.open("hatside", 2);
        opened.onsuccess = () => {
          opened.result.close();
          done();
        };
      }),
  );
  await page.reload();
  await drawn(page);
  await expect
    .poll(() => alert(page).textContent())
    .toContain("a newer version of Hatside saved setups in this browser; they are still there");
  await pan(page);
  await settled(page);
  expect(Object.keys(await things(page)).filter((key) => key.startsWith("setup-"))).toHaveLength(1);
  expect(faults).toEqual([]);
  await context.close();
});

it("setups that the browser dropped are said to be lost, once", async () => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, "channels");
  await settled(page);
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        indexedDB.deleteDatabase("hatside").onsuccess = () => done();
      }),
  );
  await page.reload();
  await drawn(page);
  await expect.poll(() => alert(page).textContent()).toContain("1 setup saved here is lost");
  expect(await axeFindings(page)).toEqual([]);
  await page.reload();
  await drawn(page);
  await settled(page);
  expect(await alert(page).count()).toBe(0);
  expect(faults).toEqual([]);
  await context.close();
});

describe("a setup on the shelf that cannot be read", () => {
  const text = JSON.stringify(exampleSetup());
  const SPOILT: readonly (readonly [what: string, value: unknown, why: RegExp])[] = [
    ["is cut off", { text: text.slice(0, 500) }, /JSON/],
    [
      "is from a newer app",
      { text: text.replace(`"version":${VERSION}`, `"version":${VERSION + 1}`) },
      /newer/,
    ],
    ["has an odd version", { text: text.replace(`"version":${VERSION}`, '"version":"two"') }, /“two”/],
    ["is of version 0", { text: text.replace(`"version":${VERSION}`, '"version":0') }, /version: 0/],
    ["is something else", { text: '{"shopping": ["strings"]}' }, /not a setup/],
    ["is empty", { text: "" }, /./],
    ["is no record at all", 42, /./],
    ["is hostile", { text: '{"__proto__": {"format": "hatside-setup", "version": 1}}' }, /not a setup/],
  ];

  it.each(SPOILT)(
    "and %s stays as it lies, is told, and can be taken out as a file",
    async (_, value, why) => {
      const { page, faults, context } = await phone(browser);
      await openAt(page, site, "channels");
      const key = await onlyKey(page);
      const whole = (await things(page))[key] as object;
      const spoilt = typeof value === "object" ? { ...whole, ...(value as object), name: "Mine" } : value;
      const raw = typeof value === "object" ? (value as { text: string }).text : JSON.stringify(value);
      await lay(page, key, spoilt);
      await page.reload();
      await drawn(page);
      const called = typeof value === "object" ? "Mine" : "Unreadable entry";
      await expect
        .poll(() => alert(page).textContent())
        .toContain(`“${called}” was not opened and stays as it is.`);
      expect(await alert(page).locator("li").textContent()).toMatch(why);
      expect(await axeFindings(page)).toEqual([]);
      expect(await downloaded(page, "Download the file as it was")).toBe(raw);
      await page.getByRole("button", { name: "OK", exact: true }).click();
      expect(await alert(page).count()).toBe(0);

      await keepsOn(page);
      expect((await things(page))[key]).toEqual(spoilt);
      expect(await alert(page).count()).toBe(0);

      await go(page, "setups");
      expect(await shelved(page)).toContain(called);
      await page.locator("li", { hasText: called }).getByRole("button").first().click();
      await expect.poll(() => alert(page).textContent()).toContain("was not opened and stays as it is.");
      expect((await things(page))[key]).toEqual(spoilt);
      expect(faults).toEqual([]);
      await context.close();
    },
  );

  it("whole is opened as far as it goes, says what is missing, and is kept as it was beside it", async () => {
    const { page, faults, context } = await phone(browser);
    await openAt(page, site, "channels");
    const key = await onlyKey(page);
    const whole = (await things(page))[key] as { text: string };
    const raw = whole.text.replace(/"yaw": ?0/, '"yaw": 999');
    expect(raw).not.toBe(whole.text);
    await lay(page, key, { ...whole, text: raw });
    await page.reload();
    await drawn(page);
    await expect.poll(() => alert(page).textContent()).toContain("was read only in part.");
    expect(await alert(page).locator("li").textContent()).toContain("kit.yaw: 999");
    expect(await axeFindings(page)).toEqual([]);
    expect(await downloaded(page, "Download the file as it was")).toBe(raw);
    await pan(page);
    await settled(page);
    expect(await textsIn(page)).toContain(raw);
    expect(faults).toEqual([]);
    await context.close();
  });
});

it("a setup of the first version of the file is opened from the shelf, edited, and there after a reload", async () => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, "channels");
  const key = await onlyKey(page);
  const whole = (await things(page))[key] as object;
  const name = "From years ago";
  const old = { ...JSON.parse(FIRST), name };
  expect(old.version).toBe(1);
  await lay(page, key, { ...whole, name, text: JSON.stringify(old) });
  await page.reload();
  await drawn(page);
  expect(await page.locator(".head .name").textContent()).toContain(name);
  const edited = await pan(page);
  await settled(page);
  await page.reload();
  await drawn(page);
  expect([await panOf(page), await alert(page).count()]).toEqual([edited, 0]);

  expect(await onlyKey(page)).toBe(key);
  const read = readSetup(old);
  if (!read.ok) throw new Error(read.why.code);
  const channels = read.file.channels.map((c) => (c.name === "Kick" ? { ...c, pan: edited / 100 } : c));
  expect(channels).toHaveLength(old.sources.length);
  // Silence is −∞ here and null in JSON: as it is written, and as it is read.
  const now = { ...read.file, channels };
  const kept = JSON.parse(await stored(page));
  expect(kept).toEqual(JSON.parse(printSetup(now)));
  expect(readSetup(kept)).toMatchObject({ ok: true, file: now });
  expect(faults).toEqual([]);
  await context.close();
});

it("the browser is asked to keep the setups after the first edit, once, and not before", async () => {
  const { page, faults, context } = await phone(browser);
  await page.addInitScript(() => {
    const asked = { times: 0 };
    Object.assign(globalThis, { asked });
    StorageManager.prototype.persisted = async () => false;
    StorageManager.prototype.persist = async () => {
      asked.times += 1;
      return true;
    };
  });
  const times = (): Promise<number> =>
    page.evaluate(() => (globalThis as unknown as { asked: { times: number } }).asked.times);
  await openAt(page, site, "channels");
  for (const place of ["image", "headroom", "setups", "channels"]) await go(page, place);
  await settled(page);
  expect(await times()).toBe(0);
  await pan(page);
  await expect.poll(times).toBe(1);
  await pan(page);
  await settled(page);
  await go(page, "setups");
  await page.getByText("which promised not to clear them by itself").waitFor();
  expect(await times()).toBe(1);
  expect(faults).toEqual([]);
  await context.close();
});

it.each([
  ["this", false],
  ["another", true],
])(
  "deleted under the page from %s tab, storage begins anew with the next edit, and nothing is lost",
  async (_, byOther) => {
    const { page, faults, context } = await phone(browser);
    await openAt(page, site, "channels");
    await pan(page);
    await settled(page);
    const deleting = byOther ? await context.newPage() : page;
    if (byOther) await openAt(deleting, site, "channels");
    // In the middle of an edit: what is typed last has not been saved when it goes.
    await pan(page);
    await deleting.evaluate(
      () =>
        new Promise<void>((done, failed) => {
          const request = indexedDB.deleteDatabase("hatside");
          request.onsuccess = () => done();
          request.onerror = () => failed(request.error);
        }),
    );
    await keepsOn(page);
    expect(await alert(page).count()).toBe(0);
    expect(faults).toEqual([]);
    await context.close();
  },
);

it.each([
  ["has not begun", 0],
  // Longer than a change waits for others: its timer is due, or its write under way, when the page goes.
  ["is under way", 130],
])("an edit whose saving %s when its tab is closed is there when it is opened again", async (_, busy) => {
  const { page: first, faults, context } = await phone(browser);
  let page = first;
  await openAt(page, site, "channels");
  await settled(page);
  const begun = await panOf(page);
  const times = 5;
  for (let time = 1; time <= times; time += 1) {
    await page.evaluate((ms) => {
      addEventListener("beforeunload", () => {
        const kick = document.querySelector('[role=slider][aria-label="Channel pan of Kick"]');
        kick?.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
        const until = performance.now() + ms;
        while (performance.now() < until);
      });
    }, busy);
    const closed = page.waitForEvent("close");
    await page.close({ runBeforeUnload: true });
    await closed;
    page = await context.newPage();
    await openAt(page, site, "channels");
    expect(await panOf(page)).toBe(begun + time);
  }
  expect(faults).toEqual([]);
  await context.close();
});
