import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { states } from "./hall";
import { openAt } from "./hands";
import { phone } from "./harness";
import { browser, site } from "./stage";

const ROOT = join(import.meta.dirname, "../..");

/** What a package says of itself. */
const packageAt = (
  folder: string,
): { readonly version: string; readonly license: string; readonly dependencies?: object } =>
  JSON.parse(readFileSync(join(ROOT, folder, "package.json"), "utf8"));

/** What nobody may miss, each in a notice of its own. */
const CAUTIONS = [
  /estimates from data sheets, not measurements, and this is no dosimeter.* by 5 dB or more/,
  /Hearing damage is permanent.*use both ears.*Limits differ by country/,
  /in-ear monitors are no hearing protection by themselves/,
  /Headroom figures are for planning.*meters of the desk/,
] as const;

it("About shows the version, the licence, every caution, and the licences of what comes with it", async () => {
  const { version, license, dependencies = {} } = packageAt(".");
  const { page, context } = await phone(browser);
  await openAt(page, site, "setups");
  await page.getByRole("link", { name: "About Hatside, cautions, sources" }).click();
  await states(page, "Hatside: which side is your hat on?");
  const said = async (of: string) =>
    (await page.locator(of).allInnerTexts()).map((text) => text.replace(/\s+/g, " "));
  const [all = ""] = await said("main");
  expect(license).toBe("MIT");
  expect(all).toContain(`Version ${version}. MIT licence.`);

  const notices = await said("main .notice.warn");
  expect(CAUTIONS.map((caution) => notices.filter((text) => caution.test(text)).length)).toEqual([
    1, 1, 1, 1,
  ]);

  const names = Object.keys(dependencies);
  expect(names.length).toBeGreaterThan(0);
  const under = (licence: string): string[] =>
    names.filter((name) => packageAt(`node_modules/${name}`).license === licence).sort();
  const [, free = "", short = "", open = ""] =
    /Hatside includes (.*), each under the MIT licence, (.*) under the ISC licence, and (.*), unchanged, under the Mozilla Public License 2\.0/.exec(
      all,
    ) ?? [];
  expect(free.split(/, | and /).sort()).toEqual(under("MIT"));
  expect(short.split(/, | and /).sort()).toEqual(under("ISC"));
  expect(open.split(/, | and /).sort()).toEqual(under("MPL-2.0"));
  expect(under("MIT").length + under("ISC").length + under("MPL-2.0").length).toBe(names.length);
  await context.close();
});
