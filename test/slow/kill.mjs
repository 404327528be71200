/*
 * Kills the browser (SIGKILL, the whole process group) at random moments while a pan is being edited, starts it again on
 * the same profile and looks what is there. Every change older than 300 ms before the kill must be.
 * Run: npm run kill            (200 kills; KILLS=20 npm run kill for fewer; SEED=7 for other moments)
 */
import { spawn } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "playwright-core";
import { CHROMIUM } from "../tools/chromium.mjs";
import { serve } from "../tools/serve.mjs";

const KILLS = Number(process.env.KILLS ?? 200);
const SAFE_MS = 300;
const EDIT_MS = [150, 900];
const DIST = process.env.DIST ?? join(import.meta.dirname, "../../dist");

let seed = Number(process.env.SEED ?? 1);
/** Random number 0…1, the same for the same seed (mulberry32). */
const random = () => {
  seed = (seed + 0x6d2b79f5) | 0;
  let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
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
  const kill = async () => {
    const gone = new Promise((done) => child.once("exit", done));
    process.kill(-child.pid, "SIGKILL");
    await gone;
    await browser.close().catch(() => {});
  };
  return { page, kill };
};

const slider = (page) => page.getByRole("slider", { name: "House pan of Kick" });
const panOf = async (page) => Number(await slider(page).getAttribute("aria-valuenow"));

/** Edits at random until a random moment; returns every value with the time at which it stood. */
const edit = async (page) => {
  const pan = slider(page);
  await pan.focus();
  const until = Date.now() + EDIT_MS[0] + random() * (EDIT_MS[1] - EDIT_MS[0]);
  const seen = [{ value: await panOf(page), at: 0 }];
  let key = seen[0].value >= 0 ? "ArrowLeft" : "ArrowRight";
  while (Date.now() < until) {
    await pan.press(key);
    const value = await panOf(page);
    seen.push({ value, at: Date.now() });
    if (Math.abs(value) >= 100) key = value > 0 ? "ArrowLeft" : "ArrowRight";
    await new Promise((done) => setTimeout(done, random() * 40));
  }
  return seen;
};

const profile = mkdtempSync(join(tmpdir(), "hatside-kill-"));
const site = await serve(DIST);
const lost = [];
let oldest = 0;
try {
  for (let n = 0; n < KILLS; n += 1) {
    const browser = await start(profile);
    await browser.page.goto(site.url);
    const seen = await edit(browser.page);
    const killed = Date.now();
    await browser.kill();
    const again = await start(profile);
    await again.page.goto(site.url);
    await slider(again.page).waitFor();
    const found = await panOf(again.page);
    const safe = seen.findLastIndex(({ at }) => at < killed - SAFE_MS);
    const kept = seen.findLastIndex(({ value }) => value === found);
    const age = kept < 0 ? Number.POSITIVE_INFINITY : killed - (seen[kept + 1]?.at ?? killed);
    oldest = Math.max(oldest, age);
    if (kept < safe) lost.push({ n, found, seen: seen.slice(-6), age });
    const troubled = await again.page.getByRole("alert").count();
    if (troubled > 0) lost.push({ n, alert: await again.page.getByRole("alert").first().textContent() });
    await again.kill();
  }
} finally {
  await site.stop();
  rmSync(profile, { recursive: true, force: true });
}
console.log(
  `${KILLS} kills: ${lost.length} lost something older than ${SAFE_MS} ms; oldest change lost: ${oldest} ms`,
);
for (const loss of lost) console.log(JSON.stringify(loss));
process.exitCode = lost.length === 0 ? 0 : 1;
