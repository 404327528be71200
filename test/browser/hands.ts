import type { Locator, Page } from "playwright-core";
import { listenerName } from "../../src/text/names";
import { drawn, type Site } from "./harness";

/** Opens the app at a place, without waiting until everything is kept for later. */
export const openAt = async (page: Page, site: Site, place: string): Promise<void> => {
  await page.goto(`${site.url}#${place}`);
  await drawn(page);
};

/** A tap with a finger. */
export const tap = (target: Locator): Promise<void> => target.tap();

/** The setup that is open, as it lies in the browser's storage. */
export const stored = (page: Page): Promise<string> =>
  page.evaluate(
    () =>
      new Promise<string>((done, failed) => {
        const opened = indexedDB.open("hatside");
        opened.onerror = () => failed(opened.error);
        opened.onsuccess = () => {
          const db = opened.result;
          const all = db.transaction("things").objectStore("things").getAll();
          all.onerror = () => failed(all.error);
          all.onsuccess = () => {
            db.close();
            const records = (all.result as { text?: string; changed?: number }[]).filter((r) => r?.text);
            records.sort((a, b) => (b.changed ?? 0) - (a.changed ?? 0));
            done(records[0]?.text ?? "");
          };
        };
      }),
  );

/** A change older than this is safe, ms: what the app promises. */
const SAFE_AFTER = 300;

/** Waits as long as it may take until what was done last is safe. */
export const settled = (page: Page): Promise<void> => page.waitForTimeout(SAFE_AFTER);

/** One line of the table beside the threads. */
export interface ImageRow {
  /** The channel and how its sides agree, as it is read: "Hat reversed". */
  readonly name: string;
  readonly stands: string;
  readonly heard: string;
  readonly left: string;
  readonly right: string;
}

/** The table of what reaches a listener. */
export const imageRows = async (page: Page, listener: string): Promise<ImageRow[]> => {
  const table = page.locator("table", {
    hasText: `Each channel as it reaches ${listenerName({ name: listener })}`,
  });
  await table.waitFor();
  const lines = await table
    .locator("tbody tr")
    .evaluateAll((rows) =>
      rows.map((row) =>
        [...row.children].map((cell) => (cell.textContent ?? "").replace(/\s+/g, " ").trim()),
      ),
    );
  return lines.map(([name = "", stands = "", heard = "", left = "", right = ""]) => ({
    name,
    stands,
    heard,
    left,
    right,
  }));
};

/** Every part that is being loaded has come. */
export const loaded = (page: Page): Promise<void> =>
  page.locator(".wait").first().waitFor({ state: "detached" });

/** Opens everything on a screen that opens on a tap, also what comes out of it, and waits for parts that load. */
export const openAll = async (page: Page): Promise<void> => {
  const shut = 'main details:not([open]) > summary, main button[aria-expanded="false"]';
  await loaded(page);
  while ((await page.locator(shut).count()) > 0) {
    await page.locator(shut).evaluateAll((all) => {
      for (const each of all) (each as HTMLElement).click();
      // What a part draws only when it is open comes a turn later.
      return new Promise((drawn) => setTimeout(drawn));
    });
    await loaded(page);
  }
};

/** A thread of a drawing: its upper and lower end across the drawing, and whether it is drawn as reversed. */
export interface DrawnThread {
  readonly above: number;
  readonly below: number;
  readonly wrong: boolean;
}

/** The threads as they are drawn now. */
export const threads = (figure: Locator): Promise<DrawnThread[]> =>
  figure.locator(".thread").evaluateAll((all) =>
    all.map((thread) => {
      const path = thread.querySelector(".thread-line")?.getAttribute("d") ?? "";
      const [, above, below] = /^M([\d.]+) .*[ ,]([\d.]+) [\d.]+$/.exec(path) ?? [];
      return { above: Number(above), below: Number(below), wrong: thread.classList.contains("is-wrong") };
    }),
  );

/** Middle of a drawing of threads. */
const MIDDLE = 180;

/** No thread goes over to the other side, and none is drawn as if it did. */
export const upright = (drawn: readonly DrawnThread[]): boolean => {
  if (drawn.length === 0) throw new Error("no threads are drawn");
  return drawn.every(({ above, below, wrong }) => !wrong && (above - MIDDLE) * (below - MIDDLE) > -1);
};

/** Tabs until what has the focus is called so. */
export const tabTo = async (page: Page, name: string | RegExp): Promise<void> => {
  const wanted = typeof name === "string" ? new RegExp(`^${name}$`) : name;
  for (let presses = 0; presses < 250; presses += 1) {
    await page.keyboard.press("Tab");
    const called = await page.evaluate(() => {
      const at = document.activeElement as HTMLElement | null;
      if (!at || at === document.body) return "";
      const style = getComputedStyle(at.matches("[type=radio]") ? (at.closest("label") ?? at) : at);
      const ring = style.outlineStyle !== "none" || at.matches(".mark");
      if (!ring) throw new Error(`no focus is shown on ${at.outerHTML.slice(0, 120)}`);
      const label = at.getAttribute("aria-label") ?? (at as HTMLInputElement).labels?.[0]?.textContent;
      return (label ?? at.textContent ?? "").replace(/\s+/g, " ").trim();
    });
    if (wanted.test(called)) return;
  }
  throw new Error(`${name} was not reached`);
};

/** Files let go over the place for recordings; their names are sent as JSON, which keeps halves of pairs. */
export const drop = (
  page: Page,
  files: readonly { readonly name: string; readonly content: Buffer }[],
): Promise<void> =>
  page.getByRole("group", { name: "Recordings" }).evaluate(
    (part, json) => {
      const dataTransfer = new DataTransfer();
      for (const { name, content } of JSON.parse(json) as { name: string; content: string }[])
        dataTransfer.items.add(new File([Uint8Array.from(atob(content), (c) => c.charCodeAt(0))], name));
      part.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
    },
    JSON.stringify(files.map(({ name, content }) => ({ name, content: content.toString("base64") }))),
  );
