import type { ExposureRule, ExposureValue } from "../core/headroom/earphone";

/** Exposure rules as they are named beside the time. */
export const EXPOSURE_RULES: { readonly [rule in ExposureRule["id"]]: string } = {
  niosh: "NIOSH 98-126: 85 dBA for 8 h, half the time for each 3 dB",
  osha: "OSHA 29 CFR 1910.95: 90 dBA for 8 h, half the time for each 5 dB",
};

/** Values of Directive 2003/10/EC as it calls them. */
export const EXPOSURE_VALUES: { readonly [value in ExposureValue]: string } = {
  limit: "limit value",
  upper: "upper action value",
  lower: "lower action value",
};
