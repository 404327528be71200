/** Every way in which the path from a sum to the ears can be wrong that a check knows; "planned" is none. */
export type FaultKind =
  | "planned"
  | "reversed"
  | "flipped"
  | "left leg only"
  | "right leg only"
  | "left leg in both"
  | "right leg in both"
  | "folded"
  | "left ear dead"
  | "right ear dead"
  | "inverted"
  | "slots up"
  | "slots down"
  | "all at centre"
  | "silent"
  | "switched on"
  | "source wrong"
  | "source missing";

/** What is said of one kind of fault. `it` is the sum's name, or the source's where the fault is one source's. */
export interface KindWords {
  /** Weight before the first hit, against the others; for a source's fault, of each source. */
  readonly weight: number;
  /** Why that weight: common practice, no source. */
  readonly why: string;
  readonly name: (it: string) => string;
  /** Where to look and what to do, one sentence. */
  readonly remedy: (it: string) => string;
}

/**
 * The one table of faults: how likely before the first hit, how called, how put right.
 * Nobody has counted such faults: each weighs the same, and one that can fall on either leg or side is shared by its two forms.
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
    name: (it) => `The legs of ${it} are reversed`,
    remedy: (it) => `At the patch, swap the two legs of ${it}.`,
  },
  flipped: {
    weight: 1,
    why: "one switch, touched on purpose and forgotten",
    name: () => "Left and right are flipped at the listener’s own mixer",
    remedy: () => "At the listener’s own mixer, flip left and right back.",
  },
  "left leg only": {
    weight: 0.5,
    why: "one plug out, on either leg alike",
    name: (it) => `Only the left leg of ${it} arrives`,
    remedy: (it) => `Look at the right leg of ${it}: plug, slot on, trim.`,
  },
  "right leg only": {
    weight: 0.5,
    why: "one plug out, on either leg alike",
    name: (it) => `Only the right leg of ${it} arrives`,
    remedy: (it) => `Look at the left leg of ${it}: plug, slot on, trim.`,
  },
  "left leg in both": {
    weight: 0.5,
    why: "the same leg taken twice, either alike",
    name: (it) => `The left leg of ${it} is in both ears`,
    remedy: (it) => `Link the two slots of ${it} and see that the second takes its right leg.`,
  },
  "right leg in both": {
    weight: 0.5,
    why: "the same leg taken twice, either alike",
    name: (it) => `The right leg of ${it} is in both ears`,
    remedy: (it) => `Link the two slots of ${it} and see that the first takes its left leg.`,
  },
  folded: {
    weight: 1,
    why: "two slots not linked, or a pack set to mono",
    name: (it) => `Both legs of ${it} are folded to mono`,
    remedy: (it) => `Link the two slots of ${it}, pan them apart, and set the pack to stereo.`,
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
    name: (it) => `One leg of ${it} has its polarity inverted`,
    remedy: (it) => `Turn the polarity of one leg of ${it}, or change its lead.`,
  },
  "slots up": {
    weight: 0.5,
    why: "a miscount, up or down alike",
    name: (it) => `${it} is taken one slot too high`,
    remedy: (it) => `At the listener’s own mixer, choose the slots of ${it}: one lower.`,
  },
  "slots down": {
    weight: 0.5,
    why: "a miscount, up or down alike",
    name: (it) => `${it} is taken one slot too low`,
    remedy: (it) => `At the listener’s own mixer, choose the slots of ${it}: one higher.`,
  },
  "all at centre": {
    weight: 1,
    why: "sends that do not follow the house pan start at the middle",
    name: (it) => `Everything in ${it} is at centre`,
    remedy: (it) => `At the console, let the sends of ${it} follow the pan, or pan them.`,
  },
  silent: {
    weight: 1,
    why: "a feed not switched on, or a pack off",
    name: (it) => `Nothing of ${it} arrives`,
    remedy: (it) => `See that the slots of ${it} are on, its level is up and the pack is on.`,
  },
  "switched on": {
    weight: 1,
    why: "the setup has a leg off, and somebody has switched it on",
    name: (it) => `All of ${it} arrives, though the setup has it off`,
    remedy: (it) => `Nothing at the console. Switch the slots of ${it} on at the patch.`,
  },
  "source wrong": {
    weight: 1,
    why: "one pan turned the wrong way; each source is as likely as any fault of the pair",
    name: (it) => `${it} is on the wrong side`,
    remedy: (it) => `At the console, pan ${it} to the other side in this sum.`,
  },
  "source missing": {
    weight: 1,
    why: "one send off, mute on or lead out; each source is as likely as any fault of the pair",
    name: (it) => `${it} is missing`,
    remedy: (it) => `Look at ${it}: its send into this sum, its mute, its microphone and lead.`,
  },
};
