import { basename, dirname } from "node:path";
import asc from "assemblyscript/asc";

const QUERY = "?wasm";
const OPTIONS = [
  "--enable",
  "simd",
  "--runtime",
  "stub",
  "--importMemory",
  "--noExportMemory",
  "--use",
  "abort=",
];

/** WebAssembly of an AssemblyScript file. */
const compile = async (file) => {
  let wasm;
  const { error, stderr } = await asc.main(
    [basename(file), "--baseDir", dirname(file), "--outFile", "out.wasm", "-O3", ...OPTIONS],
    {
      writeFile: (_, contents) => {
        wasm = contents;
      },
    },
  );
  if (error) throw new Error(`${file}: ${stderr}`);
  return Buffer.from(wasm).toString("base64");
};

const assembly = () => ({
  name: "assembly",
  enforce: /** @type {const} */ ("pre"),
  async load(id) {
    if (!id.endsWith(QUERY)) return null;
    return `export default ${JSON.stringify(await compile(id.slice(0, -QUERY.length)))}`;
  },
});

/** Settings of a build by which `import code from "./x.ts?wasm"` gives AssemblyScript as WebAssembly in base64. */
export const withAssembly = () => ({
  plugins: [assembly()],
  worker: { format: /** @type {const} */ ("es"), plugins: () => [assembly()] },
});
