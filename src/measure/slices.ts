/** Slices of a file that are read one after the other. */
export interface Slices {
  /** Reads bytes that exist. Rejects when the file has gone or may not be read. */
  readonly read: (at: number, length: number) => Promise<Uint8Array<ArrayBuffer>>;
  /** Gives the memory of a slice back for the next one; its bytes must not be looked at any more. */
  readonly giveBack: (slice: Uint8Array<ArrayBuffer>) => void;
}

/** A reader that fills memory which it is given; null where the browser has none for files. */
const byteReader = (part: Blob): ReadableStreamBYOBReader | null => {
  try {
    return part.stream().getReader({ mode: "byob" });
  } catch {
    return null;
  }
};

/** Fills memory, which goes from hand to hand meanwhile, up to the length or the end. */
const fill = async (
  reader: ReadableStreamBYOBReader,
  memory: ArrayBuffer,
  length: number,
): Promise<Uint8Array<ArrayBuffer>> => {
  let buffer = memory;
  let got = 0;
  while (got < length) {
    const { done, value } = await reader.read(new Uint8Array(buffer, got, length - got));
    if (value) {
      buffer = value.buffer;
      got += value.byteLength;
    }
    if (done) break;
  }
  reader.releaseLock();
  return new Uint8Array(buffer, 0, got);
};

/**
 * Slices of a file, read into memory that is used again: what a browser reads into new memory it collects so late
 * that it becomes several times what is in use.
 */
export const slicesOf = (file: Blob): Slices => {
  const spare: ArrayBuffer[] = [];
  return {
    read: async (at, length) => {
      const part = file.slice(at, at + length);
      const reader = byteReader(part);
      if (!reader) return new Uint8Array(await part.arrayBuffer());
      const memory = spare.pop();
      return fill(reader, memory && memory.byteLength >= length ? memory : new ArrayBuffer(length), length);
    },
    giveBack: ({ buffer }) => {
      spare.push(buffer);
    },
  };
};
