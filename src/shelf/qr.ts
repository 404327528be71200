import { type Result, refused } from "../core/lib/result";
/** A QR code, or why there is none. */
export type QrCode = Result<{
  /** Rows of modules, true is dark; without the quiet zone, which has to be four modules wide. */
  modules: readonly (readonly boolean[])[];
  /** So many modules that a telephone has to be held still and close. */
  dense: boolean;
}>;

/** Bytes that the largest code holds at the lowest correction. ISO/IEC 18004, table 7, version 40-L. */
export const QR_BYTES = 2953;
/** Modules each side from which a code is dense: version 25. A design choice. */
const DENSE = 117;

/** A text, such as a share link, as a QR code with the lowest correction: it is shown on a screen, where nothing is torn or stained. */
export const qrOf = async (text: string): Promise<QrCode> => {
  const bytes = new TextEncoder().encode(text).length;
  if (bytes > QR_BYTES)
    return refused(
      `The link has ${bytes.toLocaleString("en-GB")} characters; a QR code holds ${QR_BYTES.toLocaleString("en-GB")}. Share the link or the setup file instead.`,
    );
  const { encode } = await import("uqr");
  const { data, size } = encode(text, { ecc: "L", boostEcc: true, border: 0 });
  return { ok: true, modules: data, dense: size >= DENSE };
};

/** Bytes that a code of 57 modules a side holds, at a correction of 15 %. ISO/IEC 18004, table 7, version 10-M. */
export const SMALL_QR_BYTES = 213;

/**
 * A short text as a code that a camera reads at arm’s length.
 * @returns rows of modules, as of `qrOf`
 */
export const smallQrOf = async (text: string): Promise<readonly (readonly boolean[])[]> => {
  const { encode } = await import("uqr");
  return encode(text, { ecc: "M", boostEcc: true, maxVersion: 10, border: 0 }).data;
};
