import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Candidate, type Check, checkOf } from "../../src/core/check/check";
import { decide, isPlanned } from "../../src/core/check/decide";
import type { Decision } from "../../src/core/check/decision";
import type { Answer, Hit, Id, Listener, Setup } from "../../src/core/model/setup";
import { exampleSetup } from "../../src/document/example";
import { checkNames, describeAction, describeFault, type FaultText } from "../../src/text/check";
import { listenerName } from "../../src/text/names";
import { candidateOf, hearsSurely, hitOf } from "../core/check/simulate";
import { go, inputs, overhang, shown, states, unfold, visit } from "./hall";
import { settled, stored, tap } from "./hands";
import {
  axeFindings,
  drawn,
  launch,
  type Phone,
  phone,
  phoneWithCopy,
  serveApp,
  stopServer,
} from "./harness";
import { textOf as paperText } from "./paper";

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});
afterAll(() => browser.close());

/** What the app opens with at the first start. */
const SETUP: Setup = exampleSetup();
const listenerCalled = (name: string): Listener => {
  const listener = SETUP.listeners.find((l) => l.name === name);
  if (!listener) throw new Error(`nobody is called ${name}`);
  return listener;
};
const MARA = listenerCalled("Mara, drums");
const CHECK: Check = checkOf(SETUP, MARA);

const textOf = (candidate: Candidate, listener: Listener = MARA): FaultText =>
  describeFault(SETUP, checkNames(SETUP, listener), candidate);
const channelName = (name: string): Id => SETUP.channels.find((s) => s.name === name)?.id ?? "";

const WORDS: { readonly [answer in Answer]: string } = {
  left: "Left",
  middle: "Middle",
  right: "Right",
  nothing: "Nothing",
  unclear: "Can’t place it",
};
const KEYS: { readonly [answer in Answer]: string } = {
  left: "1",
  middle: "2",
  right: "3",
  nothing: "4",
  unclear: "5",
};

/** A phone that has been there once; its server is gone, and wake locks and vibrations are counted. */
const offline = async (options?: Parameters<typeof phone>[1]): Promise<Phone> => {
  const site = await serveApp();
  const user = await phoneWithCopy(browser, options);
  await user.page.addInitScript(() => {
    const counted = { held: 0, taken: 0, buzzes: 0 };
    Object.assign(globalThis, { counted });
    Object.defineProperty(navigator, "wakeLock", {
      value: {
        request: async () => {
          counted.held += 1;
          counted.taken += 1;
          const lock = {
            released: false,
            release: async () => {
              if (!lock.released) counted.held -= 1;
              lock.released = true;
            },
          };
          Object.assign(globalThis, { lock });
          return lock;
        },
      },
    });
    Object.defineProperty(navigator, "vibrate", {
      value: () => {
        counted.buzzes += 1;
        return true;
      },
    });
  });
  await visit(user, site);
  await stopServer(site);
  await go(user.page, "check");
  return user;
};

const counted = (page: Page): Promise<{ held: number; taken: number; buzzes: number }> =>
  page.evaluate(
    () => (globalThis as unknown as { counted: { held: number; taken: number; buzzes: number } }).counted,
  );

/** The phone is locked, which takes the wake lock away, or unlocked again. */
const locked = (page: Page, is: boolean): Promise<void> =>
  page.evaluate(async (hidden) => {
    if (hidden) await (globalThis as unknown as { lock: WakeLockSentinel }).lock.release();
    Object.defineProperty(document, "visibilityState", {
      configurable: true,
      get: () => (hidden ? "hidden" : "visible"),
    });
    document.dispatchEvent(new Event("visibilitychange"));
  }, is);

const heading = (page: Page) => page.locator("h1");
const question = async (page: Page): Promise<string> => {
  await states(page, /^Hit the /);
  return (await heading(page).textContent()) ?? "";
};
/** The piece that the screen asks for. */
const asked = async (page: Page): Promise<Id> => {
  const name = /^Hit the (.*)\. Where is it\?$/.exec(await question(page))?.[1];
  const piece = SETUP.kit.pieces.find((p) => p.name === name);
  if (!piece) throw new Error(`asked for ${name}`);
  return piece.id;
};
const progress = async (page: Page): Promise<number> =>
  Number(await page.getByRole("progressbar").getAttribute("aria-valuenow"));

/** Longer than a wet finger bounces, ms: nobody hits and answers faster. */
const A_HIT = 300;

