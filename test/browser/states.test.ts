import { appendFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { checkOf } from "../../src/core/check/check";
import { isPlanned } from "../../src/core/check/decide";
import type { Decision } from "../../src/core/check/decision";
import { ANSWERS } from "../../src/core/model/kinds";
import type { Listener } from "../../src/core/model/setup";
import { exampleSetup } from "../../src/document/example";
import { printSetup } from "../../src/document/read-setup";
import type { SetupFile } from "../../src/document/schema";
import { CHOOSE_BUS } from "../../src/text/image";
import { type Answerer, candidateOf, hearsSurely, play, seeded } from "../core/check/simulate";
import { packed } from "../shelf/forged";
import { alert, choose, go, states, takeIn, unfold } from "./hall";
import { openAll, openAt } from "./hands";
import { phone, typeKeys, withFolder } from "./harness";
import { inspect, LONGEST, measureTwo, measureTwoIn, WALK_MS, wordsStay } from "./inspect";
import { browser, site } from "./stage";
import { lay, onlyKey, things } from "./things";

it("nothing is found where every field has what it cannot take", { timeout: WALK_MS }, async () => {
  const { page, context } = await phone(browser);
  await openAt(page, site, "channels");
  for (const place of ["channels", "image", "headroom", "patch", "setups"]) {
    await go(page, place);
    await openAll(page);
    if (place === "headroom") await page.getByLabel("Estimate it").check();
    const fields = await page.locator("main").evaluate((main) => {
      const all = main.querySelectorAll<HTMLInputElement>("input[type=text], textarea:not([readonly])");
      for (const field of all) {
        field.value = "nine".repeat(1000);
        field.dispatchEvent(new Event("input", { bubbles: true }));
      }
      return all.length;
    });
    // The rows to be pasted may be anything.
    const free = await page.getByLabel(/^(Or paste rows from a spreadsheet|One channel per line)$/).count();
    await expect.poll(() => page.locator(".wrong").count()).toBe(fields - free);
    const unmarked = page.locator("[aria-invalid=true]").evaluateAll((all) => {
      const plain = all.filter((e) => getComputedStyle(e).boxShadow === "none");
      return plain.map((e) => e.outerHTML.slice(0, 120));
    });
    expect(await unmarked, place).toEqual([]);
    await inspect(page, `fields of ${place}`);
  }
  await context.close();
});

/** A file chosen under Setups. */
const give = async (page: Page, content: string): Promise<void> => {
  await go(page, "setups");
  await choose(page, "Import a setup or backup", `${LONGEST}.json`, content);
};

/** Workers that never answer: what is read or measured there stays under way. */
const neverAnswers = (page: Page): Promise<void> =>
  page.evaluate(() => {
    globalThis.Worker = class extends EventTarget {
      postMessage(): void {}
      terminate(): void {}
    } as unknown as typeof Worker;
  });

const EXAMPLE = exampleSetup();
/** A setup file with more in it than is understood. */
const ODD = {
  ...EXAMPLE,
  name: LONGEST,
  [LONGEST]: 1,
  note: 7,
  colour: "red",
  kit: { ...EXAMPLE.kit, yaw: 999 },
};
/** Many rows as a spreadsheet has them. */
const LIST = `Name,Kind,Pan,Input\n${LONGEST},drum,L20,1\n${"Bell,,,\n".repeat(20)}`;

/** Letters that no packing makes shorter. */
const letters = (count: number): string => {
  const chance = seeded(1);
  return Array.from({ length: count }, () => String.fromCharCode(97 + Math.floor(26 * chance()))).join("");
};

const MARA = EXAMPLE.listeners.find((l) => l.kind === "drummer") as Listener;
const CHECK = checkOf(EXAMPLE, MARA);

/** The example with a check that somebody answered until there was a verdict; null where it is another than wanted. */
const answered = (answerer: Answerer, wanted: (decision: Decision) => boolean): SetupFile | null => {
  const { decision, hits } = play(CHECK, answerer);
  return wanted(decision) ? { ...EXAMPLE, check: { listener: MARA.id, hits } } : null;
};

/** Answers that somebody gives who hears one of these faults, such that so many are named. */
const hearing = (ids: readonly string[], wanted: (named: number, planned: boolean) => boolean): SetupFile => {
  for (const id of ids) {
    const file = answered(
      hearsSurely(CHECK, candidateOf(CHECK, id)),
      (d) => d.kind === "found" && wanted(d.found.suspects.length, isPlanned(d.found)),
    );
    if (file) return file;
  }
  throw new Error("no such verdict");
};

/** Answers of somebody who presses so many wrong buttons that nothing is clear. */
const lapsing = (wanted: (decision: Decision) => boolean): SetupFile => {
  const says = hearsSurely(CHECK, candidateOf(CHECK, "planned"));
  for (let seed = 1; seed < 1000; seed += 1) {
    const chance = seeded(seed);
    const wrong: Answerer = (probe) =>
      chance() < 0.35 ? (ANSWERS[Math.floor(chance() * ANSWERS.length)] ?? "left") : says(probe);
    const file = answered(wrong, wanted);
    if (file) return file;
  }
  throw new Error("no such verdict");
};

/** What a check can come to, and a sentence of it. */
const VERDICTS: readonly (readonly [what: string, says: string, file: () => SetupFile])[] = [
  ["as planned", "What is heard is what", () => hearing(["planned"], (_, planned) => planned)],
  [
    "one fault",
    "Fix it, then check again",
    () => hearing(["silent", "inverted"], (named, planned) => !planned && named === 1),
  ],
  [
    "several that sound alike",
    "Ears cannot tell these apart",
    () => hearing(["swapped", "left-only", "right-only"], (named, planned) => !planned && named > 1),
  ],
  ["not clear", "the hits ran out before it was clear", () => lapsing((d) => d.kind === "found" && d.ranOut)],
  ["no known fault", "This fits no known fault", () => lapsing((d) => d.kind === "unexplained")],
  [
    "none can be made",
    CHOOSE_BUS,
    () => ({
      ...EXAMPLE,
      listeners: EXAMPLE.listeners.map((l) => (l.id === MARA.id ? { ...l, bus: null } : l)),
      check: { listener: MARA.id, hits: [] },
    }),
  ],
];

type Bring = (page: Page) => Promise<void>;

/** States behind a tap or a file, each on a phone of its own. */
const STATES: readonly (readonly [what: string, place: string, bring: Bring])[] = [
  [
    "a list before it is taken",
    "patch",
    async (page) => {
      await unfold(page, "Input list from or to a spreadsheet");
      await choose(page, "Import a CSV list", `${LONGEST}.csv`, LIST);
      await page.getByRole("region", { name: "What changes" }).waitFor();
      await page.getByText("Remove them", { exact: true }).click();
      await page
        .getByText(/ removed/)
        .first()
        .waitFor();
      await openAll(page);
      await page.getByText("another character").click();
      await typeKeys(page.getByLabel("Character", { exact: true }), "semicolon and a half");
      await page.getByText("cannot be it. Allowed: one character").waitFor();
    },
  ],
  [
    "a list of more than can be taken",
    "patch",
    async (page) => {
      await unfold(page, "Input list from or to a spreadsheet");
      await choose(page, "Import a CSV list", "list.csv", `Name\n${"Bell\n".repeat(500)}`);
      await page.getByText("channels in all: too many.").waitFor();
    },
  ],
  [
    "a list cut by a wrong mark",
    "patch",
    async (page) => {
      await unfold(page, "Input list from or to a spreadsheet");
      await choose(page, "Import a CSV list", "list.csv", `Name,Input\nBell ${";".repeat(500)},1\n`);
      await page.getByText("semicolon", { exact: true }).click();
      await page.getByRole("button", { name: "Use the delimiter that was found" }).waitFor();
    },
  ],
  [
    "a setup before it is kept, not all of it understood",
    "setups",
    async (page) => {
      await give(page, JSON.stringify(ODD));
      await states(page, "Import “");
      await openAll(page);
    },
  ],
  [
    "a backup to choose from, some of it refused",
    "setups",
    async (page) => {
      const setups = [ODD, ...Array.from({ length: 60 }, () => EXAMPLE), { [LONGEST]: 1 }, { version: 99 }];
      await give(page, JSON.stringify({ format: "hatside-backup", version: 1, setups, unread: [] }));
      await states(page, "61 setups to choose from");
      await page.getByRole("checkbox").first().uncheck();
      await page.getByRole("button", { name: "Show 11 of 11 more" }).waitFor();
      await openAll(page);
    },
  ],
  [
    "a link that is read, and one that was refused",
    "setups",
    async (page) => {
      await go(page, packed("{}").slice(1));
      await states(page, "Nothing to import");
      await inspect(page, "refused");
      await neverAnswers(page);
      await go(page, packed(printSetup(EXAMPLE)).slice(1));
      await states(page, "Reading …");
    },
  ],
  [
    "a setup from a link",
    "setups",
    async (page) => {
      await go(page, packed(JSON.stringify(ODD)).slice(1));
      await states(page, "Import “");
      await openAll(page);
    },
  ],
  [
    "a shelf where names are blank and too long, nothing is found and nothing compared",
    "setups",
    async (page) => {
      const key = await onlyKey(page);
      const whole = (await things(page))[key] as object;
      for (const n of [1, 2, 3, 4]) await lay(page, `${key}${n}`, { ...whole, name: LONGEST, text: "{" });
      await page.reload();
      await states(page, "5 setups on this device");
      await openAll(page);
      await page.getByText(/^Not compared: /).waitFor();
      const names = page.getByLabel("Name", { exact: true });
      await names.nth(0).fill(" ");
      await names.nth(1).fill(`${LONGEST}s`);
      await page.getByText("81 characters are too many").waitFor();
      await inspect(page, "names");
      await page.getByLabel("Search by name").fill("no such name");
      await page.getByText("No setup has this in its name.").waitFor();
    },
  ],
  [
    "a setup too large for a code, handed on",
    "setups",
    async (page) => {
      await takeIn(page, printSetup({ ...EXAMPLE, note: letters(2000) }));
      await go(page, "setups");
      await unfold(page, "Share the open setup");
      await page.getByText(/^No QR code: /).waitFor();
      await page.getByRole("button", { name: "Share the link" }).click();
      await page.getByText(/^Link copied|^This browser can’t share/).waitFor();
    },
  ],
  [
    "a browser that makes no links",
    "setups",
    async (page) => {
      await page.evaluate(() => Reflect.deleteProperty(globalThis, "CompressionStream"));
      await unfold(page, "Share the open setup");
      await page.getByText("No link: this browser is too old for links.").waitFor();
    },
  ],
  [
    "the preview of a recommendation, and while it is applied",
    "image",
    async (page) => {
      await openAll(page);
      for (const button of await page.getByRole("button", { name: "Preview" }).all()) await button.click();
      await page
        .getByText(/^Preview: /)
        .first()
        .waitFor();
      for (const view of ["As FOH sees it", "The stage"]) {
        await page.getByText(view).click();
        await inspect(page, view);
      }
      await page.getByRole("button", { name: "Swap Drums L/R" }).click();
      await states(page, /^All on the right side for Mara/);
    },
  ],
  [
    "a bus over every ceiling, and the earphone level",
    "headroom",
    async (page) => {
      await openAll(page);
      await page.getByLabel("Estimate it").check();
      await typeKeys(page.getByLabel("Amplifier output without load, V"), "20");
      await typeKeys(page.getByLabel("Send of Kick, dB"), "40");
      await page.getByRole("heading", { name: / under target\. Ways to reach it/ }).waitFor();
      await openAll(page);
    },
  ],
  [
    "a patch with faults",
    "patch",
    async (page) => {
      const { monitor } = EXAMPLE;
      const inputs = [...monitor.inputs].reverse();
      await takeIn(page, printSetup({ ...EXAMPLE, monitor: { ...monitor, inputs } }));
      await go(page, "patch");
      await page.getByText("Fault:").first().waitFor();
      await openAll(page);
    },
  ],
  [
    "rules changed for channels that are ticked, and pins that cannot all be kept",
    "decide",
    async (page) => {
      const channels = EXAMPLE.channels.map((c, i) =>
        i % 2 === 0 ? { ...c, name: `${LONGEST}${i}`.slice(-80), rule: { own: "must" as const } } : c,
      );
      const listeners = EXAMPLE.listeners.map((l) => ({ ...l, name: LONGEST }));
      await takeIn(page, printSetup({ ...EXAMPLE, channels, listeners }));
      await go(page, "decide");
      await openAll(page);
      await page.getByLabel("Rules for", { exact: true }).selectOption({ label: "Channels to tick" });
      await page.getByRole("checkbox", { name: "Guitar", exact: true }).check();
      await page.getByLabel(/^Must reach/).selectOption({ label: "Only those ticked" });
      await inspect(page, "rules");
      const pins = page.locator("details", { hasText: "Pins" }).last().locator("select");
      for (const pin of await pins.all()) await pin.selectOption("mono");
      await states(page, "No plan keeps every pin");
    },
  ],
  [
    "recordings: measured, from before a change, kept",
    "headroom",
    async (page) => {
      await measureTwo(page);
      await inspect(page, "measured");
      await typeKeys(page.getByLabel("Send of Kick, dB"), "40");
      await page.getByText("from before the change").first().waitFor();
      await page.getByLabel("Channel for Snare.wav").selectOption("left out");
      await page.getByText("Files or matches have changed since").waitFor();
      await inspect(page, "from before");
      await page.getByRole("button", { name: "Keep these figures" }).click();
      await page.locator(".toast").getByText(/kept$/).waitFor();
      await neverAnswers(page);
      await page.getByRole("button", { name: "Measure again", exact: true }).click();
      await inspect(page, "under way");
      await page.getByRole("button", { name: "Cancel measuring" }).click();
      await page.getByText("Measuring was cancelled").waitFor();
      await openAll(page);
      await inspect(page, "cancelled");
      await page.reload();
      await unfold(page, "Measured: Kick");
      await openAll(page);
    },
  ],
  [
    "a recording that cannot be read any more",
    "headroom",
    async (page) => {
      await withFolder(async (folder) => {
        appendFileSync(await measureTwoIn(page, folder), "another take");
        await go(page, "image");
        await unfold(page, "Listen to it");
        await page.getByLabel("What plays").selectOption("The recording, round its loudest moment");
        await alert(page).getByText("The recording cannot be read any more").waitFor();
      });
    },
  ],
  [
    "a check of the audience",
    "check",
    async (page) => {
      await page.getByLabel("Who listens").selectOption("Audience");
      await page.getByText("The audience hears FOH, not a bus.").waitFor();
    },
  ],
];

it.each(STATES)("nothing is found in %s", { timeout: WALK_MS }, async (what, place, bring) => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, place);
  await wordsStay(page);
  await bring(page);
  await inspect(page, what);
  expect(faults).toEqual([]);
  await context.close();
});

it("nothing is found in whatever a check comes to", { timeout: WALK_MS }, async () => {
  const { page, faults, context } = await phone(browser);
  await openAt(page, site, "check");
  await wordsStay(page);
  for (const [what, says, file] of VERDICTS) {
    await takeIn(page, printSetup(file()));
    await go(page, "check");
    await page.getByText(says).first().waitFor();
    await openAll(page);
    await inspect(page, `a check: ${what}`);
  }
  expect(faults).toEqual([]);
  await context.close();
});
