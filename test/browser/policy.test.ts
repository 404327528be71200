import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { serve } from "../tools/serve.mjs";
import { faultsOf } from "./faults";
import { DIST, drawn, launch, phone, serveApp, stopServer, withFolder } from "./harness";
import { publish } from "./newer";

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

const PAGE = readFileSync(join(DIST, "index.html"), "utf8");

describe("the built page's policy", () => {
  const text = /<meta http-equiv="Content-Security-Policy" content="([^"]*)">/.exec(PAGE)?.[1] ?? "";
  const rules = new Map(
    text.split(";").map((rule) => {
      const [name = "", ...channels] = rule.trim().split(/\s+/);
      return [name, channels.join(" ")] as const;
    }),
  );

  it("allows the own origin and nothing else, nothing unsafe, no data and no other scheme", () => {
    expect(Object.fromEntries(rules)).toEqual({
      "default-src": "'none'",
      "script-src": "'self'",
      "style-src": "'self'",
      "img-src": "'self'",
      "connect-src": "'self'",
      "worker-src": "'self'",
      "manifest-src": "'self'",
      // A recording that is listened to.
      "media-src": "'self' blob:",
      "base-uri": "'none'",
      "form-action": "'none'",
      "require-trusted-types-for": "'script'",
      "trusted-types": "default",
    });
    expect(text).not.toMatch(/unsafe|eval|inline|hash|nonce|\*|data:|https?:/);
  });

  it("stands before everything that it has to hold, and the page has nothing that it would hold", () => {
    const before = PAGE.slice(0, PAGE.indexOf("<meta http-equiv"));
    expect(before).not.toMatch(/<(script|style|link|img|base)/i);
    expect(PAGE).not.toMatch(/\son\w+=|\sstyle=|<style|javascript:/i);
    for (const [whole, inside] of PAGE.matchAll(/<script[^>]*>(.*?)<\/script>/gis)) {
      expect(whole).toMatch(/ src="\.\//);
      expect(inside).toBe("");
    }
  });
});

/** Everything that is tried against the policy, in a script of the app's own, so that only the policy stands in the way. */
const ATTEMPTS = `
const outcome = {};
const attempt = async (name, run) => {
  try {
    const got = await Promise.race([run(), new Promise((_, no) => setTimeout(() => no(new Error("no answer")), 3000))]);
    outcome[name] = got === undefined ? "let through" : String(got);
  } catch (error) {
    outcome[name] = "refused";
  }
};
const loads = (element, place) => new Promise((yes, no) => {
  element.onload = () => yes();
  element.onerror = () => no(new Error("not loaded"));
  (place ?? document.body).append(element);
});
const made = (tag, fields) => Object.assign(document.createElement(tag), fields);
const there = new URL(location.href).searchParams.get("there");
globalThis.tried = (async () => {
  await attempt("eval", () => eval("1"));
  await attempt("Function", () => new Function("return 1")());
  await attempt("timer with text", () => new Promise((yes, no) => {
    globalThis.ran = yes;
    setTimeout("ran()", 0);
    setTimeout(() => no(new Error("never ran")), 500);
  }));
  await attempt("markup as text", () => { document.body.insertAdjacentHTML("beforeend", "<p>in</p>"); });
  await attempt("script of text", () => {
    const script = document.createElement("script");
    script.append("globalThis.taken = true");
    document.body.append(script);
    if (!globalThis.taken) throw new Error("did not run");
  });
  await attempt("script from elsewhere", () => loads(made("script", { src: there + "taken.js" })));
  await attempt("module from text", () => import("data:text/javascript,export default 1"));
  await attempt("module from elsewhere", () => import(there + "taken.js"));
  await attempt("worker from text", () => { new Worker(URL.createObjectURL(new Blob(["1"]))); });
  await attempt("style from elsewhere", () => loads(made("link", { rel: "stylesheet", href: there + "taken.css" }), document.head));
  await attempt("style of text", () => {
    const style = made("style", { textContent: "body { --taken: yes }" });
    document.head.append(style);
    if (!getComputedStyle(document.body).getPropertyValue("--taken")) throw new Error("not taken");
  });
  await attempt("style attribute", () => {
    document.body.setAttribute("style", "--attribute: yes");
    if (!getComputedStyle(document.body).getPropertyValue("--attribute")) throw new Error("not taken");
  });
  await attempt("picture from elsewhere", () => loads(made("img", { src: there + "taken.png" })));
  await attempt("picture of text", () => loads(made("img", { src: "data:image/svg+xml,<svg xmlns='http://www.w3.org/2000/svg'/>" })));
  await attempt("fetch", () => fetch(there + "taken", { mode: "no-cors" }).then(() => undefined));
  await attempt("beacon", () => { navigator.sendBeacon(there + "taken-beacon", "x"); return "asked"; });
  await attempt("socket", () => new Promise((yes, no) => {
    const socket = new WebSocket(there.replace("http", "ws") + "taken");
    socket.onopen = () => yes();
    socket.onerror = () => no(new Error("no socket"));
  }));
  await attempt("frame", () => { document.body.append(made("iframe", { src: there + "taken.html" })); return "asked"; });
  await attempt("form", () => {
    const form = made("form", { action: there + "taken", target: "_blank" });
    document.body.append(form);
    form.submit();
    return "asked";
  });
  return outcome;
})();`;

