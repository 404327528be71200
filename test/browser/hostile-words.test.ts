import Papa from "papaparse";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { isolated, quoted } from "../../src/core/lib/direction";
import { asTyped } from "../../src/core/lib/number";
import { uniqueName } from "../../src/core/model/ids";
import { exampleSetup } from "../../src/document/example";
import { printSetup } from "../../src/document/read-setup";
import { readKind, unguard } from "../../src/shelf/csv-cells";
import { formatGlimpse } from "../../src/text/glimpse";
import { noiseWav } from "../measure/noisewav";
import { forged, packed } from "../shelf/forged";
import { alert, answerAll, choose, downloaded, go, states, takeIn, unfold, visit } from "./hall";
import { drop, openAll, openAt } from "./hands";
import { controlled, drawn, type Phone, phoneWithCopy } from "./harness";
import { asName, CORPUS, EVERYTHING, HALF, hostileSetup } from "./hostile";
import { harm, harmless, narrow, unturned } from "./hostile-page";
import { wordsStay } from "./inspect";
import { site } from "./stage";
import { lay } from "./things";

interface Given {
  readonly name: string;
  readonly content: string;
}

/** Gives files to a field as if they were chosen; sent as JSON, which keeps halves of pairs. */
const giveFiles = (page: Page, label: string, files: readonly Given[]): Promise<void> =>
  page.getByLabel(label).evaluate((field, json) => {
    const carried = new DataTransfer();
    for (const { name, content } of JSON.parse(json) as Given[]) carried.items.add(new File([content], name));
    (field as HTMLInputElement).files = carried.files;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  }, JSON.stringify(files));

/** A file in a sentence. */
const fileCalled = (name: string): string => quoted(asName(name));

it("values and names of fields that a setup file must not have are quoted as text", async () => {
  const user = await narrow();
  const { page } = user;
  const setup = exampleSetup();
  const [piece] = setup.kit.pieces;
  const odd = {
    ...setup,
    ...Object.fromEntries(CORPUS.map((text) => [`${text} `, 1])),
    kit: { ...setup.kit, pieces: CORPUS.map((text, at) => ({ ...piece, id: `p${at}`, kind: text })) },
    channels: setup.channels.map((channel) => ({ ...channel, piece: null })),
    lineCheck: Object.fromEntries(CORPUS.slice(0, 9).map((text) => [`${text} `, text])),
  };
  await openAt(page, site, "setups");
  await choose(page, "Import a setup or backup", "odd.json", JSON.stringify(odd));
  await states(page, "Import “");
  await openAll(page);
  await harmless(page, [
    ...CORPUS.map((text) => `${formatGlimpse(`${text} `)}: not known here; left out.`),
    ...CORPUS.map((text, at) => `kit.pieces[${at}].kind: ${formatGlimpse(text)} is not one of “kick”,`),
    ...CORPUS.slice(0, 9).map(
      (text) => `lineCheck.${formatGlimpse(`${text} `)}: ${formatGlimpse(text)} is not true or false;`,
    ),
  ]);
  await user.context.close();
});

it("files that are refused are named, and what is in them is quoted, as text", async () => {
  const user = await narrow();
  const { page } = user;
  const refused = async (
    content: (text: string) => string,
    says: (text: string) => string,
  ): Promise<void> => {
    const files = CORPUS.map((text) => ({ name: `${text}.json`, content: content(text) }));
    await giveFiles(page, "Import a setup or backup", files);
    await states(page, "Nothing to import");
    const names = files.map(({ name }) => fileCalled(name));
    await harmless(
      page,
      CORPUS.map((text, at) => `${names[at]}: ${says(text)}`),
    );
    await unturned(page, "main", names);
    await page.getByRole("button", { name: "Back to setups" }).click();
  };
  await openAt(page, site, "setups");
  await refused(
    (text) => JSON.stringify({ format: text }),
    (text) => `This is not a setup of Hatside: its format is ${formatGlimpse(text)}.`,
  );
  await refused(
    (text) => JSON.stringify({ format: "hatside-backup", version: 1, setups: text }),
    (text) => `setups: ${formatGlimpse(text)} is not a list.`,
  );
  // Engines quote what is no JSON in words of their own.
  await refused(
    (text) => `${text} no JSON`,
    () => "this is not JSON (",
  );
  await user.context.close();
});

