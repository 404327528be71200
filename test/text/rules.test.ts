import { expect, it } from "vitest";
import { KIND_RULES, KINDS_IN_ORDER } from "../../src/core/allocate/rules";
import { RULE_VALUES, type RuleOfValue } from "../../src/core/model/rule-values";
import { ALLOCATION_KINDS, formatRule, formatRuleValue, RULE_NAMES } from "../../src/text/rules";

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
    input of its own: must | prefer | if inputs are left | no matter | no
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
  const lines = KINDS_IN_ORDER.map((kind) => `${ALLOCATION_KINDS[kind]}: ${KIND_RULES[kind].why}`);
  expect(`\n${lines.join("\n")}\n`).toMatchInlineSnapshot(`
    "
    Kick: Time for everybody; apart once inputs are left.
    Snare: Apart once inputs are left.
    Drum: Nobody mixes eight drum microphones on a knob.
    Percussion: One player with many things: one knob is enough, the drums’ knob will do.
    Bass: Everybody’s pitch and time.
    Guitar: One player, one sound of their own.
    Keys: One player, often two keyboards.
    Horn: A section on one or two knobs is enough.
    Strings: A section on one or two knobs is enough.
    Other: Nobody knows what it is, so it is left apart where that is possible.
    Lead vox: Wants to hear itself as finished.
    Vocal, BV: The singer first, the rest as one.
    Playback: Rides at FOH are part of it.
    Click: In nobody’s ears who does not ask for it.
    Talkback: Must arrive whatever FOH does.
    Speech: Everybody needs it, nobody mixes it.
    Video: Everybody needs it, nobody mixes it; rides at FOH are part of it.
    Audience mic: Opens the ears, but nobody plays by it.
    Effects return: Pleasant, but nobody plays by it.
    "
  `);
});
