/*
 * Kills the browser (SIGKILL, the whole process group) at random moments while a setup is being edited in many ways,
 * starts it again on the same profile and looks what is there. Every edit older than 300 ms before the kill must be, and
 * every screen must open. A number that only rises is typed between the other edits, so that what is found names one edit.
 * Run: npm run kill            (200 kills; KILLS=20 npm run kill for fewer; SEED=7 for other moments)
 */
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { chromium } from "playwright-core";
import { numbers } from "../tools/chance.mjs";
import { CHROMIUM } from "../tools/chromium.mjs";
import { PLACES } from "../tools/places.mjs";
import { serve } from "../tools/serve.mjs";

const KILLS = Number(process.env.KILLS ?? 200);
const SAFE_MS = 300;
const EDIT_MS = [400, 1600];
const PAUSE_MS = 20;
/** An edit that is not shown so long after it was made was none. */
const LATE_MS = 1000;
/** So many channels are in the list at most: then one is removed before another is added. */
const MOST_CHANNELS = 10;
/** A screen that has no heading after so long does not open. */
const OPENS_MS = 10_000;
const DIST = process.env.DIST ?? join(import.meta.dirname, "../../dist");

const random = numbers(Number(process.env.SEED ?? 1));
const between = (least, most) => least + random() * (most - least);

/** In the page: notes when the hand did something last. */
const noteInput = () => {
  for (const kind of ["input", "keydown", "click", "pointermove"])
    addEventListener(kind, () => Object.assign(globalThis, { lastInput: Date.now() }), true);
};

const start = async (profile) => {
  const child = spawn(
    CHROMIUM,
    [
      "--headless=new",
      "--no-sandbox",
      "--disable-gpu",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      "--remote-debugging-port=0",
      `--user-data-dir=${profile}`,
      "about:blank",
    ],
    { detached: true, stdio: ["ignore", "ignore", "pipe"] },
  );
  const address = await new Promise((resolve, reject) => {
    let said = "";
    const late = setTimeout(() => reject(new Error(`no browser: ${said}`)), 30_000);
    child.stderr.on("data", (data) => {
      said += data;
      const found = /DevTools listening on (ws:\S+)/.exec(said);
      if (!found) return;
      clearTimeout(late);
      resolve(found[1]);
    });
  });
  const browser = await chromium.connectOverCDP(address);
  const [context] = browser.contexts();
  const page = context.pages()[0] ?? (await context.newPage());
  await page.setViewportSize({ width: 360, height: 740 });
  await page.addInitScript(noteInput);
  const kill = async () => {
    if (child.signalCode !== null) return;
    const gone = new Promise((done) => child.once("exit", done));
    process.kill(-child.pid, "SIGKILL");
    await gone;
    await browser.close().catch(() => {});
  };
  return { page, kill };
};

/** The first channel is panned, the second bears the number, the last is removed. */
const row = (page, at) => page.locator("li.channel").nth(at);
const pan = (page) => row(page, 0).getByRole("slider");
const last = (page) => page.locator("li.channel").last();

/** What is shown of all channels, the number in the second one's name, and when the last edit was made. */
const look = (page) =>
  page.locator("li.channel").evaluateAll((rows) => {
    // A channel that was just added has its name in a field.
    const name = (row) => row.querySelector("b")?.textContent ?? row.querySelector("input").value;
    const pan = (row) => row.querySelector("[role=slider]").getAttribute("aria-valuenow");
    return {
      shown: rows.map((row) => `${name(row)} ${pan(row)}`).join(", "),
      number: Number(name(rows[1])),
      at: globalThis.lastInput ?? 0,
    };
  });

/** Opens the details of a channel. */
const unfold = async (card) => {
  await card.locator("button[aria-expanded=false]").press("Enter");
  await card.getByLabel("Name", { exact: true }).waitFor();
};

let typed = 0;

