import { chromium } from "playwright-core";
import { CHROMIUM } from "../tools/chromium.mjs";
import { longestTask } from "../tools/longest-task.mjs";
import { serveRooms } from "../tools/rooms-site.mjs";
import { watchMemory } from "./memory.mjs";

/** Measures what the file field holds, in the worker; milliseconds. */
const measureInPage = async () => {
  const inputs = [...document.querySelector("input").files].map((file) => ({
    kind: "file",
    name: file.name,
    file,
  }));
  const tracks = inputs.map((_, input) => {
    const turn = (input / (inputs.length - 1)) * (Math.PI / 2);
    return { input, channel: 0, gains: [Math.cos(turn), Math.sin(turn)] };
  });
  const job = { inputs, tracks, align: "start" };
  const begin = performance.now();
  const outcome = await globalThis.rooms.measure(new AbortController().signal, job);
  if (outcome.kind === "refused") throw new Error(JSON.stringify(outcome.why));
  return performance.now() - begin;
};

/**
 * Opens Chromium on a page whose file field holds the files.
 * @param {string[]} paths
 * @returns measure: milliseconds, and the most resident memory of the page's process, worker included, over what
 *   it took before, bytes; longest: the page's longest task meanwhile, ms
 */
export const openPage = async (paths) => {
  const site = await serveRooms("test/browser/rooms-page.ts");
  const browser = await chromium.launch({
    executablePath: CHROMIUM,
    args: ["--no-sandbox"],
  });
  const page = await browser.newPage();
  await page.goto(site.url);
  await page.waitForFunction(() => "rooms" in globalThis);
  await page.evaluate(() => {
    const field = document.createElement("input");
    field.type = "file";
    field.multiple = true;
    document.body.append(field);
  });
  await page.setInputFiles("input", paths);
  const tools = await browser.newBrowserCDPSession();
  const inPage = await page.context().newCDPSession(page);
  // The page and its workers share one process; those in reserve add nothing.
  const { processInfo } = await tools.send("SystemInfo.getProcessInfo");
  const renderers = processInfo.filter(({ type }) => type === "renderer");

  const measure = async () => {
    await inPage.send("HeapProfiler.collectGarbage");
    const watches = renderers.map(({ id }) => watchMemory(id));
    const took = await page.evaluate(measureInPage);
    return { took, memory: watches.reduce((all, most) => all + most(), 0) };
  };
  // Once for nothing: Chromium starts a process in reserve after the first load, which is none of ours.
  await measure();
  const close = async () => {
    await browser.close();
    await site.stop();
  };
  return {
    measure,
    longest: async () => (await longestTask(page, () => page.evaluate(measureInPage))).ms,
    close,
  };
};
