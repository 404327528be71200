/*
 * EBU Tech 3341 (Loudness metering: "EBU Mode" metering), Table 1, minimum requirements test signals 15–23:
 * maximum true-peak level, stereo at 48 kHz, with 10 ms fades in and out. Definitions, targets and tolerance as
 * quoted alike by several open test suites; the document itself was not read. Targets print one digit.
 */

/** As it is named in About. */
export const SOURCE = "EBU Tech 3341";

/** Lowest and highest deviation allowed, dB. */
export const TRUE_PEAK_TOLERANCE = [-0.4, 0.2] as const;

/** A steady sine: case, frequency as a part of the rate, amplitude of full scale, phase in degrees, target dBTP. */
export const SINES = [
  [15, 4, 0.5, 0, -6.0],
  [16, 4, 0.5, 45, -6.0],
  [17, 6, 0.5, 60, -6.0],
  [18, 8, 0.5, 67.5, -6.0],
  // Amplitude 1.41, not √2.
  [19, 4, 1.41, 45, 3.0],
] as const;

/**
 * A sine of fs/6 at 0.5 that holds one period of fs/4 at 1.0, made at four times the rate and brought down by taking
 * every fourth sample after a low-pass, from this one on: case, offset, target dBTP.
 */
export const BURSTS = [
  [20, 0, 0.0],
  [21, 1, 0.0],
  [22, 2, 0.0],
  [23, 3, 0.0],
] as const;
