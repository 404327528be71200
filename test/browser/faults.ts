import type { Browser, BrowserContext, ConsoleMessage, Request } from "playwright-core";
import { afterAll, afterEach, expect } from "vitest";

/** A site that this test serves. */
interface OwnSite {
  readonly url: string;
  readonly stop: () => Promise<void>;
}

/** Origins that are served by this test, and those of them whose server was stopped on purpose. */
const served = new Set<string>();
const stopped = new Set<string>();

/** Makes a site known as one that pages may open; everything else is a fault. */
export const ours = <S extends OwnSite>(site: S): S => {
  const { origin } = new URL(site.url);
  served.add(origin);
  const stop = (): Promise<void> => {
    stopped.add(origin);
    return site.stop();
  };
  return { ...site, stop };
};

const originOf = (url: string): string => (URL.canParse(url) ? new URL(url).origin : "");

/** Where a request comes from: the page or the worker that asks. */
const asker = (request: Request): string => request.serviceWorker()?.url() ?? request.frame().url();

/** Whether a request stays where it belongs: a page is opened on a site of the test, and asks only its own origin. */
const staysHome = (request: Request): boolean => {
  const url = request.url();
  if (/^(blob|data|about):/.test(url)) return true;
  const origin = originOf(url);
  if (!served.has(origin)) return false;
  return request.isNavigationRequest() || originOf(asker(request)) === origin;
};

/** What is wrong about a message on the console, or null. */
const wrongAbout = (message: ConsoleMessage): string | null => {
  const says = message.text();
  if (/Content.Security.Policy|Trusted/i.test(says)) return `policy: ${says}`;
  if (message.type() !== "error") return null;
  // The browser, not the app, reports that a stopped server was asked for a newer version.
  const { url } = message.location();
  const refused = /net::ERR_CONNECTION_REFUSED/.test(says) && stopped.has(originOf(url));
  return refused ? null : `console: ${says} (${url})`;
};

const watched = new Map<BrowserContext, string[]>();

/** What went wrong in a context since the test began. */
export const faultsOf = (context: BrowserContext): string[] => {
  const faults = watched.get(context);
  if (!faults) throw new Error("this context is not watched");
  return faults;
};

/** Gathers console errors, reports of the page's policy, uncaught errors and requests that leave their origin. */
export const watch = (context: BrowserContext): void => {
  const faults: string[] = [];
  watched.set(context, faults);
  context.on("console", (message) => {
    const wrong = wrongAbout(message);
    if (wrong !== null) faults.push(wrong);
  });
  context.on("weberror", (error) => faults.push(`uncaught: ${error.error().stack}`));
  context.on("request", (request) => {
    if (!staysHome(request)) faults.push(`leaves: ${request.url()}`);
  });
};

/** Watches every context that a browser will make, whoever makes it. */
export const watchAll = (browser: Browser): Browser => {
  const make = browser.newContext.bind(browser);
  browser.newContext = async (options) => {
    const context = await make(options);
    watch(context);
    return context;
  };
  return browser;
};

/** Waits for a fault that the test brings about on purpose, and strikes it off. */
export const expectFault = async (context: BrowserContext, like: RegExp): Promise<void> => {
  const faults = faultsOf(context);
  await expect.poll(() => faults.some((fault) => like.test(fault)), { message: String(like) }).toBe(true);
  const others = faults.filter((fault) => !like.test(fault));
  faults.splice(0, faults.length, ...others);
};

/** No test can forget: whatever went wrong on any of its pages fails it. */
const expectNone = (): void => {
  const found = [...watched.values()].flatMap((faults) => faults.splice(0));
  expect(found, "faults on the pages of this test").toEqual([]);
};
afterEach(expectNone);
afterAll(expectNone);
