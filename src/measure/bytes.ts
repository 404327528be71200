/** Something that is read in slices, never as a whole: a file the user chose. */
export interface Bytes {
  readonly size: number;
  /** Reads bytes; fewer than asked for at the end. Rejects when the file has gone or may not be read. */
  readonly read: (at: number, length: number) => Promise<Uint8Array>;
}

/** A file or blob in slices. */
export const bytesOf = (blob: Blob): Bytes => ({
  size: blob.size,
  read: async (at, length) => new Uint8Array(await blob.slice(at, at + length).arrayBuffer()),
});
