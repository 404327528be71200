import type { Listener } from "../model/setup";
import { curedBy, type Hearing, hearingNow, type Over } from "./hearing";
import type { PairState } from "./parts";
import { deciderOf, following, type Member, neededInFoh, type Situation } from "./situation";

/** Which voices a member's own copy is panned over for. */
export const ownOver = (situation: Situation, member: Member): Over | null => {
  const now = hearingNow(member.listener);
  return curedBy(situation, member, now, { ...now, over: situation.voices.map(() => true) });
};

/** Which voices are panned over in a state: in the bus, at FOH. */
export const oversOf = (
  situation: Situation,
  pair: PairState,
): { readonly over: Over | null; readonly foh: Over | null } => {
  const none = { over: null, foh: null };
  if (pair.pan === "keep") return none;
  const { preferences: wishes, listeners } = situation.setup;
  const audience = listeners.find((l): l is Listener => l.id === wishes.first && l.kind === "audience");
  const all = situation.voices.map(() => true);
  if (pair.pan === "foh" && audience) {
    const foh = neededInFoh(situation, audience);
    return { foh, over: foh && following(situation, foh) };
  }
  const decider = deciderOf(situation);
  if (!decider) return none;
  const before: Hearing = { ...hearingNow(decider.listener), order: pair.swap ? "swapped" : "as now" };
  if (pair.pan === "bus")
    return { over: curedBy(situation, decider, before, { ...before, over: all }), foh: null };
  const foh = curedBy(situation, decider, before, {
    ...before,
    over: following(situation, all),
    foh: all,
  });
  return { foh, over: foh && following(situation, foh) };
};
