import type { Browser, Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { visit } from "./hall";
import { openAll, stored } from "./hands";
import { launch, type Phone, phone, type Site, serveApp, typeKeys } from "./harness";

let browser: Browser;
let site: Site;
beforeAll(async () => {
  [browser, site] = await Promise.all([launch(), serveApp()]);
});
afterAll(async () => {
  await browser.close();
  await site.stop();
});

/** Fields for a value say which keys a phone shows; fields for free text do not. */
const FIELDS = 'main input[type="text"][inputmode]';

/** What "-6" means to a person, where it is known beforehand: a value, or nothing that this can be. */
const SIX: readonly (readonly [label: RegExp, allowed: boolean])[] = [
  [/^(Level while playing|Peak|Send into|Trim|Output at|Largest level)/, true],
  [/^(House pan|Pan in)/, true],
  [/^(Right of|In front of) the throne|[Tt]urned to/, true],
  [/^(Pad|Wanted margin|Centre attenuation|Smallest level step|Pan steps|Slots)/, false],
  [/^(Sensitivity|Impedance|Drive|Isolation|Level on stage)/, false],
];

const MINUS = "\u2212";
const number = (text: string): number => Number(text.replace(MINUS, "-"));

/** A field as it stands on a screen. */
interface Field {
  readonly input: Locator;
  /** Its name without the unit. */
  readonly name: string;
  readonly unit: string;
}

const field = async (input: Locator): Promise<Field> => {
  const label = await input.evaluate((e) => (e as HTMLInputElement).labels?.[0]?.textContent ?? "");
  const [, name = label, unit = ""] = /^(.*), (\S+)$/.exec(label) ?? [];
  return { input, name, unit };
};

/** What stands under a field in red; "" when nothing does. */
const complaint = async ({ input }: Field): Promise<string> => {
  const id = await input.getAttribute("aria-describedby");
  const invalid = await input.getAttribute("aria-invalid");
  expect(invalid).toBe(String(id !== null));
  return id === null ? "" : ((await input.page().locator(`[id="${id}"]`).textContent()) ?? "");
};

const leave = (input: Locator): Promise<void> => input.press("Enter");

/** Types as a person does and leaves; gives what is said then. */
const enter = async (it: Field, text: string): Promise<string> => {
  await typeKeys(it.input, text);
  await leave(it.input);
  return complaint(it);
};

/** What a field allows, as it says itself when it is given something that it cannot take. */
const allowed = async (it: Field): Promise<readonly [min: number, max: number]> => {
  const says = await enter(it, "99999");
  expect(says, it.name).toMatch(new RegExp(`^${escaped(it.name)}: 99999 is outside `));
  const [, min = "", max = ""] = /outside (\S+) to (\S+?)( \S+)?\.$/.exec(says) ?? [];
  expect([number(min), number(max)].every(Number.isFinite), says).toBe(true);
  return [number(min), number(max)];
};

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

const isPan = ({ name }: Field): boolean => /\bpan\b/i.test(name) && !/steps/i.test(name);

/** Nothing on the screen that no person would write. */
const readable = async (page: Page): Promise<void> => {
  const text = await page.locator("main").textContent();
  const values = await page
    .locator("main input")
    .evaluateAll((all) => all.map((e) => (e as HTMLInputElement).value));
  expect(`${text}\n${values.join("\n")}`).not.toMatch(/NaN|undefined|Infinity|null|\[object/);
};

/** The stored setup once what was done is in it. */
const kept = async (page: Page): Promise<string> => {
  await page.waitForFunction(() => document.querySelector(".notice.bad") === null);
  let before = "";
  let now = await stored(page);
  while (now !== before) {
    await page.waitForTimeout(250);
    before = now;
    now = await stored(page);
  }
  return now;
};

/** The first field of every name on a screen. */
const oneOfEachKind = async (page: Page): Promise<Field[]> => {
  const found = new Map<string, Field>();
  for (const input of await page.locator(FIELDS).all()) {
    const it = await field(input);
    if (!found.has(it.name)) found.set(it.name, it);
  }
  return [...found.values()];
};

/** Puts a text in at once, as a paste does, and leaves; gives what is said then. */
const paste = async (it: Field, text: string): Promise<string> => {
  await it.input.fill(text);
  await leave(it.input);
  return complaint(it);
};

/** Texts on the way to a value: no error while they stand there, and gone when the field is left. */
const standHalfTyped = async (it: Field, texts: readonly string[]): Promise<void> => {
  const shown = await it.input.inputValue();
  for (const half of texts) {
    await typeKeys(it.input, half);
    expect([await complaint(it), await it.input.inputValue()], `${it.name} half-typed`).toEqual(["", half]);
    await leave(it.input);
    expect(await it.input.inputValue(), it.name).toBe(shown);
  }
};

/** Texts that are no value: each stays, with a sentence that names the field, the text and what is allowed. */
const numberRefuses = async (it: Field): Promise<void> => {
  const { input, name } = it;
  const before = await input.inputValue();
  await standHalfTyped(it, ["-", "+", ".", "-."]);
  const [, max] = await allowed(it);
  for (const text of ["-99999", "12abc", "1,2,3", "six", "1e1", "NaN"]) {
    const says = await enter(it, text);
    expect(says, name).toContain(`${name}: `);
    expect(says, name).toContain(text);
    expect(says, name).toContain(` to ${String(max).replace("-", MINUS)}`);
    expect(await input.inputValue(), name).toBe(text);
  }
  expect(await enter(it, before), name).toBe("");
};

/** A number as people write and paste it. What does not fit is said and stays. */
const numberReads = async (it: Field): Promise<void> => {
  const { input, name, unit } = it;
  const before = await input.inputValue();
  const [min, max] = await allowed(it);
  const whole = (await enter(it, "12.5")).includes("whole");
  const texts: readonly (readonly [text: string, value: number])[] = [
    ["3,5", 3.5],
    ["12.", 12],
    [`${MINUS}3`, -3],
    ["\u20133", -3],
    [` 12${unit === "" ? "" : `\u00A0${unit}`} `, 12],
    [`${MINUS}3 ${unit}`, -3],
  ];
  for (const [text, value] of texts) {
    const says = await paste(it, text);
    const fits = value >= min && value <= max && (!whole || Number.isInteger(value));
    if (fits) expect(says, `${name} given ${text}`).toBe("");
    else expect(says, `${name} given ${text}`).toMatch(new RegExp(`^${escaped(name)}: .*(Allowed|outside)`));
    expect(await input.inputValue(), name).toBe(fits ? String(value).replace("-", MINUS) : text);
  }
  expect(await enter(it, before), name).toBe("");
  // An emptied field may mean "not known" or "off"; else the value comes back.
  const may = (await input.getAttribute("placeholder")) !== null;
  expect(await enter(it, ""), name).toBe("");
  expect(await input.inputValue(), name).toBe(may ? "" : before);
};

/** The same for a pan, in the notation of this console: L100 to R100. */
const panRefuses = async (it: Field): Promise<void> => {
  const before = await it.input.inputValue();
  await standHalfTyped(it, ["-", "l", "R", "<"]);
  for (const text of ["999", "L101", "sideways", "12abc", "--5", "L-5", "10:99"]) {
    expect(await enter(it, text), it.name).toMatch(/^Pan: .*(outside|not a pan|not a time)/);
    expect(await it.input.inputValue(), it.name).toBe(text);
  }
  expect(await enter(it, before), it.name).toBe("");
};

const panReads = async (it: Field): Promise<void> => {
  for (const [text, shown] of [
    [`${MINUS}30`, "L30"],
    ["30L", "L30"],
    ["12,4", "R12"],
    ["c", "C"],
    ["30 % R", "R30"],
    ["10:30", "L30"],
    [" r7 ", "R7"],
  ] as const) {
    expect(await paste(it, text), `${it.name} given ${text}`).toBe("");
    expect(await it.input.inputValue(), it.name).toBe(shown);
  }
};

/** A screen with everything open that can be opened. */
const screen = async (
  place: string,
  prepare: (page: Page) => Promise<void> = async () => {},
): Promise<Phone> => {
  const user = await phone(browser);
  await visit(user, site, `#${place}`);
  await prepare(user.page);
  await openAll(user.page);
  return user;
};

/** Where values are typed, and what has to be done so that every field of it shows. */
const SCREENS: readonly (readonly [place: string, fields: number, prepare: (page: Page) => Promise<void>])[] =
  [
    [
      "kit",
      35,
      async (page) => {
        await page.locator("summary", { hasText: "The console" }).click();
        await page.getByLabel("Pan law").selectOption("custom");
      },
    ],
    ["image", 20, async (page) => void (await page.getByText("Where it stands").waitFor())],
    [
      "sum",
      13,
      async (page) => {
        await page.locator("summary", { hasText: "Level at the ear" }).click();
        await page.getByLabel("Estimate it").check();
      },
    ],
    ["patch", 10, async (page) => void (await page.getByText("Paper, lists, links").waitFor())],
  ];

describe.each(SCREENS)("on %s", (place, least, prepare) => {
  it("every field takes −6, typed key by key, or says why not", async () => {
    const user = await screen(place, prepare);
    const { page } = user;
    const inputs = page.locator(FIELDS);
    const count = await inputs.count();
    expect(count).toBeGreaterThanOrEqual(least);
    for (let at = 0; at < count; at += 1) {
      const it = await field(inputs.nth(at));
      const before = await it.input.inputValue();
      const says = await enter(it, "-6");
      const known = SIX.find(([label]) => label.test(it.name));
      if (isPan(it)) {
        expect([says, await it.input.inputValue()], it.name).toEqual(["", "L6"]);
        continue;
      }
      const fits = says === "";
      if (known) expect(fits, it.name).toBe(known[1]);
      if (fits) {
        expect(await it.input.inputValue(), it.name).toBe(`${MINUS}6`);
        continue;
      }
      expect(says, it.name).toMatch(new RegExp(`^${escaped(it.name)}: -6 is outside `));
      expect(await it.input.inputValue(), it.name).toBe("-6");
      // Left again with what stood there, it says nothing more.
      expect(await enter(it, before), it.name).toBe("");
      expect(await it.input.inputValue(), it.name).toBe(before);
    }
    await readable(page);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });

  it("what is no value stays as typed, says why and changes nothing; what people paste is understood", async () => {
    const user = await screen(place, prepare);
    const { page } = user;
    const kinds = await oneOfEachKind(page);
    const before = await kept(page);
    for (const it of kinds) await (isPan(it) ? panRefuses(it) : numberRefuses(it));
    expect(JSON.parse(await kept(page))).toEqual(JSON.parse(before));
    for (const it of kinds) await (isPan(it) ? panReads(it) : numberReads(it));
    await readable(page);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

it("a step by a button or a key replaces a text that was no value, and so does undo", async () => {
  const user = await screen("sum", async (page) => void (await page.getByText("trims, legs").waitFor()));
  const { page } = user;
  const it = await field(page.getByLabel("Trim of Drums, dB"));
  expect(await enter(it, "-3")).toBe("");
  expect(await enter(it, "500")).toContain("500 is outside");
  await page.getByRole("button", { name: "Trim of Drums up" }).click();
  expect([await complaint(it), await it.input.inputValue()]).toEqual(["", `${MINUS}2.5`]);
  await typeKeys(it.input, "-4");
  await it.input.press("ArrowDown");
  expect(await it.input.inputValue()).toBe(`${MINUS}4.5`);
  await leave(it.input);
  expect(await enter(it, "x")).toContain("“x” is not a number");
  await page.getByRole("button", { name: "Undo: change sum" }).click();
  await page.getByRole("button", { name: "Undo: change sum" }).click();
  expect([await complaint(it), await it.input.inputValue()]).toEqual(["", `${MINUS}3`]);
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("one visit to a field is one undo", async () => {
  const user = await screen("kit");
  const { page } = user;
  const it = await field(page.locator("li.source").first().getByLabel("Peak, dBFS", { exact: true }));
  const before = await it.input.inputValue();
  await enter(it, "-12.25");
  await page.getByRole("button", { name: "Undo: change source" }).click();
  expect(await it.input.inputValue()).toBe(before);
  expect(await page.getByRole("button", { name: "Undo", exact: true }).isDisabled()).toBe(true);
  await user.context.close();
});
