/** Things of which a setup holds only so many. */
const HELD = {
  channels: "channels",
  pieces: "pieces",
  buses: "buses",
  listeners: "listeners",
  extra: "extra columns of one channel",
  inputs: "monitor inputs",
} as const;

/** Where a setup would hold more than it may. */
export interface Excess {
  readonly of: keyof typeof HELD;
  readonly count: number;
  readonly limit: number;
}

/** Why a setup cannot hold so much, as a sentence. */
export const describeExcess = ({ of, count, limit }: Excess): string =>
  `${count} ${HELD[of]} in all: too many. Allowed: ${limit}.`;
