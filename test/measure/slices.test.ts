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
  ])("%s: the very bytes, on and on or from elsewhere, from the beginning of a buffer", async (_, from) => {
    const slices = slicesOf(from);
    for (const [at, length] of [
      [0, 100_000],
      [100_000, 77],
      [100_077, 65_537],
      [199_990, 10],
      [5, 150_000],
      [150_005, 1],
    ] as const) {
      const got = await slices.read(at, length);
      expect(got.byteOffset).toBe(0);
      expect(Buffer.from(got).equals(Buffer.from(content.subarray(at, at + length)))).toBe(true);
      slices.giveBack(got);
    }
    slices.close();
    expect((await slices.read(7, 2))[1]).toBe(content[8]);
    slices.close();
  });

  it("one stream is read on; another is opened only elsewhere, and the first is let go", async () => {
    const opened: number[] = [];
    let cancelled = 0;
    /** How much memory the reader is given at a time, and what it is told. */
    const given: ArrayBuffer[] = [];
    const watched = {
      size: file.size,
      slice: (from: number) => {
        let at = from;
        opened.push(from);
        const read = async (view: Uint8Array<ArrayBuffer>) => {
          given.push(view.buffer);
          // In two parts, as browsers give what is there.
          const length = Math.min(600, view.length);
          view.set(content.subarray(at, at + length));
          at += length;
          return { done: false, value: view.subarray(0, length) };
        };
        const cancel = async () => {
          cancelled += 1;
        };
        return { stream: () => ({ getReader: () => ({ read, cancel }) }) };
      },
    } as unknown as Blob;
    const slices = slicesOf(watched);
    const a = await slices.read(0, 1000);
    const b = await slices.read(1000, 1000);
    expect(opened).toEqual([0]);
    expect(b.buffer).not.toBe(a.buffer);
    expect(Buffer.from(a).equals(Buffer.from(content.subarray(0, 1000)))).toBe(true);
    slices.giveBack(a);
    // What was given back is used again where it is long enough.
    const c = await slices.read(2000, 900);
    expect(c.buffer).toBe(a.buffer);
    expect(Buffer.from(c).equals(Buffer.from(content.subarray(2000, 2900)))).toBe(true);
    slices.giveBack(b);
    expect((await slices.read(2900, 2000)).buffer.byteLength).toBe(2000);
    expect([opened, cancelled]).toEqual([[0], 0]);
    await slices.read(100, 10);
    expect([opened, cancelled]).toEqual([[0, 100], 1]);
    slices.close();
    expect(cancelled).toBe(2);
  });

  it("a file that has gone rejects", async () => {
    const gone = {
      size: 100,
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
