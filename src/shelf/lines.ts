/** A line of a file; null: too long to be read. */
export interface Line {
  readonly text: string | null;
  /** Its length in bytes. */
  readonly size: number;
}

const NEW_LINE = 10;

/** To a tenth, a begun one counted: what is over the limit never prints as the limit. */
const megabytes = (bytes: number): string => (Math.ceil((10 * bytes) / 2 ** 20) / 10).toFixed(1);

/** Why something is not read for its size, both in bytes. */
export const tooLarge = (size: number, most: number): string =>
  `${megabytes(size)} MB is too large. Allowed: up to ${megabytes(most)} MB.`;

/**
 * The lines of a file that are not empty, one after the other, so that a file larger than any text can be is read. Rejects with a
 * TypeError where a line is no UTF-8.
 * @param most longest line, bytes; of a longer one nothing is kept
 */
export async function* textLines(file: Blob, most: number): AsyncGenerator<Line> {
  let parts: Uint8Array<ArrayBuffer>[] = [];
  let size = 0;
  const add = (part: Uint8Array<ArrayBuffer>): void => {
    size += part.length;
    if (size > most) parts = [];
    else parts.push(part);
  };
  const end = async (): Promise<Line> => {
    const decoder = new TextDecoder("utf-8", { fatal: true });
    const text = size > most ? null : decoder.decode(await new Blob(parts).arrayBuffer());
    const line = { text, size };
    parts = [];
    size = 0;
    return line;
  };
  const reader = (file.stream() as ReadableStream<Uint8Array<ArrayBuffer>>).getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    let from = 0;
    for (let at = value.indexOf(NEW_LINE); at >= 0; at = value.indexOf(NEW_LINE, from)) {
      add(value.subarray(from, at));
      if (size > 0) yield await end();
      from = at + 1;
    }
    add(value.subarray(from));
  }
  if (size > 0) yield await end();
}
