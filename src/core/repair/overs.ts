import type { Listener } from "../setup";
import { curedBy, type Hearing, hearingNow, type Over } from "./hearing";
import type { PairState } from "./parts";
import { deciderOf, following, type Member, neededInHouse, type Situation } from "./situation";

/** Which voices a member's own copy is panned over for. */
export const ownOver = (situation: Situation, member: Member): Over | null => {
  const now = hearingNow(member.listener);
  return curedBy(situation, member, now, { ...now, over: situation.voices.map(() => true) });
};

/** Which voices are panned over in a state: in the sum, in the house. */
export const oversOf = (
  situation: Situation,
  pair: PairState,
): { readonly over: Over | null; readonly house: Over | null } => {
  const none = { over: null, house: null };
  if (pair.pan === "keep") return none;
  const { wishes, listeners } = situation.setup;
  const audience = listeners.find((l): l is Listener => l.id === wishes.first && l.kind === "audience");
  const all = situation.voices.map(() => true);
  if (pair.pan === "house" && audience) {
    const house = neededInHouse(situation, audience);
    return { house, over: house && following(situation, house) };
  }
  const decider = deciderOf(situation);
  if (!decider) return none;
  const before: Hearing = { ...hearingNow(decider.listener), order: pair.swap ? "swapped" : "as now" };
  if (pair.pan === "sum")
    return { over: curedBy(situation, decider, before, { ...before, over: all }), house: null };
  const house = curedBy(situation, decider, before, {
    ...before,
    over: following(situation, all),
    house: all,
  });
  return { house, over: house && following(situation, house) };
};
