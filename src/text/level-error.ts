import type { LevelError } from "../core/headroom/level-errors";
import { formatSigned } from "../core/lib/number";

/** How far the real level may lie from an estimate, as it stands beside it: "−2.0 +4.5 dB". */
export const formatLevelError = ({ below, above }: LevelError): string =>
  `${formatSigned(-below, 1)} ${formatSigned(above, 1)} dB`;
