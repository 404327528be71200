import { describe, expect, it } from "vitest";
import { slicesOf } from "../../src/measure/slices";

const content = Uint8Array.from({ length: 200_000 }, (_, i) => (i * 31) % 251);
const file = new Blob([content]);

/** A file whose browser cannot fill memory that it is given. */
const plain = {
  size: file.size,
  slice: (from: number, to: number) => ({ arrayBuffer: () => file.slice(from, to).arrayBuffer() }),
} as unknown as Blob;

describe("slices of a file", () => {
  it.each([
    ["read into given memory", file],
    ["read into new memory, where the browser knows no other way", plain],
  ])("%s: the very bytes, from the beginning of a buffer", async (_, from) => {
    const slices = slicesOf(from);
    for (const [at, length] of [
      [0, 100_000],
      [77, 65_537],
      [199_990, 10],
      [5, 150_000],
    ] as const) {
      const got = await slices.read(at, length);
      expect(got.byteOffset).toBe(0);
      expect(Buffer.from(got).equals(Buffer.from(content.subarray(at, at + length)))).toBe(true);
      slices.giveBack(got);
    }
  });

  it("two at once do not share memory; what was given back is used again, where it is long enough", async () => {
    const given: ArrayBufferLike[] = [];
    /** What memory the reader is given, seen by its length. */
    const watched = {
      slice: (from: number, to: number) => ({
        stream: () => ({
          getReader: () => ({
            read: async (view: Uint8Array<ArrayBuffer>) => {
              given.push(view.buffer);
              view.set(content.subarray(from, to).subarray(0, view.length));
              return { done: false, value: view };
            },
            releaseLock: () => undefined,
          }),
        }),
      }),
    } as unknown as Blob;
    const slices = slicesOf(watched);
    const [a, b] = await Promise.all([slices.read(0, 1000), slices.read(1000, 1000)]);
    expect(given[0]).not.toBe(given[1]);
    expect(Buffer.from(a).equals(Buffer.from(content.subarray(0, 1000)))).toBe(true);
    slices.giveBack(a);
    const c = await slices.read(2000, 900);
    expect(given[2]).toBe(given[0]);
    expect(c.length).toBe(900);
    slices.giveBack(b);
    await slices.read(0, 2000);
    expect(given[3]?.byteLength).toBe(2000);
  });

  it("a file that has gone rejects", async () => {
    const gone = {
      slice: () => ({
        stream: () =>
          new ReadableStream({
            type: "bytes",
            pull: () => Promise.reject(new DOMException("gone", "NotReadableError")),
          }),
      }),
    } as unknown as Blob;
    await expect(slicesOf(gone).read(0, 10)).rejects.toThrow("gone");
  });

  it("a file that became shorter gives what is there", async () => {
    expect((await slicesOf(file).read(199_000, 5000)).length).toBe(1000);
  });
});