type Press = (page: Page, said: Answer) => Promise<void>;
const byTap: Press = async (page, said) => {
  await page.waitForTimeout(A_HIT);
  await tap(page.getByRole("button", { name: WORDS[said] }));
};
const byKey: Press = async (page, said) => {
  await page.waitForTimeout(A_HIT);
  await page.keyboard.press(KEYS[said]);
};

const start = (page: Page): Promise<void> => tap(page.getByRole("button", { name: "Start the check" }));

/** Waits until the screen asks the same as the arithmetic does, or has a verdict as well. */
const follows = async (page: Page, decision: Decision, listener: Listener): Promise<void> => {
  if (decision.kind !== "asking") return states(page, /^(?!Hit the )/);
  const { piece, action } = decision.next;
  const name = SETUP.kit.pieces.find((p) => p.id === piece)?.name;
  await states(page, `Hit the ${name}. Where is it?`);
  const before = action === null ? null : describeAction(checkNames(SETUP, listener), action).before;
  if (before) expect(await shown(page.locator("main"))).toContain(before);
  expect(await page.getByRole("button", { name: "Can’t do that" }).count()).toBe(action === null ? 0 : 1);
};

/**
 * Somebody at the kit who hears a fault answers until there is a verdict: each answer follows from what the ears get
 * by the fault, and does what is asked before the hit. `halfway` happens after the second answer.
 */
const play = async (
  page: Page,
  check: Check,
  fault: Candidate,
  press: Press,
  halfway: () => Promise<void> = async () => {},
  listener: Listener = MARA,
): Promise<Hit[]> => {
  const says = hearsSurely(check, fault);
  const hits: Hit[] = [];
  for (;;) {
    const decision = decide(check, hits);
    if (decision.kind !== "asking") return hits;
    expect(await asked(page)).toBe(decision.next.piece);
    const hit = hitOf(decision.next, says(decision.next));
    await press(page, hit.answer);
    hits.push(hit);
    await follows(page, decide(check, hits), listener);
    if (hits.length === 2) await halfway();
  }
};

/** All that the verdict says: the fault with everything that sounds alike, what to do for each, and how to confirm. */
const expectVerdict = async (
  page: Page,
  check: Check,
  fault: Candidate,
  hits: readonly Hit[],
  listener: Listener = MARA,
): Promise<void> => {
  const decision = decide(check, hits);
  if (decision.kind !== "found") throw new Error(decision.kind);
  const { suspects } = decision.found;
  expect(suspects.map((s) => s.candidate)).toContain(fault);
  const says = await shown(page.locator("main"));
  for (const { candidate } of suspects) {
    const { name, steps } = textOf(candidate, listener);
    expect(await heading(page).textContent()).toContain(name);
    for (const step of steps) expect(says).toContain(step);
  }
  expect(says.includes("Ears cannot tell these apart")).toBe(suspects.length > 1);
  for (const action of suspects.length > 1 ? decision.telling : [])
    expect(says).toContain(describeAction(checkNames(SETUP, listener), action).before);
  const last = hits.at(-1)?.action;
  if (last) expect(says).toContain(`Set back: ${describeAction(checkNames(SETUP, listener), last).after}`);
  expect(says).toContain(`% likely after ${hits.length} hits`);
  expect(says).toContain("A model of how people answer");
  if (decision.confirmation) expect(says).toContain("To confirm, hit the ");
  expect(says).toContain("Fix it, then check again: there may be a second fault.");
};

/** Opens what stands apart from the fix, and records the fault. */
const record = async (page: Page, fault: Candidate): Promise<void> => {
  const { name } = textOf(fault);
  const card = page.locator("li.card", {
    has: page.getByLabel(`Record as found (changes the plan): ${name}`),
  });
  await tap(card.getByText("Or leave it as it is"));
  await tap(page.getByRole("button", { name: `Record as found (changes the plan): ${name}` }));
  await page.locator(".toast").getByText("The plan is now as found").waitFor();
};

const reload = async (page: Page): Promise<void> => {
  await settled(page);
  await page.reload();
  await drawn(page);
};