/** Edits until the browser is gone; `log.seen` is what stood after each edit, `log.kind` the edit begun last. */
const edit = async (page, log) => {
  const edited = async (kind, act) => {
    const before = log.seen.at(-1).shown;
    Object.assign(log, { kind, isUnderWay: true });
    await act();
    let now = await look(page);
    const late = Date.now() + LATE_MS;
    while (now.shown === before) {
      if (Date.now() > late) throw new Error(`${kind} changed nothing`);
      now = await look(page);
    }
    log.seen.push(now);
    log.isUnderWay = false;
  };
  const inwards = async () => (Number(await pan(page).getAttribute("aria-valuenow")) > 0 ? -1 : 1);
  const remove = async () => {
    await unfold(last(page));
    await edited("removing", () => last(page).getByRole("button", { name: "Remove" }).press("Enter"));
  };
  // Each of them leads through states that differ, so that state and number together are of one edit alone. Only undo
  // comes back to one that was: then nothing of what was taken back can be lost.
  const ways = [
    async () => {
      const key = (await inwards()) > 0 ? "ArrowRight" : "ArrowLeft";
      for (let n = 0; n < 5; n += 1) await edited("pan by keys", () => pan(page).press(key));
    },
    async () => {
      const way = await inwards();
      await pan(page).hover();
      const { x, y, width, height } = await pan(page).boundingBox();
      await page.mouse.down();
      for (let n = 1; n <= 10; n += 1)
        await edited("pan by dragging", () => page.mouse.move(x + width / 2 + 4 * n * way, y + height / 2));
      await page.mouse.up();
    },
    async () => {
      if ((await page.locator("li.channel").count()) >= MOST_CHANNELS) return remove();
      await edited("adding", () => page.getByRole("button", { name: "Add a channel" }).press("Enter"));
    },
    async () => {
      await remove();
      await edited("undo", () => page.getByRole("button", { name: /^Undo: / }).press("Enter"));
    },
  ];
  await unfold(row(page, 1));
  for (;;) {
    typed += 1;
    await edited("typing", () => row(page, 1).getByLabel("Name", { exact: true }).fill(`${typed}`));
    await pause(random() * PAUSE_MS);
    await ways[Math.floor(random() * ways.length)]();
    await pause(random() * PAUSE_MS);
  }
};

/** Goes to a screen until its own heading stands; what is wrong there, or "". */
const visit = async (page, place) => {
  const before = await page.evaluate((to) => {
    const heading = document.querySelector("main h1:not(.wait)")?.textContent;
    location.hash = to;
    return heading;
  }, place);
  await page.waitForFunction(
    (was) => ![was, "", undefined].includes(document.querySelector("main h1:not(.wait)")?.textContent),
    before,
    { timeout: OPENS_MS },
  );
  return (await page.getByRole("alert").allTextContents()).join(" ");
};

const profile = mkdtempSync(join(tmpdir(), "hatside-kill-"));
const site = await serve(DIST);
const arrive = async (page) => {
  await page.goto(`${site.url}#channels`);
  await page.getByRole("button", { name: "Add a channel" }).waitFor();
  await row(page, 1).waitFor();
};
const begun = Date.now();
const lost = [];
const shut = [];
const begunLast = {};
let cutOff = 0;
let edits = 0;
let oldest = 0;
let browser = await start(profile);
try {
  await arrive(browser.page);
  for (let n = 0; n < KILLS; n += 1) {
    const log = { seen: [await look(browser.page)], kind: "none", isUnderWay: false };
    const hand = edit(browser.page, log).catch((error) => error);
    const early = await Promise.race([hand, pause(between(...EDIT_MS))]);
    if (early) throw early;
    const killed = Date.now();
    const { kind, isUnderWay, seen } = { ...log, seen: [...log.seen] };
    await browser.kill();
    await hand;
    browser = await start(profile);
    await arrive(browser.page);
    const found = await look(browser.page);
    const safe = seen.findLastIndex(({ at }) => at < killed - SAFE_MS);
    let kept = seen.findLastIndex(({ shown }) => shown === found.shown);
    // The edit under way was kept before anybody could see it.
    if (kept < 0 && isUnderWay && found.number === typed) kept = seen.length - 1;
    const age = kept < 0 ? Number.POSITIVE_INFINITY : killed - (seen[kept + 1]?.at ?? killed);
    oldest = Math.max(oldest, age);
    if (kept < safe) lost.push({ n, age, kind, found, seen: seen.slice(-6) });
    const wrong = [];
    for (const place of [...PLACES.filter((p) => p !== "channels"), "channels"])
      wrong.push(await visit(browser.page, place).catch(({ message }) => message));
    if (wrong.join("") !== "") shut.push({ n, wrong });
    begunLast[kind] = (begunLast[kind] ?? 0) + 1;
    if (isUnderWay) cutOff += 1;
    edits += seen.length - 1;
  }
} finally {
  await browser.kill();
  await site.stop();
  rmSync(profile, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
}
const seconds = Math.round((Date.now() - begun) / 1000);
const kinds = Object.entries(begunLast).map(([what, times]) => `${what} ${times}`);
console.log(
  `${KILLS} kills, ${edits} edits, ${seconds} s: ${lost.length} lost an edit older than ${SAFE_MS} ms; oldest edit lost: ${oldest} ms`,
);
console.log(`edit begun last: ${kinds.join(", ")}; cut off before it was shown: ${cutOff}`);
console.log(`setups opened: ${KILLS - shut.length} of ${KILLS}`);
for (const one of [...lost, ...shut]) console.log(JSON.stringify(one));
process.exitCode = lost.length + shut.length === 0 ? 0 : 1;
