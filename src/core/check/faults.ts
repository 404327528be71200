/** Every way in which the path from a bus to the ears can be wrong that a check knows; "planned" is none. */
export type Fault =
  | "planned"
  | "swapped"
  | "flipped"
  | "ears-swapped"
  | "left-only"
  | "right-only"
  | "left-in-both"
  | "right-in-both"
  | "folded"
  | "left-ear-dead"
  | "right-ear-dead"
  | "inverted"
  | "inputs-up"
  | "inputs-down"
  | "all-centred"
  | "silent"
  | "switched-on"
  | "overheads-crossed"
  | "wrong-side"
  | "missing";

/** What is known of a fault before the first hit. */
export interface FaultRecord {
  /** Weight against the others; for a channel's fault, of each channel. */
  readonly weight: number;
  /** Why that weight: common practice, no source. */
  readonly why: string;
  /** Only a bus with two sides can have it. */
  readonly ofStereo: boolean;
}

/**
 * The one table of faults. Nobody has counted such faults: each weighs the same, and one that can fall on either side is
 * shared by its two forms. That nothing is wrong weighs as much as eight: a check is also made to be sure.
 */
export const FAULTS: Readonly<Record<Fault, FaultRecord>> = {
  planned: { weight: 8, why: "a check is also made to be sure; tuned by simulation", ofStereo: false },
  swapped: { weight: 1, why: "two equal plugs side by side", ofStereo: true },
  flipped: { weight: 0.5, why: "one switch, touched on purpose and forgotten", ofStereo: true },
  "ears-swapped": { weight: 0.5, why: "put in in a hurry, or a lead made the other way", ofStereo: true },
  "left-only": { weight: 0.5, why: "one plug out, on either side alike", ofStereo: true },
  "right-only": { weight: 0.5, why: "one plug out, on either side alike", ofStereo: true },
  "left-in-both": { weight: 0.5, why: "the same side taken twice, either alike", ofStereo: true },
  "right-in-both": { weight: 0.5, why: "the same side taken twice, either alike", ofStereo: true },
  folded: { weight: 1, why: "two monitor inputs not linked, or a pack set to mono", ofStereo: true },
  "left-ear-dead": { weight: 0.5, why: "one earpiece or lead, on either side alike", ofStereo: false },
  "right-ear-dead": { weight: 0.5, why: "one earpiece or lead, on either side alike", ofStereo: false },
  inverted: { weight: 1, why: "one wrongly made lead or one switch", ofStereo: true },
  "inputs-up": { weight: 0.5, why: "a miscount, up or down alike", ofStereo: false },
  "inputs-down": { weight: 0.5, why: "a miscount, up or down alike", ofStereo: false },
  "all-centred": {
    weight: 1,
    why: "sends that do not follow the channel pan start at the centre",
    ofStereo: true,
  },
  silent: { weight: 1, why: "an input not switched on, or a pack off", ofStereo: false },
  "switched-on": { weight: 1, why: "off in the plan, and somebody has switched it on", ofStereo: false },
  "overheads-crossed": { weight: 1, why: "two equal leads to two neighbouring channels", ofStereo: true },
  "wrong-side": {
    weight: 1,
    why: "one pan turned the wrong way; each channel is as likely as any fault of the bus",
    ofStereo: true,
  },
  missing: {
    weight: 1,
    why: "one send off, mute on or lead out; each channel is as likely as any fault of the bus",
    ofStereo: false,
  },
};
