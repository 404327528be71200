import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";
import { go, states, unfold, visit } from "./hall";
import { imageRows, loaded, settled, tap } from "./hands";
import { drawn, phoneWithMemory, serveApp, stopServer, typeKeys, withFolder } from "./harness";

/** Three microphones as they are typed: the pan in the console's own notation. */
interface Typed {
  readonly name: string;
  readonly piece: string;
  readonly pan: string;
  /** −1…+1, what that notation means at 100 steps. */
  readonly at: number;
  readonly level: number;
  readonly peak: number;
  readonly send: number;
}
const KICK: Typed = { name: "Kick in", piece: "Kick", pan: "C", at: 0, level: -24, peak: -9, send: -3 };
const HAT: Typed = { name: "Hat top", piece: "Hat", pan: "70R", at: 0.7, level: -33, peak: -15, send: 0 };
const TOM: Typed = {
  name: "Low tom",
  piece: "Floor tom",
  pan: "-60",
  at: -0.6,
  level: -28,
  peak: -8,
  send: -2,
};
const MINE = [KICK, HAT, TOM];

/** The sin/cos pan law with the sides at 0 dB (W3C Web Audio API 1.1, StereoPannerNode), written again. */
const gains = (pan: number): readonly [number, number] => {
  const x = (pan + 1) / 2;
  return [Math.cos((x * Math.PI) / 2), Math.sin((x * Math.PI) / 2)];
};
const dB = (value: number): string => {
  const text = Math.abs(20 * Math.log10(value)).toFixed(1);
  return value < 1 && Number(text) > 0 ? `−${text}` : text;
};
const amplitude = (level: number): number => 10 ** (level / 20);

/** Level and likely peak of both sides, as printed: energy sum; loudest plus root-sum-square of the rest. */
const byHand = () =>
  ([0, 1] as const).map((side) => {
    const parts = MINE.map((m) => ({ m, gain: amplitude(m.send) * gains(m.at)[side] }));
    const level = Math.hypot(...parts.map(({ m, gain }) => amplitude(m.level) * gain));
    const peaks = parts.map(({ m, gain }) => amplitude(m.peak) * gain).sort((a, b) => b - a);
    const [loudest = 0, ...rest] = peaks;
    return {
      level: dB(level),
      peak: dB(loudest + Math.hypot(...rest)),
      amplitude: loudest + Math.hypot(...rest),
    };
  });

const channel = (page: Page, name: string) => page.locator("li.channel", { hasText: name });

/** Adds a channel and types all of it, key by key, as it stands on a sheet of paper. */
const enter = async (page: Page, it: Typed): Promise<void> => {
  await tap(page.getByRole("button", { name: "Add a channel" }));
  const card = page.locator("li.channel").last();
  // Its name is selected; it is typed below with the rest.
  await card.getByLabel("Name", { exact: true }).press("Enter");
  await tap(card.locator("button[aria-expanded]"));
  await card.getByLabel("Name", { exact: true }).waitFor();
  const fields = [
    ["Name", it.name],
    ["Channel pan", it.pan],
    ["Gated RMS, dBFS", String(it.level)],
    ["Peak, dBFS", String(it.peak)],
    ["Send to Mine, dB", String(it.send)],
  ] as const;
  for (const [label, text] of fields) {
    const field = card.getByLabel(label, { exact: true });
    await typeKeys(field, text);
    await field.press("Enter");
  }
  await card.getByLabel("Kit piece").selectOption(it.piece);
};

/** All that the screens say of the user's own bus, as text. */
const everything = async (page: Page): Promise<string[]> => {
  const said: string[] = [];
  const take = async () => {
    await loaded(page);
    said.push((await page.locator("main").textContent()) ?? "");
  };
  await go(page, "headroom");
  await tap(page.getByRole("radio", { name: "Mine" }));
  await page.getByText("Mine: fader, trims and output chain").waitFor();
  await take();
  await go(page, "channels");
  await take();
  await go(page, "image");
  await page.getByText("Where it stands", { exact: true }).waitFor();
  for (const who of ["Audience", "Drummer"]) {
    await tap(page.getByRole("radio", { name: who, exact: true }));
    await page.getByText(`Each channel as it reaches the ${who.toLowerCase()}`).waitFor();
    await take();
  }
  await go(page, "patch");
  await page.getByText("Paper, lists, links").waitFor();
  await take();
  return said;
};

