/** An AssemblyScript file as WebAssembly, base64; see simd/compile.mjs. */
declare module "*?wasm" {
  const code: string;
  export default code;
}
