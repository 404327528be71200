import type { Locator, Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { openAll, openAt, settled, stored } from "./hands";
import { type Phone, phone, typeKeys } from "./harness";
import { browser, site } from "./stage";

/** Fields for a value say which keys a phone shows; fields for free text do not. */
const FIELDS = 'main input[type="text"][inputmode]';

/** What "-6" means to a person, where it is known beforehand: a value, or nothing that this can be. */
const SIX: readonly (readonly [label: RegExp, allowed: boolean])[] = [
  [/^(Gated RMS|Peak|Send to|Trim|Output at|Max input level)/, true],
  [/^(Channel pan|Pan in)/, true],
  [/^(Right of|In front of) the throne|[Tt]urned to/, true],
  [/^(Pad|Target headroom|Custom centre drop|Smallest level step|Pan steps|Monitor inputs)/, false],
  [/^(Sensitivity|Impedance|Output impedance|Amplifier output|Isolation|Level on stage)/, false],
];

const MINUS = "\u2212";
const number = (text: string): number => Number(text.replace(MINUS, "-"));

/** A field as it stands on a screen. */
interface Field {
  readonly input: Locator;
  /** Its name without the unit. */
  readonly name: string;
  readonly unit: string;
  /** What stood in it at first. */
  readonly first: string;
  /** Whether it may be empty. */
  readonly optional: boolean;
}

const field = async (input: Locator): Promise<Field> => {
  const { label, first, optional } = await input.evaluate((e: HTMLInputElement) => ({
    label: e.labels?.[0]?.textContent ?? "",
    first: e.value,
    optional: e.placeholder !== "",
  }));
  const [, name = label, unit = ""] = /^(.*), (\S+)$/.exec(label) ?? [];
  return { input, name, unit, first, optional };
};

/** What a field shows, and what stands under it in red; "" when nothing does. */
interface Seen {
  readonly shows: string;
  readonly says: string;
}

/**
 * Gives what a field shows. With a text, that is put in first, at once, as a paste does, and the field left: all in
 * one go, as the way to the browser and back takes longer than the rest.
 */
const seen = ({ input }: Field, pasted?: string): Promise<Seen> =>
  input.evaluate(async (e: HTMLInputElement, text) => {
    if (text !== undefined) {
      e.focus();
      e.select();
      if (text === "") document.execCommand("delete");
      else document.execCommand("insertText", false, text);
      e.blur();
      // What it comes to is drawn a turn later.
      await new Promise((drawn) => setTimeout(drawn));
    }
    const says = document.getElementById(e.getAttribute("aria-describedby") ?? "")?.textContent ?? "";
    if ((says !== "") !== (e.getAttribute("aria-invalid") === "true"))
      throw new Error(`marked as wrong without a word, or the other way: ${says}`);
    return { shows: e.value, says };
  }, pasted);

/** Types key by key, as a person does, and leaves. */
const enter = async (it: Field, text: string) => {
  await typeKeys(it.input, text);
  await it.input.press("Enter");
  return seen(it);
};

/** Puts a text in at once, as a paste does, and leaves. */
const paste = (it: Field, text: string): Promise<Seen> => seen(it, text);

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");

/** What a field allows, as it says itself when it is given something that it cannot take. */
const allowed = async (it: Field): Promise<readonly [min: number, max: number]> => {
  const { says } = await paste(it, "99999");
  expect(says, it.name).toMatch(new RegExp(`^${escaped(it.name)}: 99999 is outside `));
  const [, min = "", max = ""] = /outside (\S+) to (\S+?)( \S+)?\.$/.exec(says) ?? [];
  expect([number(min), number(max)].every(Number.isFinite), says).toBe(true);
  return [number(min), number(max)];
};

const isPan = ({ name }: Field): boolean => /\bpan\b/i.test(name) && !/steps/i.test(name);

/** Nothing on the screen that no person would write. */
const readable = async (page: Page): Promise<void> => {
  const text = await page.locator("main").textContent();
  const values = await page
    .locator("main input")
    .evaluateAll((all) => all.map((e) => (e as HTMLInputElement).value));
  expect(`${text}\n${values.join("\n")}`).not.toMatch(/NaN|undefined|Infinity|null|\[object/);
};

/** The stored setup once what was done last is in it. */
const kept = async (page: Page): Promise<unknown> => {
  await settled(page);
  return JSON.parse(await stored(page));
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

/** Texts on the way to a value: no error while they stand there, and gone when the field is left. */
const standHalfTyped = async (it: Field, texts: readonly string[]): Promise<void> => {
  for (const half of texts) {
    await typeKeys(it.input, half);
    expect(await seen(it), `${it.name} half-typed`).toEqual({ shows: half, says: "" });
    await it.input.press("Enter");
    expect(await seen(it), it.name).toEqual({ shows: it.first, says: "" });
  }
};

/** Texts that are no value: each stays, with a sentence that names the field, the text and what is allowed. */
const numberRefuses = async (it: Field): Promise<void> => {
  const { name } = it;
  await standHalfTyped(it, ["-", "-."]);
  const [, max] = await allowed(it);
  for (const text of ["-99999", "12abc", "1,2,3", "six", "1e1", "NaN"]) {
    const { shows, says } = await paste(it, text);
    expect(shows, name).toBe(text);
    expect(says, name).toMatch(new RegExp(`^${escaped(name)}: .*${escaped(text)}.* to ${max}( \\S+)?\\.$`));
  }
};

/** A number as people write and paste it. What does not fit is said and stays. */
const numberReads = async (it: Field): Promise<void> => {
  const { name, unit, first } = it;
  const [min, max] = await allowed(it);
  const whole = (await paste(it, "12.5")).says.includes("whole");
  const texts: readonly (readonly [text: string, value: number])[] = [
    ["3,5", 3.5],
    ["12.", 12],
    [`${MINUS}3`, -3],
    ["\u20133", -3],
    [` 12${unit === "" ? "" : `\u00A0${unit}`} `, 12],
    [`${MINUS}3 ${unit}`, -3],
  ];
  for (const [text, value] of texts) {
    const { shows, says } = await paste(it, text);
    const fits = value >= min && value <= max && (!whole || Number.isInteger(value));
    if (fits) expect(says, `${name} given ${text}`).toBe("");
    else expect(says, `${name} given ${text}`).toMatch(new RegExp(`^${escaped(name)}: .*(Allowed|outside)`));
    expect(shows, name).toBe(fits ? String(value).replace("-", MINUS) : text);
  }
  expect(await paste(it, first), name).toEqual({ shows: first, says: "" });
  // An emptied field may mean "not entered" or "off"; else the value comes back.
  expect(await enter(it, ""), name).toEqual({ shows: it.optional ? "" : first, says: "" });
};

/** The same for a pan, in the notation of this console: L100 to R100. */
const panRefuses = async (it: Field): Promise<void> => {
  await standHalfTyped(it, ["-", "R"]);
  for (const text of ["999", "L101", "sideways", "12abc", "--5", "L-5", "10:99"]) {
    const { shows, says } = await paste(it, text);
    expect(says, it.name).toMatch(/^Pan: .*(outside|not a pan|not a time)/);
    expect(shows, it.name).toBe(text);
  }
};

const panReads = async (it: Field): Promise<void> => {
  for (const [text, shows] of [
    [`${MINUS}30`, "L30"],
    ["30L", "L30"],
    ["12,4", "R12"],
    ["c", "C"],
    ["30 % R", "R30"],
    ["10:30", "L30"],
    [" r7 ", "R7"],
  ] as const)
    expect(await paste(it, text), `${it.name} given ${text}`).toEqual({ shows, says: "" });
};

/** A screen with everything open that can be opened. */
const screen = async (
  place: string,
  prepare: (page: Page) => Promise<void> = async () => {},
): Promise<Phone> => {
  const user = await phone(browser);
  await openAt(user.page, site, place);
  await prepare(user.page);
  await openAll(user.page);
  return user;
};

/** Where values are typed, and what has to be done so that every field of it shows. */
const SCREENS: readonly (readonly [place: string, fields: number, prepare: (page: Page) => Promise<void>])[] =
  [
    [
      "channels",
      35,
      async (page) => {
        await page.locator("summary", { hasText: "Desk: pan law" }).click();
        await page.getByLabel("Pan law").selectOption("custom");
      },
    ],
    ["image", 20, async (page) => void (await page.getByText("Where it stands", { exact: true }).waitFor())],
    [
      "headroom",
      13,
      async (page) => {
        await page.locator("summary", { hasText: "Earphone level" }).click();
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
      const { shows, says } = await enter(it, "-6");
      if (isPan(it)) {
        expect([shows, says], it.name).toEqual(["L6", ""]);
        continue;
      }
      const fits = says === "";
      const known = SIX.find(([label]) => label.test(it.name));
      if (known) expect(fits, it.name).toBe(known[1]);
      if (!fits) expect(says, it.name).toMatch(new RegExp(`^${escaped(it.name)}: -6 is outside `));
      expect(shows, it.name).toBe(fits ? `${MINUS}6` : "-6");
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
    expect(await kept(page)).toEqual(before);
    for (const it of kinds) await (isPan(it) ? panReads(it) : numberReads(it));
    await readable(page);
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

it("a step by a button or a key replaces a text that was no value, and so does undo", async () => {
  const user = await screen(
    "headroom",
    async (page) => void (await page.getByText("trims and output chain").waitFor()),
  );
  const { page } = user;
  const it = await field(page.getByLabel("Trim of Drums, dB"));
  expect((await enter(it, "-3")).says).toBe("");
  expect((await enter(it, "500")).says).toContain("500 is outside");
  await page.getByRole("button", { name: "Trim of Drums up" }).click();
  expect(await seen(it)).toEqual({ shows: `${MINUS}2.5`, says: "" });
  await typeKeys(it.input, "-4");
  await it.input.press("ArrowDown");
  expect((await seen(it)).shows).toBe(`${MINUS}4.5`);
  await it.input.press("Enter");
  expect((await enter(it, "x")).says).toContain("“x” is not a number");
  await page.getByRole("button", { name: "Undo: change bus" }).click();
  expect(await seen(it)).toEqual({ shows: `${MINUS}2.5`, says: "" });
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("one visit to a field is one undo", async () => {
  const user = await screen("channels");
  const { page } = user;
  const it = await field(page.locator("li.channel").first().getByLabel("Peak, dBFS", { exact: true }));
  expect((await enter(it, "-12.25")).shows).toBe(`${MINUS}12.25`);
  await page.getByRole("button", { name: "Undo: change channel" }).click();
  expect((await seen(it)).shows).toBe(it.first);
  expect(await page.getByRole("button", { name: "Undo", exact: true }).isDisabled()).toBe(true);
  await user.context.close();
});

/** Free text: names and notes. */
const TEXTS = 'main :is(input[type="text"]:not([inputmode]), textarea:not([readonly]))';
const HOSTILE = `"><img src=x onerror="document.title='taken'"><b>bold</b> ‮back`;

/** The first text field of every kind on a screen: of a channel, a piece, a bus … */
const textOfEachKind = async (page: Page): Promise<Field[]> => {
  const found = new Map<string, Field>();
  for (const input of await page.locator(TEXTS).all()) {
    const it = await field(input);
    // Lines to be pasted are no text of the setup.
    if (it.name === "One channel per line") continue;
    const around = await input.evaluate((e) =>
      [...(e.closest(".fields")?.querySelectorAll("label") ?? [])].map((label) => label.textContent).join(),
    );
    const kind = `${it.name} in ${around}`;
    if (!found.has(kind)) found.set(kind, it);
  }
  return [...found.values()];
};

const LONG = "x".repeat(81);
const TOO_LONG = `81 characters are too many. Allowed: up to 80. The old text stays.`;

describe.each([
  ["channels", 1],
  ["image", 3],
  ["headroom", 1],
])("text on %s", (place, least) => {
  it("may be empty, is never cut in silence, and is never more than text", async () => {
    const user = await screen(place, async (page) => {
      if (place === "image") await page.getByText("Where it stands", { exact: true }).waitFor();
      if (place === "headroom") await page.getByText("trims and output chain").waitFor();
    });
    const { page } = user;
    const kinds = await textOfEachKind(page);
    expect(kinds.length).toBeGreaterThanOrEqual(least);
    for (const it of kinds) {
      const before = await kept(page);
      expect(await paste(it, LONG), it.name).toEqual({ shows: LONG, says: `${it.name}: ${TOO_LONG}` });
      expect(await kept(page), it.name).toEqual(before);
      expect(await paste(it, ""), it.name).toEqual({ shows: "", says: "" });
      await kept(page);
      await readable(page);
      expect(await paste(it, HOSTILE), it.name).toEqual({ shows: HOSTILE, says: "" });
      expect(JSON.stringify(await kept(page)), it.name).toContain(JSON.stringify(HOSTILE));
    }
    expect(await page.locator("main :is(img, b:text-is('bold'))").count()).toBe(0);
    expect(await page.title()).toBe("Hatside");
    expect(user.faults).toEqual([]);
    await user.context.close();
  });
});

it("a note is kept with the setup, up to its own length, and goes back in one step", async () => {
  const user = await screen("setups");
  const { page } = user;
  const it = await field(page.getByLabel("Note on the open setup"));
  const note = `Bring the long lead.\n${HOSTILE}`;
  await it.input.fill(note);
  await it.input.blur();
  await expect.poll(async () => ((await kept(page)) as { note: string }).note).toBe(note);
  await it.input.fill("n".repeat(2001));
  expect((await seen(it)).says).toContain("2001 characters are too many. Allowed: up to 2000.");
  await page.getByRole("button", { name: "Undo: change note" }).click();
  expect(await seen(it)).toEqual({ shows: it.first, says: "" });
  expect(await page.title()).toBe("Hatside");
  expect(user.faults).toEqual([]);
  await user.context.close();
});

it("a half-typed text that is left is no step of undo", async () => {
  const user = await screen(
    "headroom",
    async (page) => void (await page.getByText("trims and output chain").waitFor()),
  );
  const { page } = user;
  const it = await field(page.getByLabel("Trim of Drums, dB"));
  await typeKeys(it.input, "3-");
  await it.input.press("Enter");
  await typeKeys(it.input, "-");
  await it.input.press("Enter");
  expect(await page.getByRole("button", { name: "Undo", exact: true }).isDisabled()).toBe(true);
  await user.context.close();
});
