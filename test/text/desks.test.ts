import { expect, it } from "vitest";
import { BLANK_DESK } from "../../src/document/blank";
import { describeOtherDesk, formatDeskSize, formatDifferences, formatThings } from "../../src/text/desks";

const named = (name: string) => ({ name });

it("a setup of another desk: both are named, and what can be done", () => {
  const [hall, club, none] = [named("Hall desk"), named("Club desk"), named("")];
  expect([
    describeOtherDesk(named("Sunday band"), hall, club),
    describeOtherDesk(named("Sunday band"), hall, hall),
    describeOtherDesk(named("Sunday band"), hall, none),
    describeOtherDesk(named("Sunday band"), none, hall),
    describeOtherDesk(none, none, none),
    describeOtherDesk(none, hall, named("W".repeat(80))),
  ]).toMatchInlineSnapshot(`
    [
      {
        "keep": "Keep the setup’s desk",
        "says": "“Sunday band” is for another desk: “Hall desk”. You last used “Club desk”.",
        "use": "Use “Club desk”",
      },
      {
        "keep": "Keep the setup’s desk",
        "says": "“Sunday band” has “Hall desk” with other settings than you last used.",
        "use": "Use the last settings",
      },
      {
        "keep": "Keep the setup’s desk",
        "says": "“Sunday band” is for another desk: “Hall desk”. You last used an unnamed desk.",
        "use": "Use the unnamed desk",
      },
      {
        "keep": "Keep the setup’s desk",
        "says": "“Sunday band” is for another desk: an unnamed desk. You last used “Hall desk”.",
        "use": "Use “Hall desk”",
      },
      {
        "keep": "Keep the setup’s desk",
        "says": "This setup has an unnamed desk with other settings than you last used.",
        "use": "Use the last settings",
      },
      {
        "keep": "Keep the setup’s desk",
        "says": "This setup is for another desk: “Hall desk”. You last used “WWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWWW”.",
        "use": "Use “WWWWWWWWWWWWWWWWWWWWWWWW…”",
      },
    ]
  `);
});

it("setups and desks are counted in one list", () => {
  expect([formatThings(2, 0), formatThings(1, 3), formatThings(0, 1), formatThings(0, 0)]).toEqual([
    "2 setups",
    "1 setup and 3 desks",
    "1 desk",
    "0 setups",
  ]);
  expect([formatDifferences(1), formatDifferences(2)]).toEqual(["1 setting differs", "2 settings differ"]);
  expect(formatDeskSize({ ...BLANK_DESK, busCount: 1 })).toBe("48 channels, 1 bus, 16 output ports");
});
