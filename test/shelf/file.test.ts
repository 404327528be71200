import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { LIMITS, MAX_SETUP_BYTES } from "../../src/document/limits";
import { printSetup } from "../../src/document/read-setup";
import { type SetupFile, VERSION } from "../../src/document/schema";
import { templateSetup } from "../../src/document/templates";
import { printBackup, restore } from "../../src/shelf/backup";
import { exportFile, fileName, readFile } from "../../src/shelf/file";
import { fullest } from "../document/fullest";
import { full } from "./shaky-cupboard";

const example = exampleSetup();
const file = (content: BlobPart, name = "a.json") => new File([content], name);
const why = async (content: BlobPart) => {
  const [result] = await readFile(file(content));
  return result?.ok === false ? result.why : "read";
};

describe("a setup's file", () => {
  it("is read back exactly", async () => {
    const { name, blob } = exportFile(example);
    expect(name).toBe("tallow-street-soul-at-linden-hall.hatside.json");
    expect(await readFile(new File([blob], name))).toEqual([{ ok: true, file: example, notes: [] }]);
  });

  it("is read back exactly with as much in it as one holds, and a recording of every channel", async () => {
    const most = fullest(LIMITS.channels, (row, column) => Math.sin(row * column + row + column));
    const { name, blob } = exportFile(most);
    const [read] = await readFile(new File([blob], name));
    if (!read?.ok) throw new Error(read?.why);
    expect(read.notes).toEqual([]);
    expect(read.file).toEqual(most);
  });

  it("gets a name that every system takes", () => {
    expect(fileName("../..\\CON: <Hall> & Söhne?*")).toBe("con-hall-söhne");
    expect(fileName("")).toBe("setup");
    expect(fileName("\u202E/.")).toBe("setup");
    expect([...fileName("鼓".repeat(200))]).toHaveLength(60);
  });

  it("may begin with a byte order mark", async () => {
    expect(await why(`\uFEFF${printSetup(example)}`)).toBe("read");
  });

  it("is refused with a sentence when it is something else", async () => {
    expect(await why("")).toMatch(/^“a\.json”: this is not JSON/);
    expect(await why("{")).toMatch(/^“a\.json”: this is not JSON/);
    expect(await why(new Uint8Array([0xff, 0xfe, 0x80]))).toBe("“a.json”: this is not a text file.");
    expect(await why('{"format":"drawing"}')).toContain("its format is “drawing”");
    expect(await why(printSetup(example).replace(`"version": ${VERSION}`, '"version": 77'))).toContain(
      "newer Hatside",
    );
  });

  it("is named without turning the words behind its name", async () => {
    const name = "\u2067\u202Enever closed";
    const [result] = await readFile(file("{}", name));
    expect(result).toMatchObject({
      why: expect.stringMatching(/^“\u2067\u202Enever closed\u2069\u202C”: This /),
    });
  });

  it("is refused over 40 MB before it is read", async () => {
    const most = MAX_SETUP_BYTES;
    expect(await why(" ".repeat(most + 1))).toBe("“a.json”: 40.1 MB is too large. Allowed: up to 40.0 MB.");
    expect(await why(printSetup(example).padEnd(most))).toBe("read");
  });

  it("that cannot be read is said", async () => {
    const broken = {
      name: "a.json",
      size: 1,
      slice: () => ({ text: () => Promise.reject(new Error("It is gone.")) }),
    };
    expect(await readFile(broken as unknown as File)).toEqual([
      { ok: false, why: "“a.json”: it could not be read (It is gone)." },
    ]);
  });
});

