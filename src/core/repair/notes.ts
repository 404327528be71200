import { printNumber } from "../number";
import { listed } from "../patch/words";
import { slotTrims } from "../patched";
import type { Id } from "../setup";
import type { Db } from "../units";
import { called, sumCalled } from "./names";
import type { Option } from "./options";
import { remembered } from "./remember";
import type { Plan } from "./search";
import { feedNow, type Member, type Over, type Situation, sidesLostIn } from "./situation";
import type { Voice } from "./voices";

/** What there is to know of a repair beside its steps. */
export type NoteCode =
  /** Sources that must keep their sides lose them. */
  | "sides lost"
  /** The house hears something else. */
  | "house"
  | "leg trims"
  | "slot trims"
  | "rounding"
  /** Legs of different polarity. */
  | "polarity"
  /** Processing on one leg only. */
  | "uneven legs"
  /** A source of two channels is panned over, which exchanges nothing. */
  | "two channels"
  | "folded";

/** One thing to know, as a sentence. */
export interface RepairNote {
  readonly code: NoteCode;
  readonly says: string;
  /** How much, dB, where that is known. */
  readonly db: Db | null;
}

/** How a plan turns things round. */
interface Turns {
  /** With the legs: at the patch, or in a copy in reverse order. */
  readonly legs: boolean;
  readonly swap: boolean;
  /** By pan. */
  readonly pans: boolean;
}

const note = (code: NoteCode, says: string, db: Db | null = null): RepairNote => ({ code, says, db });
const db = (value: Db): string => `${printNumber(value, value < 0.1 ? 2 : 1)} dB`;
/** Below this a rounding is not worth a word, dB. */
const SLIGHT: Db = 0.005;

const namesOf = (voices: readonly Voice[]): string =>
  listed(voices.map((v) => v.source.name || "Unnamed source"));

/** Who loses the sides of which sources that must keep them. */
const lostNotes = ({ members, voices }: Situation, { picks }: Plan, lostBy: LostBy): RepairNote[] => {
  const lost = members.map((member, at) => lostBy(member, picks[at] as Option));
  const sources = voices.filter((v) => lost.some((ids) => ids.includes(v.source.id)));
  if (sources.length === 0) return [];
  const [their, lose] = sources.length > 1 ? ["their", "lose"] : ["its", "loses"];
  const who = listed(members.filter((_, at) => lost[at]?.length).map((m) => called(m.listener)));
  return [note("sides lost", `${namesOf(sources)} must keep ${their} sides and ${lose} them for ${who}.`)];
};

type LostBy = (member: Member, option: Option) => readonly Id[];

/** What a listener loses by an option that is not lost now. */
const lossesOf = (situation: Situation): LostBy => {
  const now = remembered((member: Member) => sidesLostIn(situation, member, feedNow(member.listener)));
  const lost = remembered((member: Member) =>
    remembered((option: Option) =>
      sidesLostIn(situation, member, option.feed).filter((id) => !now(member).includes(id)),
    ),
  );
  return (member, option) => (option.tally.sidesLost === 0 ? [] : lost(member)(option));
};

const trimNotes = ({ sum, setup }: Situation, { cost }: Plan, turns: Turns): RepairNote[] => {
  const off = `up to ${db(cost.residual)} off an exact mirror`;
  const notes: RepairNote[] = [];
  const legs = Math.abs(sum.legTrim[0] - sum.legTrim[1]);
  const [left, right] = slotTrims(setup.monitor, sum);
  const slots = Math.abs(left - right);
  if (legs > 0) {
    const apart = `The legs of ${sumCalled(sum)} are trimmed ${db(legs)} apart`;
    if (turns.legs) notes.push(note("leg trims", `${apart}: the trims change ears with the legs.`, legs));
    if (turns.pans)
      notes.push(note("leg trims", `${apart} and stay so: what is panned over is ${off}.`, cost.residual));
  }
  if (slots > 0 && (turns.swap || turns.pans)) {
    const says = `The slots of its legs are trimmed ${db(slots)} apart and keep that: ${off}.`;
    notes.push(note("slot trims", says, cost.residual));
  }
  return notes;
};

/** What the legs have beside trims, by what turns things round: the legs themselves, or pans. */
const LEG_SAYS = {
  polarity: {
    legs: "One leg is inverted: the inversion changes ears with it.",
    pans: "One leg is inverted: what is panned over changes polarity, the ear does not.",
  },
  "uneven legs": {
    legs: "One leg is processed: the processing changes ears with it.",
    pans: "One leg is processed: what is panned over goes into or out of that processing, so it is no exact mirror.",
  },
} as const;

const legNotes = ({ sum }: Situation, turns: Turns): RepairNote[] => {
  const has = { polarity: sum.legInverted[0] !== sum.legInverted[1], "uneven legs": sum.unevenLegs };
  return (["polarity", "uneven legs"] as const).flatMap((code) =>
    (["legs", "pans"] as const)
      .filter((by) => has[code] && turns[by])
      .map((by) => note(code, LEG_SAYS[code][by])),
  );
};

/** What panning over does not do exactly: roundings, and sources of two channels. */
const panNotes = (panned: readonly Voice[], inHouse: readonly Voice[]): RepairNote[] => {
  const notes: RepairNote[] = [];
  const errors: [Voice, Db][] = [
    ...panned.map((v): [Voice, Db] => [v, v.over.error]),
    ...inHouse.map((v): [Voice, Db] => [v, v.houseOver.error]),
  ];
  const worst = errors.reduce<[Voice, Db] | null>((a, b) => (a && a[1] >= b[1] ? a : b), null);
  if (worst && worst[1] > SLIGHT) {
    const says = `The console's steps cost up to ${db(worst[1])}, most for ${namesOf([worst[0]])}.`;
    notes.push(note("rounding", says, worst[1]));
  }
  const two = [...new Set([...panned, ...inHouse])].filter((v) => v.source.channels === 2);
  if (two.length > 0) {
    const says = `${namesOf(two)}: panning moves the balance, it does not exchange the two channels.`;
    notes.push(note("two channels", says));
  }
  return notes;
};

/** What is not exactly mirrored by a plan, who loses what, and what the house notices. */
export const noteMaker = (situation: Situation): ((plan: Plan) => RepairNote[]) => {
  const { voices, sum } = situation;
  const lostBy = lossesOf(situation);
  const pick = (over: Over | null | undefined): Voice[] => (over ? voices.filter((_, at) => over[at]) : []);
  const forPans = remembered((house: Over | null) =>
    remembered((over: Over | null) => panNotes(pick(over), pick(house))),
  );
  return (plan) => {
    const { pair, over, house } = plan.options;
    const copies = plan.picks.flatMap(({ choice, feed }) => (choice === "own panned" ? [feed.over] : []));
    const overs = [pair.pan === "sum" ? over : null, ...copies].filter((o) => o !== null);
    const turns: Turns = {
      swap: pair.swap,
      legs: pair.swap || plan.picks.some((p) => p.choice === "own reversed"),
      pans: overs.length > 0 || over !== null,
    };
    const [one = null, ...more] = overs;
    const all = more.length === 0 ? one : voices.map((_, at) => overs.some((o) => o[at]));
    return [
      ...(house ? [note("house", `The house hears ${namesOf(pick(house))} on the other side.`)] : []),
      ...lostNotes(situation, plan, lostBy),
      ...(pair.fold
        ? [note("folded", `Everybody on ${sumCalled(sum)} gets the same in both ears: no sides are left.`)]
        : []),
      ...trimNotes(situation, plan, turns),
      ...legNotes(situation, turns),
      ...forPans(house)(all),
    ];
  };
};
