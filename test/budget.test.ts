import type { Rolldown } from "vite";
import { expect, it } from "vitest";
import { firstLoad } from "../vite.config";

/** Letters that cannot be packed: as many bytes as letters, and a little less in brotli. */
const noise = (length: number): string => {
  let state = 1;
  return Array.from({ length }, () => {
    // A linear congruential generator with the constants of C11's example (ISO/IEC 9899:2011, 7.22.2.2).
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return String.fromCharCode(33 + ((state >>> 16) % 90));
  }).join("");
};

interface Chunk {
  readonly code: string;
  readonly isEntry?: boolean;
  readonly imports?: readonly string[];
  readonly dynamicImports?: readonly string[];
  readonly css?: readonly string[];
}

/** A build as far as the budget looks at it. */
const bundle = (
  chunks: { readonly [name: string]: Chunk },
  styles: { readonly [name: string]: string } = {},
) =>
  ({
    ...Object.fromEntries(
      Object.entries(chunks).map(([fileName, { css = [], ...chunk }]) => [
        fileName,
        {
          type: "chunk",
          fileName,
          isEntry: false,
          imports: [],
          ...chunk,
          viteMetadata: { importedCss: new Set(css) },
        },
      ]),
    ),
    ...Object.fromEntries(Object.entries(styles).map(([name, source]) => [name, { type: "asset", source }])),
  }) as unknown as Rolldown.OutputBundle;

const over = (built: Rolldown.OutputBundle): boolean[] => firstLoad(built).map(({ isOver }) => isOver);

it("counts the entry and all that it imports at once, against the budget", () => {
  const half = noise(30_000);
  const fits = bundle({ "a.js": { code: half, isEntry: true } });
  expect(over(fits)).toEqual([false, false]);
  const both = bundle({
    "a.js": { code: half, isEntry: true, imports: ["b.js"] },
    "b.js": { code: noise(31_000), imports: ["a.js"] },
  });
  expect(over(both)).toEqual([true, false]);
  expect(firstLoad(both)[0]?.says).toMatch(/^first load js: \d{5} B brotli of 40000 B allowed$/);
});

it("leaves out what is loaded on demand", () => {
  const lazy = bundle(
    {
      "a.js": { code: "a", isEntry: true, dynamicImports: ["b.js"] },
      "b.js": { code: noise(90_000), css: ["b.css"] },
    },
    { "b.css": noise(90_000) },
  );
  expect(over(lazy)).toEqual([false, false]);
});

it("counts the styles of what it counts, each once", () => {
  const styled = (length: number) =>
    bundle(
      {
        "a.js": { code: "a", isEntry: true, imports: ["b.js"], css: ["a.css"] },
        "b.js": { code: "b", css: ["a.css"] },
      },
      { "a.css": noise(length) },
    );
  expect(over(styled(5000))).toEqual([false, false]);
  expect(over(styled(8000))).toEqual([false, true]);
});
