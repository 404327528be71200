import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";

/** Every text of a JSON value with the path to it. */
const texts = function* (value: unknown, at = ""): Generator<readonly [at: string, text: string]> {
  if (typeof value === "string") yield [at, value];
  else if (typeof value === "object" && value !== null)
    for (const [key, inner] of Object.entries(value)) {
      yield [`${at}/(key)`, key];
      yield* texts(inner, `${at}/${key}`);
    }
};

it.each(["package-lock.json", "test/slow/package-lock.json"])(
  "%s pins every package by its fingerprint and holds no address but those of funding pages",
  (name) => {
    const lock = JSON.parse(readFileSync(join(import.meta.dirname, "..", name), "utf8"));
    const packages = Object.entries<{ readonly integrity?: string }>(lock.packages).filter(
      ([at]) => at !== "",
    );
    expect(packages.length).toBeGreaterThan(20);
    expect(packages.filter(([, { integrity }]) => !/^sha512-/.test(integrity ?? ""))).toEqual([]);
    // A fingerprint is base64, which has slashes too.
    const addresses = [...texts(lock)].filter(
      ([at, text]) =>
        !/\/(funding|integrity)(\/|$)/.test(at) &&
        (/\/\/|^(https?|git|file|ssh):/i.test(text) || text === "resolved"),
    );
    expect(addresses).toEqual([]);
  },
);
