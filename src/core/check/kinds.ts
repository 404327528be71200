/** Every way in which the path from a bus to the ears can be wrong that a check knows; "planned" is none. */
export type FaultKind =
  | "planned"
  | "reversed"
  | "flipped"
  | "left side only"
  | "right side only"
  | "left side in both"
  | "right side in both"
  | "folded"
  | "left ear dead"
  | "right ear dead"
  | "inverted"
  | "inputs up"
  | "inputs down"
  | "all at centre"
  | "silent"
  | "switched on"
  | "channel wrong"
  | "channel missing";

/** What is said of one kind of fault. `it` is the bus's name, or the channel's where the fault is one channel's. */
export interface KindWords {
  /** Weight before the first hit, against the others; for a channel's fault, of each channel. */
  readonly weight: number;
  /** Why that weight: common practice, no source. */
  readonly why: string;
  readonly name: (it: string) => string;
  /** Where to look and what to do, one sentence. */
  readonly remedy: (it: string) => string;
}

/**
 * The one table of faults: how likely before the first hit, how called, how put right.
 * Nobody has counted such faults: each weighs the same, and one that can fall on either side or side is shared by its two forms.
 */
export const KINDS: { readonly [kind in FaultKind]: KindWords } = {
  planned: {
    weight: 1,
    why: "as likely as any one fault: a check is made when something is in doubt",
    name: () => "As planned",
    remedy: () => "Nothing to do.",
  },
  reversed: {
    weight: 1,
    why: "two equal plugs side by side",
    name: (it) => `The sides of ${it} are reversed`,
    remedy: (it) => `At the patch, swap the two sides of ${it}.`,
  },
  flipped: {
    weight: 1,
    why: "one switch, touched on purpose and forgotten",
    name: () => "Left and right are flipped at the listener’s own mixer",
    remedy: () => "At the listener’s own mixer, flip left and right back.",
  },
  "left side only": {
    weight: 0.5,
    why: "one plug out, on either side alike",
    name: (it) => `Only the left side of ${it} arrives`,
    remedy: (it) => `Look at the right side of ${it}: plug, input on, trim.`,
  },
  "right side only": {
    weight: 0.5,
    why: "one plug out, on either side alike",
    name: (it) => `Only the right side of ${it} arrives`,
    remedy: (it) => `Look at the left side of ${it}: plug, input on, trim.`,
  },
  "left side in both": {
    weight: 0.5,
    why: "the same side taken twice, either alike",
    name: (it) => `The left side of ${it} is in both ears`,
    remedy: (it) => `Link the two inputs of ${it} and see that the second takes its right side.`,
  },
  "right side in both": {
    weight: 0.5,
    why: "the same side taken twice, either alike",
    name: (it) => `The right side of ${it} is in both ears`,
    remedy: (it) => `Link the two inputs of ${it} and see that the first takes its left side.`,
  },
  folded: {
    weight: 1,
    why: "two inputs not linked, or a pack set to mono",
    name: (it) => `Both sides of ${it} are folded to mono`,
    remedy: (it) => `Link the two inputs of ${it}, pan them apart, and set the pack to stereo.`,
  },
  "left ear dead": {
    weight: 0.5,
    why: "one earpiece or lead, on either side alike",
    name: () => "The left ear is dead",
    remedy: () => "Try another earpiece and lead on the left, then the pack.",
  },
  "right ear dead": {
    weight: 0.5,
    why: "one earpiece or lead, on either side alike",
    name: () => "The right ear is dead",
    remedy: () => "Try another earpiece and lead on the right, then the pack.",
  },
  inverted: {
    weight: 1,
    why: "one wrongly made lead or one switch",
    name: (it) => `One side of ${it} has its polarity inverted`,
    remedy: (it) => `Turn the polarity of one side of ${it}, or change its lead.`,
  },
  "inputs up": {
    weight: 0.5,
    why: "a miscount, up or down alike",
    name: (it) => `${it} is taken one input too high`,
    remedy: (it) => `At the listener’s own mixer, choose the inputs of ${it}: one lower.`,
  },
  "inputs down": {
    weight: 0.5,
    why: "a miscount, up or down alike",
    name: (it) => `${it} is taken one input too low`,
    remedy: (it) => `At the listener’s own mixer, choose the inputs of ${it}: one higher.`,
  },
  "all at centre": {
    weight: 1,
    why: "sends that do not follow the channel pan start at the middle",
    name: (it) => `Everything in ${it} is at centre`,
    remedy: (it) => `At the console, let the sends of ${it} follow the pan, or pan them.`,
  },
  silent: {
    weight: 1,
    why: "a feed not switched on, or a pack off",
    name: (it) => `Nothing of ${it} arrives`,
    remedy: (it) => `See that the inputs of ${it} are on, its level is up and the pack is on.`,
  },
  "switched on": {
    weight: 1,
    why: "the setup has a side off, and somebody has switched it on",
    name: (it) => `All of ${it} arrives, though the setup has it off`,
    remedy: (it) => `Nothing at the console. Switch the inputs of ${it} on at the patch.`,
  },
  "channel wrong": {
    weight: 1,
    why: "one pan turned the wrong way; each channel is as likely as any fault of the pair",
    name: (it) => `${it} is on the wrong side`,
    remedy: (it) => `At the console, pan ${it} to the other side in this bus.`,
  },
  "channel missing": {
    weight: 1,
    why: "one send off, mute on or lead out; each channel is as likely as any fault of the pair",
    name: (it) => `${it} is missing`,
    remedy: (it) => `Look at ${it}: its send into this bus, its mute, its microphone and lead.`,
  },
};
