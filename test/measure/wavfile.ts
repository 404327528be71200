/** What a test wants in a WAV file; anything left out is plain 48 kHz, 24 bits. */
export interface WavPlan {
  rate?: number;
  coding?: "integer" | "float";
  width?: 2 | 3 | 4 | 8;
  /** Bits said to be used. */
  bits?: number;
  extensible?: boolean;
  form?: "RIFF" | "RF64" | "BW64";
  /** Length written into the data chunk; the true one without. */
  saidLength?: number;
  /** Chunks before fmt, between fmt and data, and behind data. */
  before?: readonly [id: string, content: Uint8Array][];
  between?: readonly [id: string, content: Uint8Array][];
  behind?: readonly [id: string, content: Uint8Array][];
}

const ascii = (text: string): Uint8Array => Uint8Array.from(text, (c) => c.charCodeAt(0));

/** A chunk with its padding. */
export const chunk = (id: string, content: Uint8Array, said = content.length): Uint8Array => {
  const out = new Uint8Array(8 + content.length + (content.length % 2));
  out.set(ascii(id));
  new DataView(out.buffer).setUint32(4, said, true);
  out.set(content, 8);
  return out;
};

const join = (...parts: readonly Uint8Array[]): Uint8Array => {
  const out = new Uint8Array(parts.reduce((sum, p) => sum + p.length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
};

const fmt = (
  plan: Required<Pick<WavPlan, "rate" | "coding" | "width" | "bits" | "extensible">>,
  channels: number,
): Uint8Array => {
  const out = new Uint8Array(plan.extensible ? 40 : 16);
  const data = new DataView(out.buffer);
  const tag = plan.coding === "float" ? 3 : 1;
  data.setUint16(0, plan.extensible ? 0xfffe : tag, true);
  data.setUint16(2, channels, true);
  data.setUint32(4, plan.rate, true);
  data.setUint32(8, plan.rate * channels * plan.width, true);
  data.setUint16(12, channels * plan.width, true);
  data.setUint16(14, plan.extensible ? plan.width * 8 : plan.bits, true);
  if (plan.extensible) {
    data.setUint16(16, 22, true);
    data.setUint16(18, plan.bits, true);
    data.setUint16(24, tag, true);
    // The rest of the sub-format of WAVE_FORMAT_EXTENSIBLE: {…-0000-0010-8000-00AA00389B71}.
    out.set([0, 0, 0, 0, 0x10, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71], 26);
  }
  return out;
};

const put = (data: DataView, at: number, value: number, coding: string, width: number): void => {
  if (coding === "float") {
    if (width === 4) data.setFloat32(at, value, true);
    else data.setFloat64(at, value, true);
    return;
  }
  const full = 2 ** (width * 8 - 1);
  const whole = Math.max(-full, Math.min(full - 1, Math.round(value * full)));
  if (width === 2) data.setInt16(at, whole, true);
  else if (width === 4) data.setInt32(at, whole, true);
  else {
    data.setUint8(at, whole & 255);
    data.setInt16(at + 1, whole >> 8, true);
  }
};

/** Samples of all channels, frame by frame, as they lie in a data chunk. */
export const pack = (
  channels: readonly ArrayLike<number>[],
  coding: "integer" | "float",
  width: number,
): Uint8Array => {
  const frames = channels[0]?.length ?? 0;
  const out = new Uint8Array(frames * channels.length * width);
  const data = new DataView(out.buffer);
  for (let i = 0; i < frames; i += 1)
    channels.forEach((channel, c) => {
      put(data, (i * channels.length + c) * width, channel[i] ?? 0, coding, width);
    });
  return out;
};

/** A ds64 chunk's content (EBU Tech 3306): sizes of the file and of the data, frames, an empty table. */
const ds64 = (dataLength: number, frames: number): Uint8Array => {
  const out = new Uint8Array(28);
  const data = new DataView(out.buffer);
  data.setBigUint64(8, BigInt(dataLength), true);
  data.setBigUint64(16, BigInt(frames), true);
  return out;
};

/** The bytes of a WAV file. */
export const wavFile = (
  channels: readonly ArrayLike<number>[],
  plan: WavPlan = {},
): Uint8Array<ArrayBuffer> => {
  const { rate = 48_000, coding = "integer", extensible = false, form = "RIFF" } = plan;
  const width = plan.width ?? (coding === "float" ? 4 : 3);
  const bits = plan.bits ?? width * 8;
  const data = pack(channels, coding, width);
  const said = plan.saidLength ?? (form === "RIFF" ? data.length : 0xffffffff);
  const body = join(
    ...(form === "RIFF" ? [] : [chunk("ds64", ds64(data.length, channels[0]?.length ?? 0))]),
    ...(plan.before ?? []).map(([id, content]) => chunk(id, content)),
    chunk("fmt ", fmt({ rate, coding, width, bits, extensible }, channels.length)),
    ...(plan.between ?? []).map(([id, content]) => chunk(id, content)),
    chunk("data", data, said),
    ...(plan.behind ?? []).map(([id, content]) => chunk(id, content)),
  );
  const head = new Uint8Array(12);
  head.set(ascii(form));
  new DataView(head.buffer).setUint32(4, form === "RIFF" ? body.length + 4 : 0xffffffff, true);
  head.set(ascii("WAVE"), 8);
  const file = join(head, body) as Uint8Array<ArrayBuffer>;
  // The 64-bit length of the whole, first in ds64.
  if (form !== "RIFF") new DataView(file.buffer).setBigUint64(20, BigInt(file.length - 8), true);
  return file;
};

/** A bext chunk's content (EBU Tech 3285) with a time reference. */
export const bext = (frames: number, extra = 0): Uint8Array => {
  const out = new Uint8Array(602 + extra);
  new DataView(out.buffer).setBigUint64(338, BigInt(frames), true);
  return out;
};
