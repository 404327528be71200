import { readdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { CHROMIUM } from "../tools/chromium.mjs";
import { expectFault } from "./faults";
import { visit } from "./hall";
import {
  controlled,
  copyAsVersion2,
  DIST,
  drawn,
  launch,
  phoneWithCopy,
  phoneWithMemory,
  serveApp,
  stopServer,
  withFolder,
} from "./harness";
import { agree, agreeButton, lookForUpdate, publish } from "./newer";

let browser: Browser;
beforeAll(async () => {
  // As people have it: what lies in its caches, and what it asks for by itself, is at stake.
  browser = await launch([], CHROMIUM);
});
afterAll(() => browser.close());

const caches_ = (page: Page): Promise<string[]> => page.evaluate(() => caches.keys());

describe.each(["/", "/name/"])("served under %s", (base) => {
  it("opens with the server stopped, at its address, with a query and at an unknown address", async () => {
    const site = await serveApp({ base });
    const user = await phoneWithCopy(browser);
    await visit(user, site);
    await stopServer(site);
    const asked = site.seen.length;
    await user.page.reload();
    await drawn(user.page);
    for (const path of ["?a=b#headroom", "index.html", "no/such/place?a=b"]) {
      const page = await user.context.newPage();
      await page.goto(site.url + path);
      await drawn(page);
      await page.close();
    }
    expect(site.seen.length).toBe(asked);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("keeps every built file", async () => {
    const site = await serveApp({ base });
    const user = await phoneWithCopy(browser);
    await visit(user, site);
    await stopServer(site);
    const files = readdirSync(DIST, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && entry.name !== "sw.js")
      .map((entry) => join(entry.parentPath, entry.name).slice(DIST.length + 1));
    const missing = await user.page.evaluate(
      async (names) => {
        const answers = await Promise.all(
          names.map((name) =>
            fetch(name).then(
              (a) => a.ok,
              () => false,
            ),
          ),
        );
        return names.filter((_, at) => !answers[at]);
      },
      files.map((name) => (name === "index.html" ? "./" : name)),
    );
    expect(files.length).toBeGreaterThan(5);
    expect(missing).toEqual([]);
    await user.context.close();
  });
});

it("opens cold: browser ended, server stopped, browser started again", async () => {
  await withFolder(async (profile) => {
    const site = await serveApp();
    const first = await phoneWithMemory(profile);
    await visit(first, site);
    await first.context.close();
    await stopServer(site);
    const second = await phoneWithMemory(profile);
    await second.page.goto(site.url);
    await drawn(second.page);
    expect([...first.faults, ...second.faults]).toEqual([]);
    await second.context.close();
  });
});

it("can be installed", async () => {
  await withFolder(async (profile) => {
    const site = await serveApp({ base: "/name/" });
    const user = await phoneWithMemory(profile);
    await visit(user, site);
    const tools = await user.context.newCDPSession(user.page);
    expect((await tools.send("Page.getAppManifest")).errors).toEqual([]);
    expect((await tools.send("Page.getInstallabilityErrors")).installabilityErrors).toEqual([]);
    await user.context.close();
    await stopServer(site);
  });
});

describe("a newer version", () => {
  it("waits until the user agrees, in each tab for itself", async () => {
    await withFolder(async (folder) => {
      const [live, next] = [join(folder, "live"), join(folder, "next")];
      publish(DIST, live);
      copyAsVersion2(next, "Second");
      const site = await serveApp({ folder: live });
      const user = await phoneWithCopy(browser);
      await visit(user, site);
      const title = await user.page.title();
      const other = await user.context.newPage();
      await other.goto(site.url);
      await drawn(other);

      publish(next, live);
      expect(await lookForUpdate(user.page)).toBe("installed");
      await agreeButton(user.page).waitFor();
      await user.page.reload();
      await drawn(user.page);
      expect(await user.page.title()).toBe(title);

      await agree(user.page);
      await user.page.waitForFunction(() => document.title === "Second");
      expect(await other.title()).toBe(title);
      await stopServer(site);
      await agree(other);
      await other.waitForFunction(() => document.title === "Second");
      await user.page.reload();
      await drawn(user.page);
      expect(await user.page.title()).toBe("Second");
      expect(user.faults).toEqual([]);
      await user.context.close();
    });
  });

  it.each([
    ["missing", (folder: string) => rmSync(join(folder, "icons/icon-512.png"))],
    ["cut off", (folder: string) => writeFileSync(join(folder, "icons/icon-512.png"), "half")],
  ])("is left alone while a file is %s; the working one stays", async (_, spoil) => {
    await withFolder(async (folder) => {
      const [live, next] = [join(folder, "live"), join(folder, "next")];
      publish(DIST, live);
      copyAsVersion2(next, "Second");
      spoil(next);
      const site = await serveApp({ folder: live });
      const user = await phoneWithCopy(browser);
      await visit(user, site);
      const title = await user.page.title();
      const before = await caches_(user.page);
      publish(next, live);
      expect(await lookForUpdate(user.page)).toBe("redundant");
      await stopServer(site);
      await user.page.reload();
      await drawn(user.page);
      expect(await user.page.title()).toBe(title);
      expect(await agreeButton(user.page).count()).toBe(0);
      expect(await caches_(user.page)).toEqual(before);
      await user.context.close();
    });
  });
});

it("touches no cache of another program on its origin, and keeps two versions of its own at most", async () => {
  await withFolder(async (folder) => {
    const live = join(folder, "live");
    publish(DIST, live);
    const site = await serveApp({ folder: live });
    const user = await phoneWithCopy(browser);
    await user.page.goto(`${site.url}icons/icon.svg`);
    // A picture names no icon of its own, so the browser looks for one.
    await expectFault(user.context, /favicon\.ico/);
    const foreign = ["other-files-1", "workbox-precache-v2", "hats"];
    await user.page.evaluate((names) => Promise.all(names.map((name) => caches.open(name))), foreign);
    await visit(user, site);
    for (const title of ["Second", "Third", "Fourth"]) {
      const next = join(folder, title);
      copyAsVersion2(next, title);
      publish(next, live);
      expect(await lookForUpdate(user.page)).toBe("installed");
      await agree(user.page);
      await user.page.waitForFunction((wanted) => document.title === wanted, title);
      await controlled(user.page);
    }
    const names = await caches_(user.page);
    expect(names).toEqual(expect.arrayContaining(foreign));
    expect(names.filter((name) => name.startsWith("hatside-files "))).toHaveLength(2);
    await user.context.close();
    await stopServer(site);
  });
});

it("offers nothing where the server goes back to the version in use, and one that it goes back to later", async () => {
  await withFolder(async (folder) => {
    const [live, next] = [join(folder, "live"), join(folder, "next")];
    publish(DIST, live);
    copyAsVersion2(next, "Second");
    const site = await serveApp({ folder: live });
    const user = await phoneWithCopy(browser);
    await visit(user, site);
    const title = await user.page.title();
    const bring = async (from: string): Promise<void> => {
      publish(from, live);
      expect(await lookForUpdate(user.page)).toBe("installed");
    };
    await bring(next);
    await agreeButton(user.page).waitFor();
    await bring(DIST);
    await agreeButton(user.page).waitFor({ state: "detached" });
    await bring(next);
    await agree(user.page);
    await user.page.waitForFunction(() => document.title === "Second");
    await controlled(user.page);
    await bring(DIST);
    await user.page.getByText("The server has another version of Hatside.").waitFor();
    await agree(user.page);
    await user.page.waitForFunction((wanted) => document.title === wanted, title);
    await user.context.close();
    await stopServer(site);
  });
});

it("takes files that are shared to it", async () => {
  const site = await serveApp();
  const user = await phoneWithCopy(browser);
  await visit(user, site);
  const kept = await user.page.evaluate(async () => {
    const form = new FormData();
    form.append("files", new File(["{}"], "a b.hatside"));
    const answer = await fetch("./share", { method: "POST", body: form });
    const cache = await caches.open("hatside-shared");
    const names = (await cache.keys()).map(({ url }) => decodeURIComponent(url.split("/").pop() ?? ""));
    return { landed: answer.url, names };
  });
  expect(kept).toEqual({ landed: `${site.url}?shared`, names: ["a b.hatside"] });
  await user.context.close();
  await stopServer(site);
});
