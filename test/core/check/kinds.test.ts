import { describe, expect, it } from "vitest";
import { KINDS } from "../../../src/core/check/kinds";

/** What a helper reads aloud at the kit, for a pair called Drums or a channel called Hat. */
const READ: { readonly [kind in keyof typeof KINDS]: readonly [it: string, name: string, remedy: string] } = {
  planned: ["Drums", "As planned", "Nothing to do."],
  reversed: ["Drums", "The sides of Drums are reversed", "At the patch, swap the two sides of Drums."],
  flipped: [
    "Drums",
    "Left and right are flipped at the listener’s own mixer",
    "At the listener’s own mixer, flip left and right back.",
  ],
  "left side only": [
    "Drums",
    "Only the left side of Drums arrives",
    "Look at the right side of Drums: plug, input on, trim.",
  ],
  "right side only": [
    "Drums",
    "Only the right side of Drums arrives",
    "Look at the left side of Drums: plug, input on, trim.",
  ],
  "left side in both": [
    "Drums",
    "The left side of Drums is in both ears",
    "Link the two inputs of Drums and see that the second takes its right side.",
  ],
  "right side in both": [
    "Drums",
    "The right side of Drums is in both ears",
    "Link the two inputs of Drums and see that the first takes its left side.",
  ],
  folded: [
    "Drums",
    "Both sides of Drums are folded to mono",
    "Link the two inputs of Drums, pan them apart, and set the pack to stereo.",
  ],
  "left ear dead": [
    "Drums",
    "The left ear is dead",
    "Try another earpiece and lead on the left, then the pack.",
  ],
  "right ear dead": [
    "Drums",
    "The right ear is dead",
    "Try another earpiece and lead on the right, then the pack.",
  ],
  inverted: [
    "Drums",
    "One side of Drums has its polarity inverted",
    "Turn the polarity of one side of Drums, or change its lead.",
  ],
  "inputs up": [
    "Drums",
    "Drums is taken one input too high",
    "At the listener’s own mixer, choose the inputs of Drums: one lower.",
  ],
  "inputs down": [
    "Drums",
    "Drums is taken one input too low",
    "At the listener’s own mixer, choose the inputs of Drums: one higher.",
  ],
  "all at centre": [
    "Drums",
    "Everything in Drums is at centre",
    "At the console, let the sends of Drums follow the pan, or pan them.",
  ],
  silent: [
    "Drums",
    "Nothing of Drums arrives",
    "See that the inputs of Drums are on, its level is up and the pack is on.",
  ],
  "switched on": [
    "Drums",
    "All of Drums arrives, though the setup has it off",
    "Nothing at the console. Switch the inputs of Drums on at the patch.",
  ],
  "channel wrong": [
    "Hat",
    "Hat is on the wrong side",
    "At the console, pan Hat to the other side in this bus.",
  ],
  "channel missing": [
    "Hat",
    "Hat is missing",
    "Look at Hat: its send into this bus, its mute, its microphone and lead.",
  ],
};

describe("a kind of fault", () => {
  it.each(Object.entries(READ))(
    "%s is called and mended in words for the kit",
    (kind, [it, name, remedy]) => {
      const words = KINDS[kind as keyof typeof KINDS];
      expect([words.name(it), words.remedy(it)]).toEqual([name, remedy]);
    },
  );

  it("weighs as much as any other; what can fall on either side is shared by its two forms", () => {
    const halves = [
      "left side only",
      "right side only",
      "left side in both",
      "right side in both",
      "left ear dead",
      "right ear dead",
      "inputs up",
      "inputs down",
    ];
    for (const [kind, { weight }] of Object.entries(KINDS)) {
      expect(weight, kind).toBe(halves.includes(kind) ? 0.5 : 1);
    }
  });
});
