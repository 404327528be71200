// Every property with many more cases than the unit tests give it, other ones each time; FUZZ=n for n times as many.
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const times = Number(process.env.FUZZ ?? 20);
if (!(Number.isInteger(times) && times > 0))
  throw new Error(`FUZZ is ${process.env.FUZZ}: a whole number is needed`);

const folder = mkdtempSync(join(tmpdir(), "hatside-"));
const counts = join(folder, "counts");
writeFileSync(counts, "");
const { status } = spawnSync("npx", ["vitest", "run", "--config", "test/slow/fuzz.config.ts"], {
  stdio: "inherit",
  env: { ...process.env, FUZZ_TIMES: String(times), FUZZ_COUNTS: counts },
});
const cases = readFileSync(counts, "utf8").split("\n").filter(Boolean).map(Number);
rmSync(folder, { recursive: true });
const all = cases.reduce((sum, each) => sum + each, 0);
console.log(`${cases.length} properties, ${all} cases${status === 0 ? ", all held" : ": some did not hold"}`);
process.exitCode = status ?? 1;