describe("a backup", () => {
  const other = templateSetup(4, "left");
  const newer = printSetup(example).replace(`"version": ${VERSION}`, '"version": 77');
  const texts = async () => [printSetup(example), newer, "cut off {", printSetup(other)];

  it("holds every setup, also what cannot be read, and shows each before it is restored", async () => {
    const text = (await printBackup({ texts })).join("");
    const setups = await readFile(file(text, "b.json"));
    const shown = setups.map((s) => (s.ok ? s.file.name : s.why));
    expect(shown).toEqual([
      example.name,
      expect.stringContaining("newer Hatside"),
      other.name,
      expect.stringContaining("not JSON"),
    ]);
    expect(setups[0]).toEqual({ ok: true, file: example, notes: [] });
    expect(JSON.parse(text).unread).toEqual(["cut off {"]);
  });

  it("with a setup that is deeper than the engine goes gives the others", async () => {
    const deep = `{"format": "hatside-setup", "version": 1, "unknown": ${"[".repeat(9000)}${"]".repeat(9000)}}`;
    const setups = `${deep}, ${printSetup(example)}`;
    const read = await readFile(
      file(`{"format": "hatside-backup", "version": 1, "setups": [${setups}]}`, "b.json"),
    );
    expect(read.map((s) => (s.ok ? s.file.name : s.why))).toEqual([
      expect.stringMatching(/^Hatside cannot read this setup: .*\.$/),
      example.name,
    ]);
  });

  it("is refused when it is newer or no backup inside", async () => {
    const backup = (more: object) =>
      why(JSON.stringify({ format: "hatside-backup", version: 1, setups: [], ...more }));
    expect(await backup({ setups: [example] })).toBe("read");
    expect(await backup({ version: 2 })).toContain("from a newer Hatside (its version is 2");
    expect(await backup({ version: "1" })).toContain("version: “1” is not a version");
    expect(await backup({ setups: {} })).toContain("setups: an object is not a list");
    expect(await why('{"x":"hatside-backup"} ')).toMatch(/not a backup/);
  });

  it("of the form that was written in one piece is read, however many setups are in it", async () => {
    const setups = Array(1001).fill(example);
    const whole = JSON.stringify({ format: "hatside-backup", version: 1, setups, unread: ["?"] }, null, 1);
    const read = await readFile(file(whole, "b.json"));
    expect(read.filter((s) => s.ok)).toHaveLength(1001);
    expect(read.at(-1)).toMatchObject({ ok: false, why: expect.stringContaining("not JSON") });
  });

  it("that was cut off gives what arrived whole, and says so", async () => {
    const text = (await printBackup({ texts: async () => [printSetup(example), printSetup(other)] })).join(
      "",
    );
    const read = await readFile(file(text.slice(0, -1000), "b.json"));
    expect(read.map((s) => (s.ok ? s.file.name : s.why))).toEqual([
      example.name,
      expect.stringContaining("not JSON"),
      "“b.json” was cut off. The setups that arrived whole are listed.",
    ]);
  });

  it("with thousands of setups that cannot be read names a thousand and counts the rest", async () => {
    const text = await printBackup({ texts: async () => [...Array(1500).fill("{}"), printSetup(example)] });
    const read = await readFile(new File(text, "b.json"));
    expect(read).toHaveLength(1002);
    expect(read.filter((s) => s.ok)).toHaveLength(1);
    expect(read.at(-1)).toEqual({ ok: false, why: "500 more setups cannot be read." });
  });

  it("with a line longer than a setup may be gives the others", async () => {
    const long = JSON.stringify(example).padEnd(MAX_SETUP_BYTES + 1);
    const [first, second, ...more] = await printBackup({
      texts: async () => [printSetup(other), printSetup(example)],
    });
    const read = await readFile(new File([first ?? "", `${long},\n`, second ?? "", ...more], "b.json"));
    expect(read.map((s) => (s.ok ? s.file.name : s.why))).toEqual([
      "40.1 MB is too large. Allowed: up to 40.0 MB.",
      other.name,
      example.name,
    ]);
  });

  it("is restored one by one, and says where it stopped", async () => {
    const kept: SetupFile[] = [];
    const put = async (setup: SetupFile) => {
      if (kept.length === 1) throw full();
      kept.push(setup);
    };
    expect(await restore({ put }, [example, other])).toEqual({
      done: 1,
      why: "the browser’s storage is full",
    });
    expect(kept).toEqual([example]);
    expect(await restore({ put: async () => {} }, [example, other])).toEqual({ done: 2 });
  });
});
