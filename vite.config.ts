import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { readdir, readFile } from "node:fs/promises";
import { join, relative, resolve, sep } from "node:path";
import { brotliCompressSync } from "node:zlib";
import { build, type Plugin, type Rolldown } from "vite";
import { defineConfig } from "vitest/config";
import { withAssembly } from "./src/measure/simd/compile.mjs";

/** Largest first load, bytes in brotli: what must arrive before the first screen stands. */
const BUDGET = { js: 40_000, css: 5_000 };
const TARGET = "es2022";

const brotli = (text: string | Uint8Array): number => brotliCompressSync(text).length;

/** The chunk and all that it imports at once; what it imports on demand stays out. */
const withStaticImports = (bundle: Rolldown.OutputBundle, name: string, seen = new Set<string>()) => {
  const chunk = bundle[name];
  if (chunk?.type !== "chunk" || seen.has(name)) return seen;
  seen.add(name);
  for (const imported of chunk.imports) withStaticImports(bundle, imported, seen);
  return seen;
};

/** What the first load of a build weighs, by kind, as a sentence, and whether that is over the budget. */
export const firstLoad = (bundle: Rolldown.OutputBundle): { says: string; isOver: boolean }[] => {
  const first = new Set<string>();
  for (const output of Object.values(bundle))
    if (output.type === "chunk" && output.isEntry) withStaticImports(bundle, output.fileName, first);
  const sizes = { js: 0, css: 0 };
  const styles = new Set<string>();
  for (const name of first) {
    const chunk = bundle[name];
    if (chunk?.type !== "chunk") continue;
    sizes.js += brotli(chunk.code);
    for (const css of chunk.viteMetadata?.importedCss ?? []) styles.add(css);
  }
  for (const name of styles) {
    const css = bundle[name];
    if (css?.type === "asset") sizes.css += brotli(css.source);
  }
  return (["js", "css"] as const).map((kind) => ({
    says: `first load ${kind}: ${sizes[kind]} B brotli of ${BUDGET[kind]} B allowed`,
    isOver: sizes[kind] > BUDGET[kind],
  }));
};

/** Fails the build when the first load outgrows its budget. */
const sizeBudget = (): Plugin => ({
  name: "size-budget",
  apply: "build",
  generateBundle: {
    order: "post",
    handler(_, bundle) {
      for (const { says, isOver } of firstLoad(bundle)) {
        if (isOver) this.error(says);
        this.info(says);
      }
    },
  },
});

/** Every built file with its fingerprint; the page itself goes by "./", as hosts may redirect from index.html. */
const listFiles = async (out: string) => {
  const entries = await readdir(out, { recursive: true, withFileTypes: true });
  const names = entries
    .filter((entry) => entry.isFile() && !entry.name.endsWith(".map"))
    .map((entry) => relative(out, join(entry.parentPath, entry.name)).split(sep).join("/"))
    .filter((name) => name !== "sw.js")
    .sort();
  return Promise.all(
    names.map(async (name) => {
      const digest = createHash("sha256").update(await readFile(join(out, name)));
      return { url: name === "index.html" ? "./" : name, integrity: `sha256-${digest.digest("base64")}` };
    }),
  );
};

/** Bundles the service worker on its own after the app, with the list of what was built. */
const serviceWorker = (): Plugin => {
  let root = "";
  let out = "";
  return {
    name: "service-worker",
    apply: "build",
    configResolved(config) {
      root = config.root;
      out = resolve(root, config.build.outDir);
    },
    async closeBundle() {
      const files = await listFiles(out);
      const version = createHash("sha256").update(JSON.stringify(files)).digest("hex").slice(0, 12);
      await build({
        configFile: false,
        root,
        publicDir: false,
        logLevel: "warn",
        define: { __FILES__: JSON.stringify(files), __VERSION__: JSON.stringify(version) },
        build: {
          outDir: out,
          emptyOutDir: false,
          target: TARGET,
          modulePreload: false,
          rolldownOptions: {
            input: join(root, "offline/worker/sw.ts"),
            output: { entryFileNames: "sw.js", codeSplitting: false },
          },
        },
      });
    },
  };
};

/** The development server puts styles and its client inline, which the page's policy forbids. */
const noPolicyInDevelopment = (): Plugin => ({
  name: "no-policy-in-development",
  apply: "serve",
  transformIndexHtml: (html) => html.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ""),
});

/** Settings of one kind of test. */
const tests = (name: string, settings: object) => ({
  extends: true as const,
  test: { name, root: import.meta.dirname, include: ["**/*.test.{ts,tsx}"], ...settings },
});

/** Settings of every test in a browser. */
const BROWSER = {
  dir: "test/browser",
  // Two at a time take longer, each of them.
  testTimeout: 240_000,
  hookTimeout: 120_000,
  // A busy machine draws late.
  expect: { poll: { timeout: 15_000 } },
};

/** Files that take the time of what they do, or listen in real time: nothing runs beside them. */
const ALONE = ["hear", "hear-check", "hear-parts", "large", "recordings", "rooms"].map(
  (name) => `**/${name}.test.ts`,
);

const { version } = JSON.parse(readFileSync(join(import.meta.dirname, "package.json"), "utf8"));

const { plugins, worker } = withAssembly();

export default defineConfig({
  root: "src",
  define: { __VERSION__: JSON.stringify(version) },
  base: "./",
  publicDir: "../public",
  cacheDir: "../node_modules/.cache/vite",
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  build: {
    outDir: "../dist",
    emptyOutDir: true,
    target: TARGET,
    assetsInlineLimit: 0,
    // A link for each part that is fetched on the quiet took a slow phone longer than the parts themselves.
    modulePreload: false,
    // What is needed at once arrives in one file: each file by itself is packed worse, 3 kB in all.
    rolldownOptions: { output: { codeSplitting: { groups: [{ name: "first", tags: ["$initial"] }] } } },
  },
  worker,
  plugins: [...plugins, sizeBudget(), serviceWorker(), noPolicyInDevelopment()],
  test: {
    projects: [
      tests("unit", {
        dir: "test",
        exclude: ["**/browser/**", "**/node_modules/**"],
        // Else one core is kept free, which on two is half of them.
        maxWorkers: "100%",
        testTimeout: 30_000,
        // As the build takes it: Node would take another form of it, which it cannot import by name.
        server: { deps: { inline: ["workbox-window"] } },
      }),
      tests("browser", { ...BROWSER, exclude: ALONE, maxWorkers: 2, sequence: { groupOrder: 1 } }),
      tests("browser-alone", { ...BROWSER, include: ALONE, maxWorkers: 1, sequence: { groupOrder: 2 } }),
    ],
  },
});
