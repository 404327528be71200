import { describe, expect, it } from "vitest";
import { exampleSetup } from "../../src/document/example";
import { toLink } from "../../src/shelf/link";
import { QR_BYTES, type QrCode, qrOf } from "../../src/shelf/qr";

const modulesOf = (code: QrCode): readonly (readonly boolean[])[] => (code.ok ? code.modules : []);

describe("a QR code", () => {
  // ISO/IEC 18004: version n has 4n + 17 modules a side, and finder patterns of 7 in three corners.
  it("is a square of a size that the standard has, with its three finder patterns", async () => {
    const modules = modulesOf(await qrOf("https://example.org/#s=1.a.b.c"));
    const size = modules.length;
    expect((size - 17) % 4).toBe(0);
    for (const row of modules) expect(row).toHaveLength(size);
    const corner = (x: number, y: number) =>
      Array.from({ length: 7 }, (_, i) => Array.from({ length: 7 }, (_, k) => modules[y + i]?.[x + k]));
    const finder = Array.from({ length: 7 }, (_, i) =>
      Array.from({ length: 7 }, (_, k) => {
        const ring = Math.max(Math.abs(i - 3), Math.abs(k - 3));
        return ring !== 2;
      }),
    );
    for (const [x, y] of [
      [0, 0],
      [size - 7, 0],
      [0, size - 7],
    ] as const)
      expect(corner(x, y)).toEqual(finder);
  });

  it("holds the example's link", async () => {
    const code = await qrOf(await toLink(exampleSetup(), "https://example.org/hatside/"));
    expect(code).toMatchObject({ ok: true, dense: true });
    expect(modulesOf(code).length).toBeLessThanOrEqual(177);
  });

  it("fits up to the standard's last byte and says when not", async () => {
    expect(modulesOf(await qrOf("x".repeat(QR_BYTES)))).toHaveLength(177);
    expect(await qrOf("x".repeat(QR_BYTES + 1))).toEqual({
      ok: false,
      why: "The link has 2,954 characters; a QR code holds 2,953. Share the link or the setup file instead.",
    });
    expect((await qrOf("ü".repeat(1500))).ok).toBe(false);
  });
});
