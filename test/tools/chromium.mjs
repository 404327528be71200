/** The program of Chromium; CHROMIUM names another one. */
export const CHROMIUM = process.env.CHROMIUM ?? "/usr/bin/chromium";
