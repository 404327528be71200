import type { Id, Listener } from "../model/setup";
import { badSides, lostSides } from "./added";
import type { Member, Situation } from "./situation";

/** Which voices are panned over, by their index. */
export type Over = readonly boolean[];

/** What a listener is fed, and how they hear it. */
export interface Hearing {
  /** Voices panned over in what is fed. */
  readonly over: Over | null;
  /** Voices panned over at FOH. */
  readonly foh: Over | null;
  /** "mirror": the other order in inputs with the trims of their own that go with the sides. */
  readonly order: "as now" | "swapped" | "mirror";
  readonly folded: boolean;
  readonly flipped: boolean;
}

/** The channels that must keep their sides and have lost them in a hearing. */
export const sidesLostIn = (situation: Situation, member: Member, hearing: Hearing): Id[] => {
  const lost = lostSides(situation, member, hearing);
  return situation.voices.filter((_, at) => lost[at]).map((v) => v.channel.id);
};

/** Voices that are panned over, or null where none is. */
export const someOver = (over: Over): Over | null => (over.includes(true) ? over : null);

/** What is heard as the bus is now, for one who hears it. */
export const hearingNow = (listener: Listener): Hearing => ({
  over: null,
  foh: null,
  order: "as now",
  folded: false,
  flipped: listener.flipped,
});

/** The voices that one hearing puts right for a listener: fewer wrong or lost sides than in another. Null when there are none. */
export const curedBy = (
  situation: Situation,
  member: Member,
  before: Hearing,
  after: Hearing,
): Over | null => {
  const [now, later] = [badSides(situation, member, before), badSides(situation, member, after)];
  return someOver(later.map((bad, at) => bad < (now[at] as number)));
};
