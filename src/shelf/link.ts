import { type Result, refused } from "../core/lib/result";

/** Version of the link's own form; the setup in it has its own. */
const VERSION = 1;
/** What a link may be: more is refused unread. */
export const LINK_LIMITS = {
  /** Characters of the whole text. */
  text: 200_000,
  /** Bytes that are packed into it: four characters carry three, and there must be room for an address before them. */
  packed: 147_000,
  /** Bytes of the setup that it expands to. */
  expanded: 4_000_000,
} as const;

/** What a link carries, unchecked and not stored, or why it carries nothing. */
export type LinkRead = Result<{ setup: unknown }>;

const ASK = "Ask for it again, or for the setup file.";
const ALTERED = refused(`The link was altered on its way: it no longer fits its checksum. ${ASK}`);

/** FNV-1a, 32 bits, over the characters: finds slips of a copy, no forgery. G. Fowler, L. C. Noll, P. Vo, IETF draft-eastlake-fnv. */
export const checksum = (text: string): string => {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return (hash >>> 0).toString(36);
};

const toBase64Url = (bytes: Uint8Array): string => {
  let text = "";
  for (const byte of bytes) text += String.fromCharCode(byte);
  return btoa(text).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
};

const fromBase64Url = (text: string): Uint8Array<ArrayBuffer> =>
  Uint8Array.from(atob(text.replaceAll("-", "+").replaceAll("_", "/")), (c) => c.charCodeAt(0));

/**
 * What a stream gives, as one piece.
 * @returns null as soon as it is more than `most` bytes: the rest is never made
 */
const collect = async (stream: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array | null> => {
  const reader = stream.getReader();
  const pieces: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) {
      await reader.cancel();
      return null;
    }
    pieces.push(value);
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
};

const through = (bytes: Uint8Array<ArrayBuffer>, by: GenericTransformStream): ReadableStream<Uint8Array> =>
  new Blob([bytes]).stream().pipeThrough(by);

/**
 * A setup, a desk by itself, or what goes to a helper and back, in the part of a link after #, which no browser sends to a server:
 * `#s=<version>.<characters of data>.<checksum>.<data>`, numbers in base 36,
 * data being its JSON, deflated (RFC 1951), in base64url (RFC 4648).
 * @throws Error when it is too large for a link
 */
export const toFragment = async (file: object): Promise<string> => {
  const json = new TextEncoder().encode(JSON.stringify(file));
  const packed =
    json.length > LINK_LIMITS.expanded
      ? null
      : await collect(through(json, new CompressionStream("deflate-raw")), LINK_LIMITS.packed);
  if (!packed) throw new Error("this setup is too large for a link");
  const data = toBase64Url(packed);
  return `#s=${VERSION}.${data.length.toString(36)}.${checksum(data)}.${data}`;
};

/** A whole link to an app's address with a setup or a desk in it. */
export const toLink = async (file: object, address: string): Promise<string> =>
  `${address.replace(/#.*$/s, "")}${await toFragment(file)}`;

const unpack = async (data: string): Promise<LinkRead> => {
  const bytes = fromBase64Url(data);
  const json = await collect(through(bytes, new DecompressionStream("deflate-raw")), LINK_LIMITS.expanded);
  if (json === null)
    return refused(
      `The link expands to more than ${LINK_LIMITS.expanded / 1e6} MB, which no setup needs. Nothing was read.`,
    );
  return { ok: true, setup: JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(json)) };
};

/**
 * What a link or its fragment carries. Blanks and line ends that a message put in are left out. Nothing is stored;
 * what comes back is unchecked and goes to `readThing`.
 */
export const fromLink = async (text: string): Promise<LinkRead> => {
  if (text.length > LINK_LIMITS.text)
    return refused(
      `The link has ${text.length.toLocaleString("en-GB")} characters. Allowed: ${LINK_LIMITS.text.toLocaleString("en-GB")}. Nothing was read.`,
    );
  const [, version, rest = ""] = /#s=(\d{1,9})\.(.*)$/s.exec(text.replace(/\s/g, "")) ?? [];
  if (version === undefined)
    return refused(`There is no setup in this link, or it was cut off at its beginning. ${ASK}`);
  if (Number(version) > VERSION)
    return refused(
      "The link was made by a newer version of this app. Update the app, then open the link again.",
    );
  if (Number(version) < 1) return ALTERED;
  const [, length, bus, data = ""] = /^([0-9a-z]{1,6})\.([0-9a-z]{1,7})\.(.*)$/.exec(rest) ?? [];
  if (length === undefined) return refused(`The link was cut off: nothing of the setup arrived. ${ASK}`);
  const whole = Number.parseInt(length, 36);
  if (data.length < whole)
    return refused(`The link was cut off: ${data.length} of ${whole} characters arrived. ${ASK}`);
  if (data.length > whole || bus !== checksum(data)) return ALTERED;
  try {
    return await unpack(data);
  } catch {
    // Whoever made it fit its checksum did not put a setup in.
    return refused(`What the link carries can’t be read: it is not a setup. ${ASK}`);
  }
};