it("files that are shared to the app keep their names as text", async () => {
  const user = await narrow(phoneWithCopy);
  const { page } = user;
  await visit(user, site);
  /** Shares files of one kind, as another program does; gives the names that a form carries as they are, but for quotation marks. */
  const share = async (ending: string, content: string): Promise<string[]> => {
    const files = CORPUS.map((text) => text + ending);
    await page.evaluate(
      async ([names, text]) => {
        const form = new FormData();
        for (const name of JSON.parse(names) as string[]) form.append("files", new File([text], name));
        await fetch("./share", { method: "POST", body: form });
      },
      [JSON.stringify(files), content] as const,
    );
    await page.reload();
    return files.filter((name) => !/[\0\r\n/\\]/.test(name)).map((name) => name.replaceAll('"', "%22"));
  };
  const setups = await share("", "{}");
  await states(page, "Nothing to import");
  await harmless(
    page,
    setups.map((name) => `${fileCalled(name)}: This is not a setup of Hatside`),
  );
  const sounds = await share(".wav", "<img src=x onerror=alert(1)>");
  await alert(page).getByText("null.wav").waitFor();
  await harmless(
    page,
    sounds.map((name) => `${fileCalled(name)} is not a WAV file: it begins with “<img src”`),
  );
  const [first = ""] = await share(".csv", "Name,Input\nCongas,15\n");
  await page.getByRole("button", { name: "Import 1 channel" }).waitFor();
  await harmless(page, [fileCalled(first)]);
  await user.context.close();
});

it("a list’s name, its headers and its cells that are refused are quoted as text", async () => {
  const user = await narrow();
  const { page } = user;
  // NULs are left out, halves of pairs are no text, and every line end is one kind.
  const own = CORPUS.filter((text) => !/[\0\p{Surrogate}]/u.test(text)).map((text) =>
    text.replace(/\r\n?/g, "\n"),
  );
  const name = `${EVERYTHING}.csv`;
  const look = (rows: readonly (readonly string[])[]): Promise<void> => {
    const lines = rows.map((row) => row.map((text) => `"${text.replaceAll('"', '""')}"`).join(","));
    return giveFiles(page, "Import a CSV list", [{ name, content: ["sep=,", ...lines].join("\n") }]);
  };
  await openAt(page, site, "patch");
  await unfold(page, "Input list from or to a spreadsheet");
  await look([["Name", ...own], ["Kick"]]);
  await page.getByRole("button", { name: "Import 1 channel" }).waitFor();
  await openAll(page);
  await harmless(
    page,
    own.map((text) => `: ${asTyped(text)}`),
  );
  await unturned(page, "h3", [fileCalled(name)]);
  // Some hold a word for a kind, as "&gt;" does: what is like a guitar's is one. Twenty are named at once.
  const unknown = own.filter((text) => !readKind(unguard(text)).ok);
  expect(unknown.length).toBeGreaterThan(20);
  for (const some of [unknown.slice(0, 20), unknown.slice(20)]) {
    await look([["Name", "Kind"], ...some.map((text) => ["Kick", text])]);
    await page.getByText(`${some.length} cells cannot be read.`).waitFor();
    await harmless(
      page,
      some.map((text) => `Kind: “${asTyped(unguard(text))}” is not known.`),
    );
  }
  await user.context.close();
});

it("an address is only ever an address: it leads to the kit, and no link takes anything of it on", async () => {
  const user = await narrow(phoneWithCopy);
  const { page } = user;
  const kit = async (address: string): Promise<void> => {
    await page.goto(`${site.url}${address}`);
    await page.getByText(/^All channels/).waitFor();
    expect(await harm(page)).toEqual([]);
    expect(new URL(page.url()).pathname).toBe("/");
  };
  // As it is typed: the browser encodes what it must.
  for (const text of CORPUS) await kit(`?${text.replaceAll("#", "")}#${text}`);
  await go(page, "setups");
  await unfold(page, "Share the open setup");
  const link = page.getByLabel(/^The link/);
  await expect.poll(() => link.inputValue()).toMatch(new RegExp(`^${site.url}#s=1\\.[\\w.-]+$`));
  // Any path is the page’s once it is served from the device.
  await controlled(page);
  for (const text of CORPUS) await kit(`${encodeURIComponent(asName(text))}?${text.replaceAll("#", "")}`);
  await user.context.close();
});

