import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { handOver } from "../../src/document/hand-over";
import { fromLink, toLink } from "../../src/shelf/link";
import { inParts, joined, type LinkPart, partOf } from "../../src/shelf/link-parts";
import { SMALL_QR_BYTES, smallQrOf } from "../../src/shelf/qr";

const ADDRESS = "https://hall.example.org/hatside/";
const AT = "2031-05-04T18:00:00.000Z";
const made = toLink(handOver(exampleSetup(), "a1b2c3d4", AT), ADDRESS);
const partsOf = (parts: readonly string[]): LinkPart[] =>
  parts.map((part) => {
    const read = partOf(part);
    if (!read) throw new Error(`no part: ${part}`);
    return read;
  });

describe("a link in parts", () => {
  it("is the link again, in whatever order they come and however often", async () => {
    const link = await made;
    fc.assert(
      fc.property(fc.integer({ min: 80, max: 400 }), fc.infiniteStream(fc.nat()), (most, chance) => {
        const parts = inParts(link, most);
        for (const part of parts) expect(part.length).toBeLessThanOrEqual(most);
        const shuffled = [...parts, ...parts.slice(0, 2)]
          .map((part) => ({ part, at: chance.next().value ?? 0 }))
          .sort((a, b) => a.at - b.at)
          .map(({ part }) => part);
        const whole = parts.length === 1 ? parts[0] : ADDRESS + joined(partsOf(shuffled));
        expect(whole).toBe(link);
      }),
    );
    expect((await fromLink(joined(partsOf(inParts(link, 200))) ?? "")).ok).toBe(true);
  });

  it("is none while one is missing, and a short link stays whole", async () => {
    const parts = partsOf(inParts(await made, SMALL_QR_BYTES));
    expect(parts.length).toBeGreaterThan(1);
    for (const left of parts) expect(joined(parts.filter((part) => part !== left))).toBeNull();
    expect(joined([])).toBeNull();
    expect(inParts("https://example.org/#s=1.a.b.c", 100)).toHaveLength(1);
    expect(partOf(await made)).toBeNull();
    expect(partOf("#s=2.31.abc.data")).toBeNull();
    expect(partOf("#s=2.01.abc.data")).toBeNull();
  });

  it("is too long for codes rather than too many of them", async () => {
    expect(inParts(await made, 60)).toEqual([]);
    expect(inParts(`${ADDRESS}#s=1.${"x".repeat(9000)}`, SMALL_QR_BYTES)).toEqual([]);
  });
});

it("the example’s hand-over takes a few codes of 57 modules at most", async () => {
  const parts = inParts(await made, SMALL_QR_BYTES);
  expect(parts.length).toBeLessThanOrEqual(6);
  for (const part of parts) expect((await smallQrOf(part)).length).toBeLessThanOrEqual(57);
  expect(await smallQrOf("x".repeat(SMALL_QR_BYTES))).toHaveLength(57);
  await expect(smallQrOf("x".repeat(SMALL_QR_BYTES + 1))).rejects.toThrow();
});
