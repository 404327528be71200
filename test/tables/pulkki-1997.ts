// biome-ignore-all lint/suspicious/noApproximativeNumericConstant: values as they were computed elsewhere.
/*
 * V. Pulkki, "Virtual Sound Source Positioning Using Vector Base Amplitude Panning", JAES 45(6) 1997, section 1.1:
 * tangent law tan φ / tan φ0 = (g1 − g2)/(g1 + g2), and vector base panning g = p·L⁻¹ scaled to constant power,
 * both at φ0 = 30°. Computed from the formulae at 40 digits; the level table and the positions are printed to
 * three and two digits.
 */

/** As it is named in About. */
export const SOURCE = "Pulkki, JAES 45(6) 1997";

/** Level difference of the legs, dB; angle by the tangent law, degrees, three digits. */
export const ANGLE_OF_DIFFERENCE: readonly (readonly [difference: number, angle: number])[] = [
  [0, 0.0],
  [1, 1.901],
  [2, 3.786],
  [3, 5.638],
  [4, 7.443],
  [5, 9.187],
  [6, 10.86],
  [7, 12.452],
  [8, 13.958],
  [9, 15.373],
  [10, 16.696],
  [12, 19.062],
  [14, 21.071],
  [15, 21.95],
  [16, 22.752],
  [18, 24.144],
  [20, 25.285],
  [24, 26.968],
  [30, 28.456],
  [40, 29.506],
];

/** Angle, degrees, positive to the right; left gain, right gain. */
export const BASE_GAINS: readonly (readonly [angle: number, left: number, right: number])[] = [
  [-30, 1, 0],
  [-25, 0.9943873924459224, 0.10580034850887339],
  [-20, 0.9752572900382835, 0.22107287989978158],
  [-15, 0.9390708015880442, 0.34372376933344034],
  [-10, 0.8828086963303381, 0.46973269599159156],
  [-5, 0.8050672370464846, 0.5931835667264723],
  [0, 0.7071067811865476, 0.7071067811865476],
  [5, 0.5931835667264723, 0.8050672370464846],
  [10, 0.46973269599159156, 0.8828086963303381],
  [15, 0.34372376933344034, 0.9390708015880442],
  [20, 0.22107287989978158, 0.9752572900382835],
  [25, 0.10580034850887339, 0.9943873924459224],
  [30, 0, 1],
];

/** Pan to the right; angle in degrees by the laws linear, sine, root, mean45, cosine2, two digits. */
export const ANGLE_OF_PAN: readonly (readonly [
  pan: number,
  linear: number,
  sine: number,
  root: number,
  mean45: number,
  cosine2: number,
])[] = [
  [0, 0.0, 0.0, 0.0, 0.0, 0.0],
  [0.1, 3.3, 2.6, 1.66, 2.95, 5.16],
  [0.2, 6.59, 5.22, 3.34, 5.91, 10.12],
  [0.3, 9.83, 7.89, 5.07, 8.87, 14.69],
  [0.4, 13.0, 10.62, 6.87, 11.84, 18.75],
  [0.5, 16.1, 13.45, 8.79, 14.82, 22.21],
  [0.6, 19.11, 16.39, 10.89, 17.81, 25.04],
  [0.7, 22.01, 19.48, 13.27, 20.82, 27.22],
  [0.8, 24.79, 22.76, 16.1, 23.85, 28.77],
  [0.9, 27.46, 26.25, 19.89, 26.91, 29.69],
  [1, 30.0, 30.0, 30.0, 30.0, 30.0],
];
