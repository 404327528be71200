/*
 * The two laws called "constant power": square root against sin/cos. Computed from the formulae at 40 digits.
 */

/** No published text: computed from its formulae. */
export const SOURCE = null;

/** Distance of the pan from centre; far leg by square root and by sin/cos, far against near leg by each, dB. */
export const ROOT_AGAINST_SINE: readonly (readonly [
  away: number,
  rootFar: number,
  sineFar: number,
  rootDifference: number,
  sineDifference: number,
])[] = [
  [0.99, -23.010299956639813, -42.09829167108372, -22.988530764097067, -42.09802377365887],
  [0.98, -20, -36.07795965522895, -19.9563519459755, -36.07688803247665],
  [0.95, -16.020599913279625, -28.121034856313525, -15.910646070264992, -28.11433576747619],
  [0.9, -13.010299956639813, -22.107134031871233, -12.78753600952829, -22.08031697760262],
  [0.8, -10, -16.113351172860224, -9.542425094393248, -16.005749714161624],
  [0.6, -6.989700043360188, -10.200352718279198, -6.020599913279624, -9.764479229179456],
  [0.5, -6.020599913279624, -8.343206788338348, -4.771212547196624, -7.655513706757262],
  [0.4, -5.228787452803376, -6.859064702939897, -3.679767852945944, -5.85668238432012],
  [0.2, -3.9794000867203763, -4.615626294099317, -1.7609125905568124, -2.774779185819268],
  [0, -3.010299956639812, -3.010299956639812, 0, 0],
];

/** Where the far legs are farthest apart in gain, and how far. */
export const LARGEST_GAP = { away: 0.791843502595555, gain: 0.1598531663106948 } as const;