describe("a drum submix on a phone", () => {
  it("is seen from both sides, swapped, summed, taken back and done again in the example", async () => {
    await withFolder(async (profile) => {
      const site = await serveApp();
      const user = await phoneWithMemory(profile);
      const { page } = user;
      await visit(user, site);
      await page.getByText("Example, invented data").waitFor();

      await go(page, "image");
      await states(page, "L/R swapped for Mara: 7 of 8 on the wrong side");
      const drummer = await imageRows(page, "Mara, drums");
      await page.getByLabel("As heard by").selectOption("Audience");
      await states(page, "All on the right side for the audience");
      // Everybody else of the band is at FOH too, but has no place at the kit.
      const audience = (await imageRows(page, "Audience")).slice(0, 8);
      expect(drummer.map((row) => row.name)).toEqual([
        "Kick right side",
        ...["Snare", "Hat", "Tom 1", "Tom 2", "Floor tom", "Overhead L", "Overhead R"].map(
          (n) => `${n} wrong side`,
        ),
      ]);
      const other = { left: "right", right: "left", centre: "centre" };
      for (const [at, row] of drummer.entries()) {
        const foh = audience[at];
        expect(foh?.name).toBe(`${row.name.split(/ (?:right|wrong) side$/)[0]} right side`);
        expect(foh?.heard).toBe(foh?.stands);
        expect(row.heard).toBe(foh?.heard);
        expect(row.stands).toBe(other[foh?.stands as keyof typeof other]);
      }

      await page.getByLabel("As heard by").selectOption("Mara, drums");
      await tap(page.getByRole("button", { name: "Swap Drums L/R" }));
      await states(page, "All on the right side for Mara");
      const swapped = await imageRows(page, "Mara, drums");
      expect(swapped.map((row) => [row.left, row.right])).toEqual(
        drummer.map((row) => [row.right, row.left]),
      );

      await go(page, "headroom");
      await states(page, /^Fits: \d+\.\d dB left at the monitor input, \d+\.\d dB under target$/);
      const headroom = (await page.locator(".chain .lowest .big").textContent()) ?? "";
      expect(await page.locator("h1").textContent()).toContain(`Fits: ${headroom} left`);
      await tap(page.getByRole("button", { name: "Undo: swap L/R" }));
      await go(page, "channels");
      await tap(page.getByRole("button", { name: "Redo: swap L/R" }));
      await tap(page.getByRole("button", { name: "Undo: swap L/R" }));
      await go(page, "image");
      await states(page, "L/R swapped for Mara: 7 of 8 on the wrong side");
      await tap(page.getByRole("button", { name: "Redo: swap L/R" }));
      await states(page, "All on the right side for Mara");
      expect(user.faults).toEqual([]);
      await user.context.close();
      await stopServer(site);
    });
  });

  it("entered by hand is all there after the page and the browser were closed and the server stopped", async () => {
    await withFolder(async (profile) => {
      const site = await serveApp();
      const first = await phoneWithMemory(profile);
      const { page } = first;
      await visit(first, site);
      await go(page, "setups");
      const start = page.getByRole("button", { name: "Start with 8 microphones" });
      await tap(start);
      await states(page, "8 channels in Drums, stereo bus");
      await go(page, "headroom");
      await tap(page.getByRole("button", { name: "Add a stereo bus" }));
      await tap(page.getByRole("radio", { name: "Bus", exact: true }));
      await states(page, "No sends to Bus");
      await unfold(page, "Bus: fader, trims and output chain");
      await typeKeys(page.getByLabel("Name", { exact: true }), "Mine");
      await states(page, "No sends to Mine");

      await go(page, "channels");
      for (const it of MINE) await enter(page, it);
      await states(page, "3 channels in Mine, stereo bus");
      for (const [name, pan] of [
        [KICK.name, "C"],
        [HAT.name, "R70"],
        [TOM.name, "L60"],
      ] as const)
        expect(await channel(page, name).locator(".pan-shown").textContent()).toBe(pan);

      await go(page, "image");
      const drummer = page.locator("li.card", { hasText: "Drummer" });
      await tap(drummer.locator("summary"));
      await drummer.getByLabel("Hears", { exact: true }).selectOption("Mine");
      await states(page, "L/R swapped for the drummer: 2 of 3 on the wrong side");
      expect(
        (await imageRows(page, "Drummer")).map(({ name, stands, heard }) => [name, stands, heard]),
      ).toEqual([
        [`${KICK.name} right side`, "centre", "centre"],
        [`${HAT.name} wrong side`, "left", "right"],
        [`${TOM.name} wrong side`, "right", "left"],
      ]);
      await tap(page.getByRole("button", { name: "Swap Mine L/R" }));
      await states(page, "All on the right side for the drummer");

      await go(page, "patch");
      await unfold(page, "Unassigned: ");
      await tap(page.getByRole("button", { name: "Assign Mine" }));
      await page.locator(".monitor-input > summary", { hasText: "Mine R" }).waitFor();
      expect(await page.locator(".monitor-input > summary").nth(2).textContent()).toContain("Mine R");

      await go(page, "headroom");
      const sides = byHand();
      const row = (name: string) =>
        page.locator("tr", { has: page.getByRole("rowheader", { name }) }).first();
      expect(await row("RMS when everybody plays").locator("td").allInnerTexts()).toEqual([
        ...sides.map((side) => side.level),
        expect.any(String),
      ]);
      expect(await row("Likely peak").locator("td").allInnerTexts()).toEqual([
        ...sides.map((side) => side.peak),
        expect.any(String),
      ]);
      // A template's bus has no trims and does not overload; +18 dBu at 0 dBFS meets +20 dBu at the input: the output decides.
      const left = dB(1 / Math.max(...sides.map((side) => side.amplitude)));
      await states(page, `Fits: ${left} dB left at the output`);

      const before = await everything(page);
      expect(before.join()).toContain(HAT.name);
      await settled(page);
      await page.close();
      await stopServer(site);

      const again = await first.context.newPage();
      await again.goto(`${site.url}#channels`);
      await drawn(again);
      expect(await everything(again)).toEqual(before);
      await first.context.close();

      const second = await phoneWithMemory(profile);
      await second.page.goto(`${site.url}#channels`);
      await drawn(second.page);
      expect(await everything(second.page)).toEqual(before);
      expect([...first.faults, ...second.faults]).toEqual([]);
      await second.context.close();
    });
  });
});