it("links that were forged, or that expand without end, are refused in plain words", async () => {
  const user = await narrow();
  const { page } = user;
  const refused = async (fragment: string, says: string): Promise<void> => {
    await page.goto("about:blank");
    await page.goto(`${site.url}${fragment}`);
    await states(page, "Nothing to import");
    await harmless(page, [says]);
  };
  await refused(packed(Buffer.alloc(100_000_000, "a")), "The link expands to more than 4 MB");
  await refused(`#s=1.${asName(EVERYTHING)}`, "The link was cut off");
  await refused(forged(asName(EVERYTHING).replace(/[\s#]/g, "")), "Ask for it again, or for the setup file.");
  await refused(
    packed(JSON.stringify({ format: EVERYTHING })),
    `its format is ${formatGlimpse(EVERYTHING)}.`,
  );
  await user.context.close();
});

describe("kept on the device", () => {
  let user: Phone;
  let page: Page;
  beforeAll(async () => {
    user = await narrow();
    ({ page } = user);
    await openAt(page, site, "setups");
    await takeIn(page, printSetup({ ...hostileSetup(), check: null }));
  });
  afterAll(() => user.context.close());

  it("two setups are compared in sentences that hold names as text", async () => {
    await go(page, "setups");
    await unfold(page, "Compare two setups");
    await unfold(page, "Everything that differs");
    const differences = page.locator(".differences li");
    await differences.first().waitFor();
    await harmless(page, []);
    // The name and the note hold every text; what differs in the rest holds one or two.
    const says = (await differences.allTextContents()).filter(
      (each) => !each.includes(`${CORPUS[0]} ${CORPUS[1]}`),
    );
    const whole = CORPUS.filter((text) => !HALF.test(text));
    expect(whole.filter((text) => !says.some((each) => each.includes(text)))).toEqual([]);
  });

  it("a word about what was copied or deleted holds its name as text", async () => {
    const more = page.getByRole("button", { name: "More for " }).first();
    const copy = isolated(uniqueName(EVERYTHING, [{ name: EVERYTHING }]));
    await go(page, "setups");
    await wordsStay(page);
    await more.click();
    await page.getByRole("button", { name: "Duplicate" }).click();
    await page.getByText("Copied as “").waitFor();
    await harmless(page, []);
    await unturned(page, "[aria-labelledby=next-time] [role=status]", [`Copied as “${copy}”`]);
    await more.click();
    await page.getByRole("button", { name: "Remove" }).first().click();
    await page.locator(".toast", { hasText: "” removed" }).waitFor();
    await harmless(page, []);
    await unturned(page, ".toast", [`“${copy}” removed`]);
  });

  it.each(["1", "4"])(
    "what a check finds after answers by key %s names sums and pieces as text",
    async (key) => {
      await go(page, "check");
      await page.getByRole("button", { name: "Start the check" }).click();
      await answerAll(page, key);
      await openAll(page);
      await harmless(page, ["To confirm, hit the "]);
      await unturned(page, "main", []);
      await page.getByRole("button", { name: "Done" }).click();
    },
  );

  it("what a recording measures names channels, and keeps a file’s name, as text", async () => {
    const words = Buffer.from("<img src=x onerror=alert(1)>words in the file");
    const chunks = ["LIST", "bext", "iXML"].map((id): [string, Uint8Array] => [id, Uint8Array.from(words)]);
    const wav = noiseWav(1, 4800, { between: chunks });
    await go(page, "headroom");
    await page.locator("summary", { hasText: "Measured: " }).click();
    // The one whose name turns the direction gives the measurement its own.
    const first = CORPUS.find((text) => isolated(text) !== text) ?? "";
    const names = [first, ...CORPUS.filter((text) => text !== first)];
    await drop(
      page,
      names.map((name) => ({ name: `${name}.wav`, content: wav })),
    );
    await page.getByRole("button", { name: /^Measure \d+ tracks/ }).click();
    await page.getByRole("button", { name: "Keep these figures" }).click();
    await page.locator("summary", { hasText: "Kept: " }).waitFor();
    await openAll(page);
    await harmless(page, []);
    expect(await page.getByText("words in the file").count(), "what chunks say is not shown").toBe(0);
    const kept = new RegExp(`^Kept: ${isolated(first)} and \\d+ more files, `);
    expect(await page.locator("summary", { hasText: "Kept: " }).textContent()).toMatch(kept);
    await unturned(page, "summary", []);
  });

  it("the patch sheet as CSV holds no formula", async () => {
    await go(page, "patch");
    await unfold(page, "Patch sheet for the desk");
    const { data, errors } = Papa.parse<string[]>(await downloaded(page, "Sheet as CSV"), {
      skipEmptyLines: true,
    });
    expect(errors).toEqual([]);
    const cells = data.flat();
    const isFormula = (cell: string): boolean => /^[=+\-@\t\r\n]/.test(cell) && Number.isNaN(Number(cell));
    expect(cells.filter(isFormula)).toEqual([]);
    for (const text of CORPUS.filter(isFormula)) expect(cells).toContain(`'${text}`);
  });

  it("notices of setups that cannot be opened name them as text", async () => {
    const texts = [EVERYTHING, ...CORPUS];
    const now = Date.now();
    for (const [at, name] of texts.entries())
      await lay(page, `setup-${at}`, {
        name,
        // The newest first, and all newer than the one that is open.
        changed: now + 60_000 - at,
        text: JSON.stringify({ format: name }),
        writer: "",
        revision: 1,
      });
    await lay(page, "open", "setup-0");
    await page.reload();
    await drawn(page);
    const understood = page.getByRole("button", { name: "OK", exact: true });
    for (const name of texts) {
      await understood.waitFor();
      expect(await harm(page)).toEqual([]);
      await unturned(page, ".notice > p", [`“${isolated(name)}” was not opened and stays as it is.`]);
      if (name === EVERYTHING) await harmless(page, [`its format is ${formatGlimpse(name)}.`]);
      await understood.click();
    }
    await understood.waitFor({ state: "detached" });
  });
});
