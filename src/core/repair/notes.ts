import { remembered } from "../lib/memo";
import type { Id } from "../model/setup";
import { busName, listenerName } from "../names";
import { formatList } from "../words";
import { hearingNow, type Over, sidesLostIn } from "./hearing";
import { namesOf, note, panNotes, type RepairNote, sideNotes, type Turns, trimNotes } from "./mirror";
import type { Option } from "./options";
import type { Plan } from "./search";
import type { Member, Situation } from "./situation";
import type { Voice } from "./voices";

/** Who loses the sides of which channels that must keep them. */
const lostNotes = ({ members, voices }: Situation, { picks }: Plan, lostBy: LostBy): RepairNote[] => {
  const lost = members.map((member, at) => lostBy(member, picks[at] as Option));
  const channels = voices.filter((v) => lost.some((ids) => ids.includes(v.channel.id)));
  if (channels.length === 0) return [];
  const [their, lose] = channels.length > 1 ? ["their", "lose"] : ["its", "loses"];
  const who = formatList(members.filter((_, at) => lost[at]?.length).map((m) => listenerName(m.listener)));
  return [note("sides lost", `${namesOf(channels)} must keep ${their} sides and ${lose} them for ${who}.`)];
};

type LostBy = (member: Member, option: Option) => readonly Id[];

/** What a listener loses by an option that is not lost now. */
const lossesOf = (situation: Situation): LostBy => {
  const now = remembered((member: Member) => sidesLostIn(situation, member, hearingNow(member.listener)));
  const lost = remembered((member: Member) =>
    remembered((option: Option) =>
      sidesLostIn(situation, member, option.hearing).filter((id) => !now(member).includes(id)),
    ),
  );
  return (member, option) => (option.tally.sidesLost === 0 ? [] : lost(member)(option));
};

/** What is not exactly mirrored by a plan, who loses what, and what FOH notices. */
export const noteMaker = (situation: Situation): ((plan: Plan) => RepairNote[]) => {
  const { voices, bus } = situation;
  const lostBy = lossesOf(situation);
  const pick = (over: Over | null | undefined): Voice[] => (over ? voices.filter((_, at) => over[at]) : []);
  const forPans = remembered((foh: Over | null) =>
    remembered((over: Over | null) => panNotes(pick(over), pick(foh))),
  );
  return (plan) => {
    const { pair, over, foh } = plan.options;
    const copies = plan.picks.flatMap(({ choice, hearing }) =>
      choice === "own panned" ? [hearing.over] : [],
    );
    const overs = [pair.pan === "bus" ? over : null, ...copies].filter((o) => o !== null);
    const turns: Turns = {
      swap: pair.swap,
      sides: pair.swap || plan.picks.some((p) => p.choice === "own reversed"),
      pans: overs.length > 0 || over !== null,
    };
    const [one = null, ...more] = overs;
    const all = more.length === 0 ? one : voices.map((_, at) => overs.some((o) => o[at]));
    return [
      ...(foh ? [note("house", `FOH hears ${namesOf(pick(foh))} on the other side.`)] : []),
      ...lostNotes(situation, plan, lostBy),
      ...(pair.fold
        ? [note("folded", `Everybody on ${busName(bus)} gets the same in both ears: no sides are left.`)]
        : []),
      ...trimNotes(situation, plan, turns),
      ...sideNotes(situation, turns),
      ...forPans(foh)(all),
    ];
  };
};
