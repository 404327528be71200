import { mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { build } from "vite";
import { withAssembly } from "../../src/measure/simd/compile.mjs";
import { serve } from "./serve.mjs";

const root = resolve(import.meta.dirname, "../..");

/**
 * Builds an entry as the app is built, workers and all, and serves it under one empty page.
 * @param {string} entry path from the project's root; its exports become the page's `rooms`
 * @returns {Promise<{ url: string, stop: () => Promise<void> }>}
 */
export const serveRooms = async (entry) => {
  const folder = await mkdtemp(join(tmpdir(), "rooms-"));
  await build({
    configFile: false,
    root,
    base: "./",
    publicDir: false,
    logLevel: "error",
    ...withAssembly(),
    build: {
      outDir: folder,
      emptyOutDir: true,
      target: "es2022",
      assetsInlineLimit: 0,
      modulePreload: false,
      rolldownOptions: { input: { entry: resolve(root, entry) }, preserveEntrySignatures: "strict" },
    },
  });
  const built = (await readdir(join(folder, "assets"))).find((name) => name.startsWith("entry"));
  const policy = "default-src 'self'; require-trusted-types-for 'script'; trusted-types default";
  await writeFile(
    join(folder, "index.html"),
    `<!doctype html><meta charset="utf-8"><meta http-equiv="content-security-policy" content="${policy}">
<title>rooms</title><script type="module" src="start.js"></script>`,
  );
  await writeFile(join(folder, "favicon.ico"), "");
  await writeFile(
    join(folder, "start.js"),
    `globalThis.trustedTypes?.createPolicy("default", { createScriptURL: (url) => url });
globalThis.rooms = await import("./assets/${built}");`,
  );
  const site = await serve(folder);
  return {
    url: site.url,
    stop: async () => {
      await site.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
};
