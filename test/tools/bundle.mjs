import { createHash } from "node:crypto";
import { mkdir, writeFile } from "node:fs/promises";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "vite";
import { withAssembly } from "../../src/measure/simd/compile.mjs";

const root = resolve(import.meta.dirname, "../..");
const cache = join(root, "node_modules/.cache/bundle");

/**
 * Bundles a TypeScript entry as the app is built.
 * @param {string} entry path from the project's root, or absolute
 * @returns {Promise<string>} address of the bundled module
 */
export const bundled = async (entry) => {
  const built = await build({
    configFile: false,
    root,
    publicDir: false,
    logLevel: "error",
    ...withAssembly(),
    build: {
      write: false,
      target: "es2022",
      minify: "oxc",
      modulePreload: false,
      rolldownOptions: {
        input: resolve(root, entry),
        preserveEntrySignatures: "strict",
        output: { format: "es", codeSplitting: false },
      },
    },
  });
  const [output] = Array.isArray(built) ? built : [built];
  const { code } = output.output[0];
  const file = join(cache, `${createHash("sha256").update(code).digest("hex").slice(0, 16)}.mjs`);
  await mkdir(cache, { recursive: true });
  await writeFile(file, code);
  return pathToFileURL(file).href;
};

/**
 * Bundles a TypeScript entry as the app is built and imports it in Node.
 * @param {string} entry path from the project's root, or absolute
 * @returns {Promise<Record<string, any>>} the module's exports
 */
export const bundle = async (entry) => import(await bundled(entry));
