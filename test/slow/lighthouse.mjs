/** Lighthouse at its mobile settings over the built app; fails below 1.00 in any category that it asserts. */
import * as chromeLauncher from "chrome-launcher";
import lighthouse from "lighthouse";
import { CHROMIUM } from "../tools/chromium.mjs";
import { serve } from "../tools/serve.mjs";

/** Performance is printed and not asserted: it moves with the load of the machine. */
const ASSERTED = ["accessibility", "best-practices", "seo"];
const TIMES = [
  "first-contentful-paint",
  "largest-contentful-paint",
  "total-blocking-time",
  "cumulative-layout-shift",
  "speed-index",
];

const site = await serve(new URL("../../dist", import.meta.url).pathname);
const chrome = await chromeLauncher.launch({
  chromePath: CHROMIUM,
  chromeFlags: ["--headless=new", "--no-sandbox", "--disable-gpu", "--disable-background-networking"],
});
try {
  const result = await lighthouse(site.url, { port: chrome.port, output: "json", logLevel: "error" });
  if (!result || result.lhr.runtimeError) throw new Error(result?.lhr.runtimeError?.message ?? "no result");
  const { categories, audits } = result.lhr;
  for (const { id, title, score } of Object.values(categories)) {
    console.log(`${title.padEnd(16)} ${score?.toFixed(2)}`);
    if (ASSERTED.includes(id) && score !== 1) process.exitCode = 1;
  }
  for (const id of TIMES) console.log(`  ${audits[id].title}: ${audits[id].displayValue}`);
  for (const { id, score, displayValue } of Object.values(audits))
    if (score !== null && score < 1) console.log(`  below 1: ${id} ${score} ${displayValue ?? ""}`);
} finally {
  await chrome.kill();
  await site.stop();
}
