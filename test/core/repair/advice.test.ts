import { describe, expect, it } from "vitest";
import type { Bus } from "../../../src/core/model/setup";
import { costSaid } from "../../../src/core/repair/advice";
import { type Outcome, type Repair, repairsFor } from "../../../src/core/repair/repairs";
import { situationOf } from "../../../src/core/repair/situation";
import type { Tally } from "../../../src/core/stereo/placement";
import { randomSetup } from "./setups";

const bad = ({ wrong, sidesLost }: Tally): number => wrong + sidesLost;
const badOf = (outcomes: readonly Outcome[]): number => outcomes.reduce((sum, o) => sum + bad(o.tally), 0);
const flatOf = (outcomes: readonly Outcome[]): number =>
  outcomes.reduce((sum, o) => sum + o.tally.centred, 0);

/** What is so for the one who matters most and for the others, now and once the best is done. */
interface Truth {
  readonly now: { readonly first: Tally; readonly others: readonly Outcome[] };
  readonly later: { readonly first: Tally; readonly others: readonly Outcome[] };
  readonly best: Repair;
}

/** Every sentence that advice may consist of, and when it is true. */
const SENTENCES: readonly (readonly [RegExp, (truth: Truth, ...numbers: number[]) => boolean])[] = [
  [
    /^(?:.+) hears nothing of it that has a side$/,
    ({ now }) => now.first.right + bad(now.first) + now.first.centred === 0,
  ],
  [/^(?:.+) stands side-on to the kit, so only the others decide$/, ({ later }) => later.first.wrong === 0],
  [
    /^(?!Everybody)(?:.+) then has every side correct; (\d+) (?:was|were) wrong$/,
    ({ now, later }, was) =>
      bad(now.first) === was && was > 0 && bad(later.first) + later.first.centred === 0,
  ],
  [
    /^(?!Everybody)(?:.+) then has no side wrong; (\d+) (?:was|were) wrong$/,
    ({ now, later }, was) =>
      bad(now.first) === was && was > 0 && bad(later.first) === 0 && later.first.centred > 0,
  ],
  [
    /^(?:.+) then has (\d+) sides? wrong instead of (\d+)$/,
    ({ now, later }, after, before) =>
      bad(later.first) === after && bad(now.first) === before && (before as number) > (after as number),
  ],
  [
    /^(?:.+) has (\d+) sides? wrong, and nothing improves that$/,
    ({ now, later }, after) => bad(later.first) === after && bad(now.first) === after,
  ],
  [
    /^(?:.+) has every side correct( already)?$/,
    ({ now, later }) => bad(later.first) + later.first.centred === 0 && bad(now.first) === 0,
  ],
  [
    /^(?:.+) then has (\d+) without a side instead of (\d+)$/,
    ({ now, later }, after, before) => later.first.centred === after && now.first.centred === before,
  ],
  [
    /^(?:.+) has no side wrong, but (\d+) sources? flat: only their pans can change that$/,
    ({ later }, flat) => bad(later.first) === 0 && later.first.centred === flat,
  ],
  [
    /^Everybody else who can tell the sides then has every side correct; before, (\d+) (?:was|were) wrong there$/,
    ({ now, later }, was) => badOf(now.others) === was && badOf(later.others) + flatOf(later.others) === 0,
  ],
  [
    /^Everybody else who can tell the sides then has no side wrong; before, (\d+) (?:was|were) wrong there$/,
    ({ now, later }, was) =>
      badOf(now.others) === was && badOf(later.others) === 0 && flatOf(later.others) > 0,
  ],
  [
    /^For the others (\d+) sides? stays? wrong$/,
    ({ now, later }, stay) => badOf(now.others) === stay && badOf(later.others) === stay,
  ],
  [
    /^For the others (\d+) sides? (?:is|are) wrong then instead of (\d+)$/,
    ({ now, later }, after, before) => badOf(later.others) === after && badOf(now.others) === before,
  ],
  [
    /^It takes (?:no|\d+) moves? and (?:no|\d+) slots?; the house (?:notices nothing|hears \d+ sources? elsewhere)$/,
    ({ best }) => best.steps.length > 0,
  ],
  [/^Second best, “.+”, .+$/, () => true],
  // Of inputs that are switched off, from `switchedoff.ts`.
  [/^(?:.+) (?:is|are) off, and all of this is reckoned so$/, () => true],
  [/^Switch slots? .+ on at the patch$/, () => true],
];

describe("advice", () => {
  it("consists of sentences that stand alone and are all true, in random setups", () => {
    const said = new Set<RegExp>();
    for (let seed = 0; seed < 1200; seed += 1) {
      const setup = randomSetup(seed);
      const { ranked, advice } = repairsFor(situationOf(setup, setup.buses[0] as Bus));
      if (/^(Nothing sounds|Nobody hears|.+ is (folded to )?mono$)/.test(advice.headline)) continue;
      const [best] = ranked as [Repair];
      const leave = ranked.find((r) => r.id === "leave") as Repair;
      const side = ({ outcomes }: Repair): Truth["now"] => {
        const [first] = outcomes.filter((o) => o.listener === setup.preferences.first) as [Outcome];
        return { first: first.tally, others: outcomes.filter((o) => o !== first) };
      };
      const truth = { now: side(leave), later: side(best), best };
      const sentences = advice.why.split(/\.(?: |$)/).filter(Boolean);
      for (const sentence of sentences) {
        const known = SENTENCES.find(([form]) => form.test(sentence));
        if (!known) throw new Error(`seed ${seed}: not known: ${sentence}`);
        const [form, isTrue] = known;
        said.add(form);
        const numbers = [...(form.exec(sentence) ?? [])].slice(1).map(Number);
        expect(isTrue(truth, ...numbers), `seed ${seed}: ${advice.why}`).toBe(true);
      }
    }
    // All of them come up, so that all of them are tried.
    expect(SENTENCES.map(([form]) => form).filter((form) => !said.has(form))).toEqual([]);
  });

  it("says the cost of every recommendation, of leaving it too", () => {
    for (let seed = 0; seed < 100; seed += 1) {
      const setup = randomSetup(seed);
      for (const repair of repairsFor(situationOf(setup, setup.buses[0] as Bus)).ranked) {
        const { inputs, moves } = repair.criteria;
        const [, made, taken, foh] =
          /^It takes (no|\d+) moves? and (no|\d+) slots?; the house (notices nothing|hears \d+ sources? elsewhere)\.$/.exec(
            costSaid(repair),
          ) ?? [];
        expect([made, taken], `seed ${seed}`).toEqual([String(moves || "no"), String(inputs || "no")]);
        expect(foh).toBe(
          repair.foh.length === 0
            ? "notices nothing"
            : `hears ${repair.foh.length} channel${repair.foh.length === 1 ? "" : "s"} elsewhere`,
        );
      }
    }
  });
});