describe("with no network, at the kit", () => {
  it("finds a swapped pair by taps, records it as found, and takes that back", async () => {
    const user = await offline();
    const { page } = user;
    const fault = candidateOf(CHECK, "swapped");
    await go(page, "image");
    const image = (await heading(page).textContent()) ?? "";
    await go(page, "patch");
    const before = await inputs(page);
    await go(page, "check");
    await start(page);
    expect(await progress(page)).toBe(0);
    let half = 0;
    const hits = await play(page, CHECK, fault, byTap, async () => {
      half = await progress(page);
      const here = await question(page);
      await reload(page);
      expect(await question(page)).toBe(here);
      expect(await progress(page)).toBe(half);
    });
    expect(half).toBeGreaterThan(0);
    await expectVerdict(page, CHECK, fault, hits);
    await record(page, fault);
    await page.getByRole("button", { name: "Start the check" }).waitFor();
    await go(page, "image");
    await expect.poll(() => heading(page).textContent()).not.toBe(image);
    await go(page, "patch");
    const now = await inputs(page);
    expect(now.slice(0, 2)).not.toEqual(before.slice(0, 2));
    expect(now.slice(2)).toEqual(before.slice(2));
    await page.getByRole("button", { name: /^Undo/ }).click();
    expect(await inputs(page)).toEqual(before);
    await go(page, "check");
    await expectVerdict(page, CHECK, fault, hits);
    await tap(page.getByRole("button", { name: "Done" }));
    await page.getByRole("button", { name: "Start the check" }).waitFor();
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("finds one channel on the wrong side by the keyboard", async () => {
    const user = await offline();
    const { page } = user;
    const fault = candidateOf(CHECK, `wrong-side ${channelName("Floor tom")}`);
    await page.getByRole("button", { name: "Start the check" }).focus();
    await page.keyboard.press("Enter");
    const hits = await play(page, CHECK, fault, byKey, () => reload(page));
    await expectVerdict(page, CHECK, fault, hits);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("finds a close microphone that is missing under the overheads: it asks to mute them, and to set that back", async () => {
    const user = await offline();
    const { page } = user;
    const fault = candidateOf(CHECK, `missing ${channelName("Hat")}`);
    await start(page);
    const hits = await play(page, CHECK, fault, byTap);
    expect(hits.some((hit) => hit.action === "mute-overheads")).toBe(true);
    await expectVerdict(page, CHECK, fault, hits);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("finds a dead left earpiece by taps; a plan has no words for it", async () => {
    const user = await offline();
    const { page } = user;
    const fault = candidateOf(CHECK, "left-ear-dead");
    await start(page);
    const hits = await play(page, CHECK, fault, byTap, () => reload(page));
    await expectVerdict(page, CHECK, fault, hits);
    const { name } = textOf(fault);
    expect(await page.getByLabel(`Record as found (changes the plan): ${name}`).count()).toBe(0);
    await tap(page.getByRole("button", { name: "Check again" }));
    expect(await progress(page)).toBe(0);
    expect(await asked(page)).toBe(hits[0]?.piece);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("says when all is as planned, after everything was asked that could tell", async () => {
    const user = await offline();
    const { page } = user;
    await start(page);
    const hits = await play(page, CHECK, candidateOf(CHECK, "planned"), byKey);
    const decision = decide(CHECK, hits);
    expect(decision.kind === "found" && isPlanned(decision.found)).toBe(true);
    await states(page, /^As planned/);
    expect(await shown(page.locator("main"))).not.toContain("there may be a second fault");
    await user.context.close();
  });

  it("goes without what nobody can do there", async () => {
    const user = await offline();
    const { page } = user;
    await start(page);
    await question(page);
    const says = hearsSurely(CHECK, candidateOf(CHECK, "planned"));
    const hits: Hit[] = [];
    let decision = decide(CHECK, hits);
    while (decision.kind === "asking" && decision.next.action === null) {
      const hit = hitOf(decision.next, says(decision.next));
      await byKey(page, hit.answer);
      hits.push(hit);
      decision = decide(CHECK, hits);
      await follows(page, decision, MARA);
    }
    if (decision.kind !== "asking" || decision.next.action === null) throw new Error("no action");
    const { action } = decision.next;
    await tap(page.getByRole("button", { name: "Can’t do that" }));
    const { before } = describeAction(checkNames(SETUP, MARA), action);
    await expect.poll(() => shown(page.locator("main"))).not.toContain(`First: ${before}`);
    await follows(page, decide(CHECK, hits, [action]), MARA);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

describe("an answer", () => {
  it("can be taken back by the button and by Backspace, also after the verdict", async () => {
    const user = await offline();
    const { page } = user;
    await start(page);
    const first = await question(page);
    expect(await page.getByRole("button", { name: "Undo answer" }).isDisabled()).toBe(true);
    await byTap(page, "right");
    const second = await question(page);
    expect(second).not.toBe(first);
    await tap(page.getByRole("button", { name: "Undo answer" }));
    await states(page, first);
    expect(await progress(page)).toBe(0);
    await byKey(page, "right");
    await states(page, second);
    await page.keyboard.press("Backspace");
    await states(page, first);
    const hits = await play(page, CHECK, candidateOf(CHECK, "silent"), byKey);
    await page.keyboard.press("Backspace");
    expect(await asked(page)).toBe(hits.at(-1)?.piece);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("counts once when a wet finger touches twice, is felt, and keeps the screen lit until the verdict, also after a lock", async () => {
    const user = await offline();
    const { page } = user;
    expect((await counted(page)).taken).toBe(0);
    await start(page);
    const first = await asked(page);
    await expect.poll(() => counted(page)).toEqual({ held: 1, taken: 1, buzzes: 0 });
    const button = page.getByRole("button", { name: "Left" });
    await button.evaluate((b: HTMLElement) => {
      b.click();
      b.click();
    });
    const next = decide(CHECK, [{ piece: first, answer: "left" }]);
    expect(next.kind === "asking" && next.next.piece).toBe(await asked(page));
    await expect.poll(() => counted(page)).toEqual({ held: 1, taken: 1, buzzes: 1 });
    await locked(page, true);
    await expect.poll(() => counted(page)).toMatchObject({ held: 0, taken: 1 });
    await locked(page, false);
    await expect.poll(() => counted(page)).toMatchObject({ held: 1, taken: 2 });
    // A word of the platform without a lock taken away takes no second one.
    await locked(page, false);
    expect(await counted(page)).toMatchObject({ held: 1, taken: 2 });
    await tap(page.getByRole("button", { name: "Stop" }));
    await page.getByRole("button", { name: "Start the check" }).waitFor();
    await expect.poll(async () => (await counted(page)).held).toBe(0);
    await user.context.close();
  });

  it("sequence that no fault explains is called unknown, with what was heard", async () => {
    const user = await offline();
    const { page } = user;
    await start(page);
    await question(page);
    const cycle: readonly Answer[] = ["left", "nothing", "unclear", "right", "middle"];
    const hits: Hit[] = [];
    for (;;) {
      const decision = decide(CHECK, hits);
      if (decision.kind !== "asking") break;
      const hit = hitOf(decision.next, cycle[hits.length % cycle.length] ?? "left");
      await byKey(page, hit.answer);
      hits.push(hit);
      await follows(page, decide(CHECK, hits), MARA);
    }
    await states(page, /^This fits no known fault$/);
    const rows = await page.locator("main tbody tr").allInnerTexts();
    expect(rows).toHaveLength(hits.length);
    expect(await page.getByRole("button", { name: /^Record as found/ }).count()).toBe(0);
    await user.context.close();
  });
});

describe("others than the drummer", () => {
  it("are checked with their own sides, and the audience is not", async () => {
    const user = await offline();
    const { page } = user;
    const ines = listenerCalled("Ines, music director");
    const check = checkOf(SETUP, ines);
    const fault = candidateOf(check, "right-ear-dead");
    await page.getByLabel("Who listens").selectOption({ label: ines.name });
    await start(page);
    await page.getByText(`${listenerName(ines)} says where`).waitFor();
    const hits = await play(page, check, fault, byTap, undefined, ines);
    await expectVerdict(page, check, fault, hits, ines);
    await tap(page.getByRole("button", { name: "Done" }));
    await page.getByLabel("Who listens").selectOption({ label: "Audience" });
    await page.getByText("The audience hears FOH, not a bus.").waitFor();
    expect(await page.getByRole("button", { name: "Start the check" }).count()).toBe(0);
    await user.context.close();
  });
});

it("ticks every input on the line check, keeps the ticks, and takes them off in one step", async () => {
  const user = await offline();
  const { page } = user;
  const part = page.locator("section", { has: page.getByRole("heading", { name: "Line check" }) });
  await part.getByText("15 inputs left to check.").waitFor();
  await part.getByText("Contains: Kick, Snare, Hat,").waitFor();
  await tap(part.getByRole("button", { name: "Bass OK" }));
  await unfold(page, "Paper, names");
  await part.getByLabel("Your name, for ticks on this device").fill("Jo");
  await tap(part.getByRole("button", { name: "Guitar no signal" }));
  const who = (name: string) => part.locator("li", { hasText: name }).locator(".who");
  expect(await who("Bass").textContent()).toMatch(/^OK: \d\d:\d\d$/);
  expect(await who("Guitar").textContent()).toMatch(/^No signal: Jo, \d\d:\d\d$/);
  const paper = paperText(await page.pdf());
  expect(paper).toMatch(/Bass\s+✓.*OK: \d\d:\d\d/);
  expect(paper).toMatch(/Guitar\s+✓\s+No signal: Jo, \d\d:\d\d/);
  await part.getByText("13 inputs left to check; no signal: Guitar.").waitFor();
  expect(await part.locator("li", { hasText: "BV 2" }).textContent()).toContain("off");
  await reload(page);
  await part.getByText("13 inputs left to check; no signal: Guitar.").waitFor();
  await tap(part.getByRole("button", { name: "Clear all ticks" }));
  await part.getByText("15 inputs left to check.").waitFor();
  await page.getByRole("button", { name: /^Undo/ }).click();
  await part.getByText("13 inputs left to check; no signal: Guitar.").waitFor();
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("a line check at a musician's mixer stands beside the one at the desk, on screen and paper", async () => {
  const user = await offline();
  const { page } = user;
  const part = page.locator("section", { has: page.getByRole("heading", { name: "Line check" }) });
  await tap(part.getByRole("button", { name: "Bass OK" }));
  await part.getByText("14 inputs left to check.").waitFor();
  await part.getByLabel("Checked at").selectOption({ label: "Tobi’s mixer" });
  await part.getByText("15 inputs left to check.").waitFor();
  await tap(part.getByRole("button", { name: "Bass no signal" }));
  await part.getByText("14 inputs left to check; no signal: Bass.").waitFor();
  await unfold(page, "Paper, names");
  const paper = paperText(await page.pdf());
  expect(paper).toContain("Line check at Tobi’s mixer");
  expect(paper).toMatch(/Bass\s+✓\s+No signal: \d\d:\d\d/);
  await reload(page);
  const bass = part.locator("li", { hasText: "Bass" });
  await bass.getByText("No signal at Tobi’s mixer").waitFor();
  expect(await bass.getByRole("button", { name: "Bass OK" }).getAttribute("aria-pressed")).toBe("true");
  await part.getByLabel("Checked at").selectOption({ label: "Tobi’s mixer" });
  await tap(part.getByRole("button", { name: "Trace Bass" }));
  const [tobi] = SETUP.listeners.filter((l) => l.name.startsWith("Tobi"));
  const bassId = SETUP.channels.find((c) => c.name === "Bass")?.id;
  const input = SETUP.monitor.inputs.findIndex(
    (i) => i?.feed.kind === "channel" && i.feed.channel === bassId,
  );
  await expect
    .poll(async () => JSON.parse(await stored(page)).trace)
    .toMatchObject({ listener: tobi?.id, about: { what: "input", input } });
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it.each(["dark", "light"])(
  "has five large buttons in sight, no findings and no sideways scroll in %s",
  async (theme) => {
    const user = await phone(browser);
    const site = await serveApp();
    const { page } = user;
    await page.addInitScript((t) => localStorage.setItem("hatside-theme", t), theme);
    await page.goto(`${site.url}#check`);
    await drawn(page);
    await page.locator("summary", { hasText: "How it finds the fault" }).click();
    await page.getByText("What may differ from listener to listener").waitFor();
    const clean = async (): Promise<void> => {
      expect(await overhang(page)).toBe(0);
      expect(await axeFindings(page)).toEqual([]);
    };
    await clean();
    await start(page);
    await question(page);
    const thumb = (await page.locator("nav").boundingBox())?.y ?? 0;
    const buttons = await page.locator(".answer").all();
    expect(buttons).toHaveLength(5);
    for (const button of buttons) {
      const box = await button.boundingBox();
      expect(box?.width).toBeGreaterThanOrEqual(96);
      expect(box?.height).toBeGreaterThanOrEqual(96);
      expect((box?.y ?? 0) + (box?.height ?? 0)).toBeLessThanOrEqual(thumb);
    }
    await clean();
    await play(page, CHECK, candidateOf(CHECK, "left-ear-dead"), byTap);
    await clean();
    expect(user.faults).toEqual([]);
    await user.context.close();
    await site.stop();
  },
);
