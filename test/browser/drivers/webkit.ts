import { type ChildProcess, spawn } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import type { Readable } from "node:stream";
import { CATCH } from "./caught";
import type { Start } from "./driver";

/**
 * Catches what goes wrong from the first script that is run in a page. Its protocol tells nothing, so what goes wrong
 * while a page loads is not seen, but for requests.
 */
const WATCH = `
  if (!globalThis.told) {
    globalThis.told = [];
    const tell = (what) => void told.push(what);
    const say = console.error;
    console.error = (...what) => { tell("console: " + what.join(" ")); say(...what); };
    ${CATCH}
  }`;

const WAIT_MS = 20_000;
/** Name under which WebDriver hands over an element. */
const ELEMENT = "element-6066-11e4-a52e-4f735466cecf";
/** Keys of WebDriver: Control held and let go, Delete. */
const [CONTROL, DELETE] = ["\uE009", "\uE017"];

/** Small browser that comes with the engine's library, in a folder named by the machine. */
const miniBrowser = (): string => {
  for (const machine of readdirSync("/usr/lib"))
    for (const api of ["webkit2gtk-4.1", "webkit2gtk-4.0", "webkitgtk-6.0"]) {
      const file = join("/usr/lib", machine, api, "MiniBrowser");
      if (existsSync(file)) return file;
    }
  throw new Error("no MiniBrowser under /usr/lib: install webkit2gtk-driver");
};

const freePort = (): Promise<number> =>
  new Promise((done) => {
    const server = createServer().listen(0, "127.0.0.1", () => {
      const address = server.address();
      server.close(() => done(typeof address === "object" && address ? address.port : 0));
    });
  });

/** A screen that nobody looks at; gives its name. */
const startScreen = async (): Promise<{ process: ChildProcess; display: string }> => {
  const child = spawn("Xvfb", ["-displayfd", "3", "-screen", "0", "390x844x24", "-nolisten", "tcp"], {
    stdio: ["ignore", "ignore", "ignore", "pipe"],
  });
  const told = child.stdio[3] as Readable;
  const number = await new Promise<string>((done, failed) => {
    child.once("error", failed);
    told.once("data", (data) => done(String(data).trim()));
  });
  return { process: child, display: `:${number}` };
};

type Call = <T>(method: string, path: string, body?: object) => Promise<T>;

const caller =
  (port: number): Call =>
  async <T>(method: string, path: string, body?: object) => {
    const response = await fetch(`http://127.0.0.1:${port}${path}`, {
      method,
      ...(body ? { body: JSON.stringify(body) } : {}),
      signal: AbortSignal.timeout(WAIT_MS),
    });
    const { value } = (await response.json()) as { value: T };
    if (!response.ok) throw new Error(JSON.stringify(value).slice(0, 400));
    return value;
  };

const untilUp = async (call: Call): Promise<void> => {
  const deadline = Date.now() + WAIT_MS;
  for (;;)
    try {
      await call("GET", "/status");
      return;
    } catch (error) {
      if (Date.now() > deadline) throw error;
      await new Promise((done) => setTimeout(done, 100));
    }
};

/** WebKitGTK's MiniBrowser, by plain WebDriver, on a screen of its own. */
export const startWebKit: Start = async () => {
  const screen = await startScreen();
  const port = await freePort();
  const driver = spawn("WebKitWebDriver", [`--port=${port}`], {
    env: { ...process.env, DISPLAY: screen.display, NO_AT_BRIDGE: "1" },
    stdio: "ignore",
  });
  const end = (): void => {
    driver.kill();
    screen.process.kill();
  };
  try {
    const call = caller(port);
    await untilUp(call);
    const { sessionId } = await call<{ sessionId: string }>("POST", "/session", {
      capabilities: {
        alwaysMatch: {
          browserName: "MiniBrowser",
          "webkitgtk:browserOptions": { binary: miniBrowser(), args: ["--automation", "--full-screen"] },
        },
      },
    });
    const at = `/session/${sessionId}`;
    const faults: string[] = [];
    const run = async <T>(body: string): Promise<T> => {
      const { result, told } = await call<{ result: T; told: string[] }>("POST", `${at}/execute/async`, {
        script: `${WATCH} const done = (result) => arguments[0]({ result, told: globalThis.told.splice(0) });
          (async () => { ${body} })().then(done, (error) => done("failed: " + error));`,
        args: [],
      });
      faults.push(...told);
      return result;
    };
    /** Goes on only when the new page is watched. */
    const watched = async (moved: Promise<void>): Promise<void> => {
      await moved;
      await run("");
    };
    const find = async (selector: string): Promise<string> => {
      const found = await call<{ [ELEMENT]: string }>("POST", `${at}/element`, {
        using: "css selector",
        value: selector,
      });
      return `${at}/element/${found[ELEMENT]}`;
    };
    return {
      name: "WebKitGTK",
      open: (url) => watched(call("POST", `${at}/url`, { url })),
      reload: () => watched(call("POST", `${at}/refresh`, {})),
      click: async (selector) => call("POST", `${await find(selector)}/click`, {}),
      type: async (selector, text) => {
        const field = await find(selector);
        await call("POST", `${field}/value`, { text: `${CONTROL}a${CONTROL}${DELETE}${text}` });
      },
      text: (selector) =>
        run(`return document.querySelector(${JSON.stringify(selector)})?.textContent ?? "";`),
      run,
      faults: () => faults.splice(0),
      close: async () => {
        await call("DELETE", at).finally(end);
      },
    };
  } catch (error) {
    end();
    throw error;
  }
};
