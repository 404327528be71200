import type { Locator, Page } from "playwright-core";
import type { SetupFile } from "../../src/document/schema";
import { stored } from "./hands";

/** Its pan, to be moved by keys. */
export const slider = (page: Page): Locator => page.getByRole("slider", { name: "Channel pan of Kick" });

/** The pan that is shown, −100…+100. */
export const panOf = async (page: Page): Promise<number> =>
  Number(await slider(page).getAttribute("aria-valuenow"));

/** Its two levels, once its card is open. */
export const level = (page: Page): Locator => page.getByLabel("Gated RMS, dBFS", { exact: true });
export const peak = (page: Page): Locator => page.getByLabel("Peak, dBFS", { exact: true });

/** Opens its card on the Channels screen. */
export const openKick = async (page: Page): Promise<void> => {
  await page.locator("li.channel", { hasText: "Kick" }).locator("button[aria-expanded=false]").click();
  await level(page).waitFor();
};

/** What a file says of it. */
export const kickIn = (
  text: string,
): { readonly level: number | null; readonly peak: number | null; readonly pan: number } => {
  const kick = (JSON.parse(text) as SetupFile).channels.find(({ name }) => name === "Kick");
  if (!kick) throw new Error("no kick in the file");
  return { level: kick.gatedRms, peak: kick.peak, pan: kick.pan };
};

/** What the browser's storage says of it in the setup that was changed last. */
export const storedKick = async (page: Page): Promise<ReturnType<typeof kickIn>> =>
  kickIn(await stored(page));
