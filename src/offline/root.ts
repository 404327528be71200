// A name of its own, or the build takes the folder for one of its files.
const here = import.meta.url;

/** Address of the folder that the app is served from, wherever the page itself was opened. */
export const ROOT = new URL("../", here).href;
