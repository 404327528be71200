import { type ReadonlySignal, signal } from "@preact/signals";
import type { Stamp } from "../document/schema";
import { current } from "../document/store";

const KEY = "hatside-who";

const kept = (): string => {
  try {
    return localStorage.getItem(KEY) ?? "";
  } catch {
    // The browser lets this page keep nothing.
    return "";
  }
};

const name = signal(kept());

/** Who ticks on this device; "" where nobody has said. */
export const who: ReadonlySignal<string> = name;

/** Says who ticks on this device from now on. */
export const setWho = (by: string): void => {
  name.value = by;
  try {
    localStorage.setItem(KEY, by);
  } catch {
    // It holds until the page is closed.
  }
};

/** Who ticks, and now; a helper who gave no name is one all the same. */
export const stamp = (): Stamp => ({
  at: new Date().toISOString(),
  by: name.peek().trim() || (current.peek().handed ? "Helper" : ""),
});
