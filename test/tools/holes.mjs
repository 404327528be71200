/*
 * Asks the registry for known holes in the packages of both lock files. Fails for those the app is built and tested
 * with; those of the slow measurements, which are pinned and never run with the app, are only printed.
 * A registry that gives no advisories, or none within reach, fails nothing: it says so, and nothing is claimed.
 * Run: npm run holes
 */
import { spawnSync } from "node:child_process";
import { join } from "node:path";

const root = join(import.meta.dirname, "../..");

/** Prints the packages with known holes of a folder; gives how many. */
const holesIn = (folder) => {
  const { stdout } = spawnSync("npm", ["audit", "--json", "--fetch-retries=0", "--fetch-timeout=20000"], {
    cwd: join(root, folder),
    encoding: "utf8",
  });
  const { vulnerabilities, message } = JSON.parse(stdout);
  if (!vulnerabilities) {
    console.log(`${folder}: NOT AUDITED, the registry gave no answer: ${message}`);
    return 0;
  }
  const holes = Object.values(vulnerabilities);
  for (const { name, severity, range } of holes) console.log(`${folder}: ${name} ${range}: ${severity}`);
  console.log(`${folder}: packages with known holes: ${holes.length}`);
  return holes.length;
};

if (holesIn(".") > 0) process.exitCode = 1;
holesIn("test/slow");
