/** Slices of a file that are read one after the other. */
export interface Slices {
  /**
   * Reads bytes; fewer where the file has become shorter. Rejects when it has gone or may not be read. The slice
   * before it must have been read whole.
   */
  readonly read: (at: number, length: number) => Promise<Uint8Array<ArrayBuffer>>;
  /** Gives the memory of a slice back for the next one; its bytes must not be looked at any more. */
  readonly giveBack: (slice: Uint8Array<ArrayBuffer>) => void;
  /** Lets go of the file. */
  readonly close: () => void;
}

/** A stream of a file, and how far it was read. */
interface Opened {
  readonly reader: ReadableStreamBYOBReader;
  at: number;
}

/** A reader that fills memory which it is given; null where the browser has none for files. */
const openAt = (file: Blob, at: number): Opened | null => {
  try {
    return { reader: file.slice(at, file.size).stream().getReader({ mode: "byob" }), at };
  } catch {
    return null;
  }
};

/** Fills memory, which goes from hand to hand meanwhile, up to the length or the end. */
const fill = async (
  opened: Opened,
  memory: ArrayBuffer,
  length: number,
): Promise<Uint8Array<ArrayBuffer>> => {
  let buffer = memory;
  let got = 0;
  while (got < length) {
    const { done, value } = await opened.reader.read(new Uint8Array(buffer, got, length - got));
    if (value) {
      buffer = value.buffer;
      got += value.byteLength;
    }
    if (done) break;
  }
  opened.at += got;
  return new Uint8Array(buffer, 0, got);
};

/**
 * Slices of a file. One stream is read on and on: to begin anew takes a browser some milliseconds, however short the
 * slice. And it fills memory that is used again: what a browser reads into new memory it collects so late that it
 * becomes several times what is in use.
 */
export const slicesOf = (file: Blob): Slices => {
  const spare: ArrayBuffer[] = [];
  let opened: Opened | null = null;
  const close = (): void => {
    // A stream that has failed already has said so to whoever read it.
    opened?.reader.cancel().catch(() => undefined);
    opened = null;
  };
  return {
    read: async (at, length) => {
      if (opened?.at !== at) {
        close();
        opened = openAt(file, at);
      }
      if (!opened) return new Uint8Array(await file.slice(at, at + length).arrayBuffer());
      const memory = spare.pop();
      return fill(opened, memory && memory.byteLength >= length ? memory : new ArrayBuffer(length), length);
    },
    giveBack: ({ buffer }) => {
      spare.push(buffer);
    },
    close,
  };
};
