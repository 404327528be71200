import { deflateRawSync } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { blankSetup } from "../../src/document/blank";
import { exampleSetup } from "../../src/document/example";
import { readSetup } from "../../src/document/read-setup";
import { carriesSetup } from "../../src/shelf/carries";
import { fromLink, LINK_LIMITS, toFragment, toLink } from "../../src/shelf/link";
import { QR_BYTES } from "../../src/shelf/qr";
import { anySetup } from "../core/inputs/setups";
import { forged, packed } from "./forged";

const ADDRESS = "https://example.org/hall/";

const says = async (text: string): Promise<string> => {
  const read = await fromLink(text);
  return read.ok ? "" : read.why;
};

describe("a share link", () => {
  it("carries the example, the same and sound, behind the # of the address", async () => {
    const example = exampleSetup();
    const link = await toLink(example, `${ADDRESS}#old`);
    expect(link.startsWith(`${ADDRESS}#s=1.`)).toBe(true);
    expect(link).toMatch(/^[\w:/.#=-]+$/);
    const read = await fromLink(link);
    expect(read).toEqual({ ok: true, setup: example });
    expect(readSetup(read.ok && read.setup)).toMatchObject({ file: example });
  });

  it("of the example fits a QR code", async () => {
    expect((await toLink(exampleSetup(), ADDRESS)).length).toBeLessThan(QR_BYTES);
  });

  it("gives every setup back", async () => {
    await fc.assert(
      fc.asyncProperty(anySetup(8, 14), fc.string({ unit: "grapheme" }), async (s, name) => {
        const file = { ...blankSetup(name), ...s };
        expect(await fromLink(await toFragment(file))).toEqual({ ok: true, setup: file });
      }),
      { numRuns: 60 },
    );
  });

  it("survives blanks and line ends that a message puts in", async () => {
    const link = await toLink(exampleSetup(), ADDRESS);
    const broken = link.replace(/.{60}/g, "$&\r\n  ");
    expect((await fromLink(` ${broken}\n`)).ok).toBe(true);
  });

  it("is told from other addresses", async () => {
    expect(carriesSetup(await toFragment(blankSetup()))).toBe(true);
    for (const text of ["", ADDRESS, "#patch", "s=1.x"]) expect(carriesSetup(text)).toBe(false);
  });
});

describe("a link that is no good", () => {
  it("is refused in clear words wherever it is cut off", async () => {
    const link = await toLink(exampleSetup(), ADDRESS);
    for (let length = 0; length < link.length; length += 37) {
      expect(await says(link.slice(0, length)), String(length)).toMatch(/cut off/);
    }
    expect(await says(link.slice(0, -1))).toMatch(/^The link was cut off: \d+ of \d+ characters arrived\./);
  });

  it("is refused wherever one letter is altered, added or two are exchanged", async () => {
    const fragment = await toFragment(exampleSetup());
    await fc.assert(
      fc.asyncProperty(
        fc.nat(fragment.length - 1),
        fc.constantFrom("A", "q", "-", "_", "7"),
        async (at, letter) => {
          fc.pre(at > 4 && fragment[at] !== letter);
          const altered = fragment.slice(0, at) + letter + fragment.slice(at + 1);
          expect(await says(altered)).toMatch(/altered|cut off/);
          expect(await says(`${fragment}${letter}`)).toMatch(/altered/);
        },
      ),
      { numRuns: 200 },
    );
  });

  it("of a newer version says so", async () => {
    expect(await says("#s=2.whatever.comes")).toMatch(/newer version/);
    expect(await says("#s=123456.")).toMatch(/newer version/);
    expect(await says("#s=0.1.1.x")).toMatch(/altered/);
  });

  it("without a setup, or far too long, is refused", async () => {
    expect(await says(ADDRESS)).toMatch(/no setup in this link/);
    expect(await says(`#s=1.${"A".repeat(LINK_LIMITS.text)}`)).toBe(
      "The link has 200,005 characters. Allowed: 200,000. Nothing was read.",
    );
  });

  it("that fits its checksum but is no setup is refused", async () => {
    for (const data of ["", "A", "!!!!", "____", "AAAAAAAA"]) expect(await says(forged(data))).not.toBe("");
    for (const content of ["", "not json", "{", Buffer.from([0xff, 0xfe, 0x00]), "[".repeat(100_000)])
      expect(await says(packed(content))).toMatch(/can’t be read/);
    const half = deflateRawSync(JSON.stringify(exampleSetup())).subarray(0, 500).toString("base64url");
    expect(await says(forged(half))).toMatch(/can’t be read/);
  });

  it("that expands to 100 MB is stopped at 4 MB, without the memory", async () => {
    const bomb = packed(Buffer.alloc(100_000_000, "a"));
    expect(bomb.length).toBeLessThan(LINK_LIMITS.text);
    const before = process.memoryUsage();
    expect(await says(bomb)).toMatch(/expands to more than 4 MB/);
    const after = process.memoryUsage();
    expect(after.rss - before.rss).toBeLessThan(60e6);
  });

  it("of JSON within the limit is read", async () => {
    const read = await fromLink(packed(JSON.stringify(["a".repeat(3_900_000)])));
    expect(read.ok).toBe(true);
  });

  it("of any text is refused or read, never thrown", async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: "binary" }), fc.base64String(), async (text, data) => {
        for (const link of [text, `#s=1.${text}`, forged(data)]) {
          const read = await fromLink(link);
          if (!read.ok) expect(read.why).toMatch(/\.$/);
        }
      }),
      { numRuns: 300 },
    );
  });
});
