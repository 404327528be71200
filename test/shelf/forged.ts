import { deflateRawSync } from "node:zlib";

/** A link's fragment as whoever means harm would make it: any data, with the checksum that fits. */
export const forged = (data: string): string => {
  let hash = 0x811c9dc5;
  for (const letter of data) hash = Math.imul(hash ^ letter.charCodeAt(0), 0x01000193);
  return `#s=1.${data.length.toString(36)}.${(hash >>> 0).toString(36)}.${data}`;
};

/** A forged fragment of any content, packed as a setup is. */
export const packed = (content: string | Buffer): string =>
  forged(deflateRawSync(content, { level: 9 }).toString("base64url"));
