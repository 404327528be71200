/** A standard or text that a figure or a form of the app rests on, and what of it is used. */
export interface SourceText {
  readonly text: string;
  readonly used: string;
}

const FIGURES: readonly SourceText[] = [
  {
    text: "W3C Web Audio API 1.1, StereoPannerNode",
    used: "sin/cos pan law, pan of stereo channels",
  },
  {
    text: "MMA/AMEI RP-036, default pan formula",
    used: "pan in 0–127: 64 is the centre, the mirror is 128 − n",
  },
  { text: "Pulkki, JAES 45(6) 1997", used: "tangent law, for loudspeakers" },
  {
    text: "Mills, JASA 32, 1960 (abstract)",
    used: "level differences under about 1 dB are heard in the middle",
  },
  {
    text: "IEC 61672-1:2013, tables 3 and 4 (as transcribed in open libraries)",
    used: "F and S time weighting",
  },
  { text: "ITU-R BS.1770 (as quoted in open texts)", used: "true peak by four times oversampling" },
  { text: "EBU Tech 3341 (as quoted in open test suites)", used: "check signals for true peak" },
  { text: "AES17 and IEC 61606 (as quoted in glossaries)", used: "0 dBFS rms as a full-scale sine" },
  { text: "EBU R 68-2000, SMPTE RP 155 (secondary texts)", used: "what 0 dBFS is in dBu" },
  {
    text: "NIOSH 98-126, 1998 (formula in a secondary copy)",
    used: "time at a level: 85 dBA for 8 h, halved every 3 dB",
  },
  { text: "OSHA, 29 CFR 1910.95, table G-16", used: "the contrast: 90 dBA for 8 h, halved every 5 dB" },
  { text: "Directive 2003/10/EC, article 3", used: "European action and limit values" },
  { text: "A published acoustics training note", used: "rounded tables for adding levels, as a check" },
];

const FORMS: readonly SourceText[] = [
  {
    text: "EBU Tech 3285 (Broadcast Wave) and the RIFF/WAVE form it builds on (from memory)",
    used: "WAV files: chunks, integer and float samples, the extensible form",
  },
  {
    text: "EBU Tech 3306 and ITU-R BS.2088 (RF64, BW64; from memory)",
    used: "WAV files of more than 4 GB: the table of 64-bit lengths",
  },
  { text: "RFC 8259 (JSON)", used: "setup files and backups" },
  { text: "RFC 4180 (CSV)", used: "lists from and to spreadsheets, with other delimiters too" },
  { text: "RFC 1951 (Deflate), RFC 4648 (base64url)", used: "share links" },
  {
    text: "FNV-1a, IETF draft-eastlake-fnv",
    used: "checksum of share links: finds typing errors, no forgery",
  },
  { text: "ISO/IEC 18004, table 7", used: "how much a QR code holds" },
  {
    text: "W3C Media Capture and Streams, Web Audio API 1.1: AudioWorklet (from memory)",
    used: "an audio input with two channels, nothing done to them by the system",
  },
  { text: "W3C Content Security Policy 3, Trusted Types", used: "nothing from outside runs as a script" },
  { text: "W3C WCAG 2.2, level AA", used: "contrast, size of what is pressed, use by keyboard" },
];

/** Every source by what rests on it. */
export const SOURCES: readonly { readonly title: string; readonly texts: readonly SourceText[] }[] = [
  { title: "What the figures rest on", texts: FIGURES },
  { title: "What files, links and the page follow", texts: FORMS },
];
