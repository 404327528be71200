import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import axe from "axe-core";
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from "playwright-core";
import { expect } from "vitest";
import { CHROMIUM, CHROMIUM_SHELL } from "../tools/chromium.mjs";
import { serve } from "../tools/serve.mjs";
import { faultsOf, ours, watch, watchAll } from "./faults";

/** The built app under test; DIST names another folder than ./dist. */
export const DIST = resolve(process.env.DIST ?? join(import.meta.dirname, "../../dist"));

/** A running static server. */
export type Site = Awaited<ReturnType<typeof serve>>;

/** Serves the built app, or a copy of it. */
export const serveApp = async (
  options: {
    folder?: string;
    base?: string;
    port?: number;
    redirectsHome?: boolean;
    answersAll?: boolean;
  } = {},
): Promise<Site> => {
  const { folder = DIST, ...rest } = options;
  if (!existsSync(join(folder, "index.html")))
    throw new Error(`no built app in ${folder}: npm run build first`);
  return ours(await serve(folder, rest));
};

/** Stops the server and makes sure that it is gone. */
export const stopServer = async (site: Site): Promise<void> => {
  await site.stop();
  const answers = await fetch(site.url).then(
    () => true,
    () => false,
  );
  expect(answers, "server answers after its end").toBe(false);
};

const ARGS = [
  "--no-sandbox",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-default-apps",
  "--disable-sync",
  "--no-first-run",
  // Nothing but this machine can be reached, whatever the page asks for.
  "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost, EXCLUDE 127.0.0.1",
];
const PHONE = {
  viewport: { width: 360, height: 740 },
  deviceScaleFactor: 2,
  hasTouch: true,
  locale: "en-GB",
};

/**
 * Starts Chromium with no memory of earlier runs; whatever goes wrong on any of its pages fails the test.
 * @param more switches of its own
 * @param executablePath the browser with windows, where that may matter
 */
export const launch = async (
  more: readonly string[] = [],
  executablePath: string = CHROMIUM_SHELL,
): Promise<Browser> => watchAll(await chromium.launch({ executablePath, args: [...ARGS, ...more] }));

/** A page on a phone, and what went wrong on it in this test so far: it must stay empty. */
export interface Phone {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly faults: string[];
}

const onPhone = async (context: BrowserContext): Promise<Phone> => ({
  context,
  faults: faultsOf(context),
  page: context.pages()[0] ?? (await context.newPage()),
});

/** A fresh phone of 360 × 740. It keeps no copy for offline use: that takes longer than many a test. */
export const phone = async (
  browser: Browser,
  options: Parameters<Browser["newContext"]>[0] = {},
): Promise<Phone> => onPhone(await browser.newContext({ ...PHONE, serviceWorkers: "block", ...options }));

/** A fresh phone that keeps its copy for offline use. */
export const phoneWithCopy: typeof phone = (browser, options) =>
  phone(browser, { ...options, serviceWorkers: "allow" });

/** A phone that keeps what it knows, and its user's settings, in a folder, so that it can be switched off and on. */
export const phoneWithMemory = async (profile: string): Promise<Phone> => {
  const context = await chromium.launchPersistentContext(profile, {
    executablePath: CHROMIUM,
    args: ARGS,
    ...PHONE,
  });
  watch(context);
  return onPhone(context);
};

/** Waits until the page is served by its own worker, with everything kept. */
export const controlled = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const deadline = Date.now() + 90_000;
    for (;;) {
      const registration = await navigator.serviceWorker.getRegistration();
      if (registration?.active?.state === "activated" && navigator.serviceWorker.controller) return;
      if (Date.now() > deadline) throw new Error("no worker took this page over");
      await new Promise((done) => setTimeout(done, 20));
    }
  });

/** From its next start the app keeps nothing for later, so that whatever it asks for meets the page's routes. */
export const keepsNothing = (page: Page): Promise<unknown> =>
  page.addInitScript(() => {
    navigator.serviceWorker.register = () => new Promise(() => {});
  });

/** The app has drawn a screen: not only the word that it is on its way. */
export const drawn = (page: Page): Promise<void> => page.locator("#app h1:not(.wait)").waitFor();

/** Types as a person does: key by key, over what stood there. */
export const typeKeys = async (field: Locator, text: string): Promise<void> => {
  await field.focus();
  await field.press("ControlOrMeta+a");
  await field.press("Delete");
  await field.pressSequentially(text);
};

/**
 * What axe finds against WCAG 2.2 A and AA and good practice, one line a finding: by all its rules, or by those that
 * look at colours.
 */
export const axeFindings = async (page: Page, rules: "all" | "colours" = "all"): Promise<string[]> => {
  if (!(await page.evaluate(() => "axe" in globalThis))) await page.evaluate(axe.source);
  const violations = await page.evaluate(async (only) => {
    const { axe } = globalThis as unknown as { axe: typeof import("axe-core") };
    // What is in order need not be described: that took more than the looking.
    const resultTypes = ["violations" as const];
    const all = { resultTypes, rules: { "target-size": { enabled: true } } };
    const colours = { resultTypes, runOnly: ["color-contrast", "link-in-text-block"] };
    return (await axe.run(only === "all" ? all : colours)).violations;
  }, rules);
  return violations.flatMap(({ id, help, nodes }) => nodes.map((node) => `${id}: ${help}: ${node.html}`));
};

/** Runs with a folder that is gone afterwards. */
export const withFolder = async <T>(run: (folder: string) => Promise<T>): Promise<T> => {
  const folder = mkdtempSync(join(tmpdir(), "hatside-"));
  try {
    return await run(folder);
  } finally {
    // A browser that was told to end may still be writing.
    rmSync(folder, { recursive: true, force: true, maxRetries: 10, retryDelay: 200 });
  }
};

const fingerprint = (file: string): string =>
  `sha256-${createHash("sha256").update(readFileSync(file)).digest("base64")}`;

/** A second version of the app in a folder: another title, published as a build would. */
export const copyAsVersion2 = (folder: string, title: string): void => {
  cpSync(DIST, folder, { recursive: true });
  const [index, worker] = [join(folder, "index.html"), join(folder, "sw.js")];
  const before = fingerprint(index);
  writeFileSync(index, readFileSync(index, "utf8").replace(/<title>.*<\/title>/, `<title>${title}</title>`));
  const old = readFileSync(worker, "utf8");
  expect(old).toContain(before);
  const found = /[`"']([0-9a-f]{12})[`"']/.exec(old)?.[1];
  if (!found) throw new Error("no version in sw.js");
  writeFileSync(
    worker,
    old
      .replaceAll(before, fingerprint(index))
      .replaceAll(found, createHash("sha256").update(title).digest("hex").slice(0, 12)),
  );
};
