/** Chromium as people have it; CHROMIUM names another one. */
export const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";

/** The same engine without windows, which does the same in half of the time; CHROMIUM_SHELL names another one. */
export const CHROMIUM_SHELL = process.env.CHROMIUM_SHELL ?? "/usr/bin/chromium-headless-shell";