/** What a page is told of each thing that was held back. */
const VIOLATIONS = `
globalThis.held = [];
addEventListener("securitypolicyviolation", (e) => globalThis.held.push(e.effectiveDirective + " " + e.blockedURI));`;

const held = (page: Page): Promise<string[]> =>
  page.evaluate(() => (globalThis as unknown as { held: string[] }).held);

/** The built app with more in its page, and a stranger that must never be asked for anything. */
const withMore = async (
  more: { readonly head?: string; readonly body?: string; readonly script: string },
  run: (page: Page) => Promise<void>,
): Promise<void> =>
  withFolder(async (folder) => {
    publish(DIST, folder);
    writeFileSync(join(folder, "more.js"), more.script);
    const head = `<script src="./more.js"></script>${more.head ?? ""}</head>`;
    writeFileSync(
      join(folder, "index.html"),
      PAGE.replace("</head>", head).replace("</body>", `${more.body ?? ""}</body>`),
    );
    const [site, stranger] = [await serveApp({ folder }), await serve(DIST)];
    const { context, page } = await phone(browser);
    try {
      await page.goto(`${site.url}?there=${encodeURIComponent(stranger.url)}`);
      await drawn(page);
      await run(page);
      expect(stranger.seen).toEqual([]);
      const faults = faultsOf(context).splice(0);
      // The browser tells of each on the console, and of a page that is not as it was built; nothing else may go wrong.
      const expected = /Content.Security.Policy|Trusted|leaves:|integrity/i;
      expect(faults.filter((fault) => !expected.test(fault))).toEqual([]);
    } finally {
      await context.close();
      await Promise.all([stopServer(site), stranger.stop()]);
    }
  });

describe("in the page", () => {
  it("no text becomes script or style, and nothing leaves for another origin", async () => {
    await withMore({ script: `${VIOLATIONS}\n${ATTEMPTS}` }, async (page) => {
      const outcome = await page.evaluate(
        () => (globalThis as unknown as { tried: Promise<Record<string, string>> }).tried,
      );
      const asked = ["beacon", "frame", "form"];
      expect(outcome).toEqual(
        Object.fromEntries(
          Object.keys(outcome).map((name) => [name, asked.includes(name) ? "asked" : "refused"]),
        ),
      );
      expect(Object.keys(outcome)).toHaveLength(19);
      const directives = new Set((await held(page)).map((line) => line.split(" ")[0]));
      expect([...directives]).toEqual(
        expect.arrayContaining([
          "script-src-elem",
          "style-src-elem",
          "style-src-attr",
          "img-src",
          "connect-src",
          "frame-src",
          "form-action",
          "require-trusted-types-for",
        ]),
      );
    });
  });

  it("an inline script, a handler, a style attribute and a base in the markup do nothing", async () => {
    await withMore(
      {
        script: VIOLATIONS,
        head: '<base href="https://example.org/"><script>globalThis.taken = "script"</script><style>body { --taken: yes }</style>',
        body: '<p id="bait" style="--taken: yes" onfocus="globalThis.taken = 1" tabindex="0">bait</p><a id="way" href="javascript:globalThis.taken=2">way</a>',
      },
      async (page) => {
        await page.locator("#bait").focus();
        await page.evaluate(() => document.querySelector<HTMLElement>("#way")?.click());
        const taken = await page.evaluate(() => ({
          script: (globalThis as { taken?: unknown }).taken,
          page: getComputedStyle(document.body).getPropertyValue("--taken"),
          bait: getComputedStyle(document.querySelector("#bait") ?? document.body).getPropertyValue(
            "--taken",
          ),
          base: document.baseURI.startsWith(location.origin),
        }));
        expect(taken).toEqual({ script: undefined, page: "", bait: "", base: true });
        await expect
          .poll(async () => new Set((await held(page)).map((line) => line.split(" ")[0])))
          .toEqual(
            new Set(["base-uri", "script-src-elem", "script-src-attr", "style-src-elem", "style-src-attr"]),
          );
      },
    );
  });
});
