import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { withFolder } from "./harness";

/** One printed page as an image: rows of grey values, 0 black to 255 white. */
export interface Scan {
  readonly width: number;
  readonly height: number;
  readonly dpi: number;
  readonly grey: (x: number, y: number) => number;
}

/** A word on a page and where it stands, in points from the upper left. */
export interface Word {
  readonly page: number;
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Points of an inch, and of a millimetre. */
export const INCH = 72;
export const MM = INCH / 25.4;

const scanOf = (pgm: Buffer, dpi: number): Scan => {
  const [head = "", width, height] = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(pgm.toString("latin1", 0, 40)) ?? [];
  const [w, h] = [Number(width), Number(height)];
  if (pgm.length !== head.length + w * h) throw new Error("no grey image");
  return { width: w, height: h, dpi, grey: (x, y) => pgm[head.length + y * w + x] ?? Number.NaN };
};

/** A PDF's first page as a printer would lay it down. */
export const scanned = (pdf: Buffer, dpi: number): Scan =>
  scanOf(
    execFileSync("pdftoppm", ["-r", String(dpi), "-gray", "-f", "1", "-l", "1", "-"], {
      input: pdf,
      maxBuffer: 1e8,
    }),
    dpi,
  );

/** Every word of a PDF in its place. */
export const wordsOf = (pdf: Buffer): readonly Word[] => {
  const xml = execFileSync("pdftotext", ["-bbox", "-", "-"], { input: pdf, encoding: "utf8" });
  return xml.split("<page ").flatMap((part, page) =>
    [...part.matchAll(/<word xMin="(.*?)" yMin="(.*?)" xMax="(.*?)" yMax="(.*?)">(.*?)<\/word>/g)].map(
      ([, left, top, right, bottom, text = ""]) => ({
        page,
        text,
        left: Number(left),
        top: Number(top),
        right: Number(right),
        bottom: Number(bottom),
      }),
    ),
  );
};

/** The words as they are read, one after the other. */
export const textOf = (pdf: Buffer): string =>
  execFileSync("pdftotext", ["-layout", "-", "-"], { input: pdf, encoding: "utf8" });

/** What a reader that knows nothing of this project finds in a picture of a QR code. */
export const readQr = (png: Buffer): Promise<string> =>
  withFolder(async (folder) => {
    const picture = join(folder, "code.png");
    writeFileSync(picture, png);
    const args = ["--raw", "-q", "-Sdisable", "-Sqrcode.enable", picture];
    return execFileSync("zbarimg", args, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }).trim();
  });

/** A picture as a camera has it from far away: so many pixels wide and blurred, px. */
export const fromAfar = async (page: Page, png: Buffer, width: number, blur: number): Promise<Buffer> => {
  const data = await page.evaluate(
    async ([source, wide, radius]) => {
      const bytes = Uint8Array.from(atob(source), (c) => c.charCodeAt(0));
      const picture = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
      const canvas = document.createElement("canvas");
      canvas.width = wide;
      canvas.height = Math.round((picture.height * wide) / picture.width);
      const context = canvas.getContext("2d") as CanvasRenderingContext2D;
      context.imageSmoothingQuality = "high";
      context.filter = `blur(${radius}px)`;
      context.drawImage(picture, 0, 0, canvas.width, canvas.height);
      return canvas.toDataURL("image/png").split(",")[1] ?? "";
    },
    [png.toString("base64"), width, blur] as const,
  );
  return Buffer.from(data, "base64");
};
