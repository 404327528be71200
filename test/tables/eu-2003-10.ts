/*
 * Directive 2003/10/EC, Article 3(1): exposure limit value and action values. The peak pressures are printed in Pa;
 * their levels re 20 µPa are quoted as 140, 137 and 135 dB(C), exactly 140.0, 136.9 and 134.96.
 */

/** As it is named in About. */
export const SOURCE = "Directive 2003/10/EC";

/** Name; LEX,8h in dBA; peak pressure in Pa; its level in dB, one digit. */
export const EU_2003_10: readonly (readonly [name: string, daily: number, pascals: number, peak: number])[] =
  [
    ["limit value", 87, 200, 140],
    ["upper action value", 85, 140, 136.9],
    ["lower action value", 80, 112, 135],
  ];
