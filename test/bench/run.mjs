/* Runs every bench of this folder in turn: each file that exports nothing and is no child of another. */
import { spawnSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";

const folder = import.meta.dirname;
const isBench = (name) =>
  name.endsWith(".mjs") &&
  !name.endsWith("-child.mjs") &&
  name !== basename(import.meta.filename) &&
  !/^export /m.test(readFileSync(join(folder, name), "utf8"));

for (const name of readdirSync(folder).filter(isBench).sort()) {
  console.log(`\n== ${name}`);
  const { status } = spawnSync(process.execPath, [join(folder, name)], { stdio: "inherit" });
  if (status !== 0) process.exitCode = 1;
}
