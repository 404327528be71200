/*
 * dBu, dBV and volts. 0 dBu is 1 mW in 600 Ω, √0.6 V; 0 dBV is 1 V. Computed from the definitions.
 * Full-scale waveforms: dBFS rms by AES17 and IEC 61606 (a full-scale sine reads 0) and by samples (it reads −3.01).
 */

/** As it is named in About. */
export const SOURCE = "AES17 and IEC 61606";

/** dBu; volts rms, peak volts of a sine, dBV. */
export const DBU: readonly (readonly [dbu: number, rms: number, peak: number, dbv: number])[] = [
  [-20, 0.07745966692414834, 0.10954451150103323, -22.218487496163565],
  [-10, 0.2449489742783178, 0.34641016151377546, -12.218487496163563],
  [0, 0.7745966692414834, 1.0954451150103321, -2.2184874961635637],
  [4, 1.2276529879838798, 1.7361635054946571, 1.7815125038364363],
  [6, 1.5455235434379457, 2.185700356096866, 3.7815125038364363],
  [8, 1.9456988633601962, 2.751633720857905, 5.781512503836436],
  [12, 3.0837248831189012, 4.361045552334137, 9.781512503836437],
  [15, 4.355877174692862, 6.160140576482045, 12.781512503836437],
  [16, 4.8873745746780894, 6.911791407907191, 13.781512503836437],
  [18, 6.152840049018956, 8.701429844434948, 15.781512503836437],
  [20, 7.745966692414834, 10.954451150103322, 17.781512503836435],
  [22, 9.751594307992248, 13.790836925122914, 19.781512503836435],
  [24, 12.276529879838797, 17.36163505494657, 21.781512503836435],
  [26, 15.455235434379457, 21.85700356096866, 23.781512503836435],
];

/** −10 dBV in dBu, two digits. */
export const CONSUMER_LEVEL = { dbv: -10, dbu: -7.78 } as const;

/** Full-scale waveform; dBFS rms by AES17, by samples. */
export const WAVEFORMS: readonly (readonly [name: string, aes17: number, sample: number])[] = [
  ["sine", 0, -3.010299956639812],
  ["square", 3.010299956639812, 0],
  ["triangle", -1.7609125905568124, -4.771212547196624],
];

/** Alignment, dBu and dBFS; level of a full-scale sine, dBu. EBU R 68, SMPTE RP 155 and others in use. */
export const ALIGNMENTS: readonly (readonly [dbu: number, dbfs: number, atFullScale: number])[] = [
  [0, -18, 18],
  [4, -18, 22],
  [4, -20, 24],
  [6, -9, 15],
  [4, -16, 20],
  [0, -20, 20],
];
