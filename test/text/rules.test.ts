import { expect, it } from "vitest";
import { KINDS_IN_ORDER } from "../../src/core/allocate/rules";
import { RULE_VALUES, type RuleOfValue } from "../../src/core/model/rule-values";
import {
  ALLOCATION_KINDS,
  formatRule,
  formatRuleValue,
  KIND_REASONS,
  RULE_NAMES,
} from "../../src/text/rules";

const PEOPLE = [
  { id: "l1", name: "Mara, drums" },
  { id: "l2", name: "" },
];

it("the wording of rules is held", () => {
  const valuesOf = <K extends RuleOfValue>(key: K): string =>
    RULE_VALUES[key].map((value) => formatRuleValue(key, value, PEOPLE)).join(" | ");
  const said = (Object.keys(RULE_VALUES) as RuleOfValue[]).map(
    (key) => `${RULE_NAMES[key]}: ${valuesOf(key)}`,
  );
  const reach = (["all", ["l1", "l2"], []] as const).map((who) => formatRuleValue("reach", who, PEOPLE));
  expect(`\n${[...said, `${RULE_NAMES.reach}: ${reach.join(" | ")}`].join("\n")}\n`).toMatchInlineSnapshot(`
    "
    input of its own: must | prefer | if inputs are left | doesn’t matter | no
    stereo: must | prefer | no
    may share with: nobody | its own family | its family, else fold-back
    may be left out: no | yes
    direct out tap point: pre-HPF | pre-EQ | pre-fader | post-fader
    send to a bus: pre-fader | post-fader
    must reach: everybody | Mara and an unnamed listener | nobody
    "
  `);
  expect(formatRule({ own: "must", mayLeaveOut: false, reach: ["l1"] }, PEOPLE)).toMatchInlineSnapshot(
    `"input of its own: must; must reach: Mara; may be left out: no"`,
  );
  expect(formatRule(undefined, PEOPLE)).toMatchInlineSnapshot(`"as its kind"`);
});

it("the reasons of the rules by kind are held", () => {
  const lines = KINDS_IN_ORDER.map((kind) => `${ALLOCATION_KINDS[kind]}: ${KIND_REASONS[kind]}`);
  for (const kind of KINDS_IN_ORDER) expect(KIND_REASONS[kind]).toMatch(/^[A-Z].+\.$/);
  expect(`\n${lines.join("\n")}\n`).toMatchInlineSnapshot(`
    "
    Kick: Everybody keeps time by it: an input of its own if one is left.
    Snare: An input of its own if one is left.
    Drum: Nobody needs eight knobs for the drum microphones.
    Percussion: One player with many instruments: one knob is enough, and the drum bus will do.
    Bass: Everybody takes pitch and time from it.
    Guitar: One player, one sound.
    Keys: One player, often two keyboards.
    Horn: One or two knobs are enough for a section.
    Strings: One or two knobs are enough for a section.
    Other: Not known what it is, so it gets an input of its own where possible.
    Lead vox: Singers want their own voice with EQ and compressor.
    Vocal, BV: Their own voice first; the rest can share a knob.
    Playback: FOH’s fader rides are part of it.
    Click: Only for those who ask for it.
    Talkback: Must be heard whatever FOH does.
    Speech: Everybody needs it, nobody mixes it.
    Video: Everybody needs it, nobody mixes it; FOH’s fader rides are part of it.
    Audience mic: Opens up the mix in the ears, but nobody plays to it.
    Effects return: Pleasant, but nobody plays to it.
    "
  `);
});
