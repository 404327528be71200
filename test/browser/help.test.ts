import type { Page } from "playwright-core";
import { expect, it } from "vitest";
import { wavFile } from "../measure/wavfile";
import { answerAll, go, shown, states, unfold } from "./hall";
import { openAll, openAt, tabTo } from "./hands";
import { phone, typeKeys } from "./harness";
import { browser, site } from "./stage";

const HELP = [
  ["channels", "What level, peak and send mean", /send × pan law × trims/],
  ["image", "What counts as the right side", /20 log\(R \/ L\).* Mills 1960/],
  ["headroom", "How headroom is counted", /Ceiling minus likely peak/],
  ["patch", "What the patch is checked for", /20 log 2 = 6\.02 dB/],
  ["check", "How it finds the fault", /chance of each answer/],
] as const;

it.each(HELP)(
  "%s explains its figures in place, by keyboard, with the source",
  async (place, about, says) => {
    const { page, context } = await phone(browser, { hasTouch: false });
    await openAt(page, site, place);
    const help = page.locator("details.explain", { hasText: about });
    const text = help.locator("> div");
    await help.waitFor();
    expect(await text.isVisible()).toBe(false);
    await tabTo(page, about);
    await page.keyboard.press("Enter");
    await expect.poll(() => shown(text)).toMatch(/Source: \S/);
    expect((await shown(text)).replace(/\s+/g, " ")).toMatch(says);
    await page.keyboard.press("Enter");
    await expect.poll(() => text.isVisible()).toBe(false);
    await context.close();
  },
);

/** Every explanation: the screen, the fold it is in, what it is called, and what it has to say. */
const EXPLAINED: readonly (readonly [place: string, fold: string, about: string, says: RegExp])[] = [
  ["channels", "Desk: pan law, notation, levels", "Which law is mine?", /the drop is the centre drop/],
  ["channels", "", "What level, peak and send mean", /20 log of the product/],
  ["image", "", "What counts as the right side", /20 log\(R \/ L\)/],
  ["image", "", "How recommendations are ranked", /the score: the mean over the pieces of side × heard/],
  [
    "image",
    "Listen to it",
    "What the level is, and why all play at the same loudness",
    /the energy of both ears together/,
  ],
  ["image", "The same pans with every pan law", "What these mean", /by the tangent law/],
  ["headroom", "", "How headroom is counted", /Ceiling minus likely peak/],
  ["headroom", "", "How these are worked out", /target headroom minus headroom/],
  ["headroom", "", "What these figures are", /10 log Σ a · 10\^\(L\/10\)/],
  ["headroom", "", "What the shares are", /its peak over the plain sum of all peaks/],
  ["headroom", "Measure a recording", "What is measured", /a full-scale sine reads/],
  ["headroom", "Measure a recording", "How these compare", /estimate minus measured/],
  [
    "headroom",
    "The same bus with every pan law",
    "What loss and headroom are",
    /minus the loudest single channel.*W3C/,
  ],
  [
    "headroom",
    "Folded to mono, and with one ear",
    "How fold and drop are counted",
    /20 log \|L \+ R\|.*3\.01 dB/,
  ],
  [
    "headroom",
    "Earphone level, estimated",
    "How the estimate is made",
    /10 log Σ 10\^\(L\/10\).*8 h \/ 2\^\(\(L − 85\) \/ 3\) by NIOSH, 8 h \/ 2\^\(\(L − 90\) \/ 5\) by OSHA.*200, 140 and 112 Pa/,
  ],
  ["patch", "", "What the patch is checked for", /20 log 2 = 6\.02 dB/],
  ["patch", "", "What these lose, and their order", /10 log 2 = 3\.01 dB/],
  ["check", "", "How it finds the fault", /chance of each answer.*The bar shows how much/],
  [
    "check",
    "",
    "What the percentage means",
    /A fault takes 3 hits and 89 %\. “As planned” takes 90 %.*Bayes/,
  ],
];

/** The explanations that stand on a screen, all of it opened. */
const explained = async (page: Page, place: string) => {
  await openAll(page);
  return page.locator("main details.explain").evaluateAll(
    (all, at) =>
      all.map((help) => {
        const said = (of: Element | null | undefined) => (of?.textContent ?? "").replace(/\s+/g, " ");
        const fold = help.parentElement?.closest("details")?.querySelector("summary");
        return {
          place: at,
          fold: said(fold),
          about: said(help.querySelector("summary")),
          text: said(help.querySelector("div")),
        };
      }),
    place,
  );
};

it("every figure that needs it has its explanation, and each says what it rests on", async () => {
  const { page, context } = await phone(browser);
  await openAt(page, site, "patch");
  await typeKeys(page.getByLabel("Monitor inputs", { exact: true }), "12");
  await states(page, "3 feeds too many for 12 inputs");
  await go(page, "headroom");
  await unfold(page, "Drums: fader, trims and output chain");
  await typeKeys(page.getByLabel("Target headroom, dB", { exact: true }), "40");
  await unfold(page, "Earphone level, estimated");
  await page.getByLabel("Estimate it").check();
  await unfold(page, "Measure a recording");
  const buffer = Buffer.from(wavFile([Float64Array.from({ length: 48_000 }, (_, i) => Math.sin(i / 50))]));
  await page
    .getByLabel("Choose recordings")
    .setInputFiles({ name: "Kick.wav", mimeType: "audio/wav", buffer });
  await page.getByRole("button", { name: "Measure 1 track" }).click();
  await page.locator("#beside").waitFor();
  const found = [];
  for (const place of ["channels", "image", "headroom", "patch", "check"]) {
    await go(page, place);
    // What was measured comes part by part; this is the last.
    if (place === "headroom") await page.locator("#keep").waitFor();
    found.push(...(await explained(page, place)));
  }
  await page.getByRole("button", { name: "Start the check" }).click();
  await answerAll(page);
  found.push(...(await explained(page, "check")));

  const listed = EXPLAINED.map(([place, fold, about]) => `${place} / ${fold} / ${about}`);
  const named = found.map(({ place, fold, about }) => `${place} / ${fold} / ${about}`);
  expect(named.sort()).toEqual(listed.sort());
  for (const [, , about, says] of EXPLAINED) {
    const text = found.find((f) => f.about === about)?.text;
    expect(text, about).toMatch(says);
    expect(text, about).toMatch(/Source\b[^.:]*: \S/);
  }
  await context.close();
});
