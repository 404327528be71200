import { type ReadonlySignal, signal } from "@preact/signals";

/** How the app looks: dark, light, or whatever the device says. */
export type Theme = "dark" | "light" | "device";

const KEY = "hatside-theme";
const device = matchMedia("(prefers-color-scheme: light)");
const chosen = signal<Theme>("dark");

/** What the user chose; dark until then. */
export const theme: ReadonlySignal<Theme> = chosen;

const show = (): void => {
  const root = document.documentElement;
  root.dataset.theme = chosen.value === "device" ? (device.matches ? "light" : "dark") : chosen.value;
  const ground = getComputedStyle(root).getPropertyValue("--ground").trim();
  document.querySelector("meta[name=theme-color]")?.setAttribute("content", ground);
};

/** Shows what was chosen on this device. To be called before anything is drawn; where nothing can be kept it stays dark. */
export const startTheme = (): void => {
  try {
    const kept = localStorage.getItem(KEY);
    if (kept === "light" || kept === "device") chosen.value = kept;
  } catch {
    // The browser lets this page keep nothing: dark, as for everybody at first.
  }
  show();
  device.addEventListener("change", show);
};

/** Chooses, and keeps the choice where the browser lets it. */
export const setTheme = (theme: Theme): void => {
  chosen.value = theme;
  show();
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    // It holds until the page is closed.
  }
};
