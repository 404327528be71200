import { addTo, type Standing, startCount, type Tally } from "../agreement";
import { imagesOf } from "../image";
import { isReversed } from "../patched";
import type { Listener, Setup, Sum } from "../setup";
import { isSideOn } from "../stage";
import { standingFor } from "../standing";
import type { Db } from "../units";
import { type Over, someOver } from "./hearing";
import { isOnSum } from "./parts";
import { type Voice, voicesOf } from "./voices";

/** Somebody who hears the sum. */
export interface Member {
  readonly listener: Listener;
  /** Where each voice's source stands for them. */
  readonly standing: readonly Standing[];
}

/** A sum with everything that repairs of it are reckoned from. */
export interface Situation {
  readonly setup: Setup;
  readonly sum: Sum;
  /** The legs reach the listeners in reverse order now. */
  readonly reversed: boolean;
  readonly voices: readonly Voice[];
  readonly members: readonly Member[];
  /** Who hears something else: the house, another sum, nothing. */
  readonly others: readonly Listener[];
}

/**
 * Gathers what repairs of a sum are reckoned from.
 * @param voices its voices, where they are known already
 */
export const situationOf = (
  setup: Setup,
  sum: Sum,
  voices: readonly Voice[] = voicesOf(setup, sum),
): Situation => {
  const member = (listener: Listener): Member => {
    const standing = standingFor(setup, listener);
    return { listener, standing: voices.map((v) => standing(v.source)) };
  };
  return {
    setup,
    sum,
    reversed: isReversed(setup, sum),
    voices,
    members: setup.listeners.filter((l) => isOnSum(l, sum)).map(member),
    others: setup.listeners.filter((l) => !isOnSum(l, sum)),
  };
};

/** Who decides which sources need to be panned over in the sum: the one who matters most, if they can tell the sides. */
export const deciderOf = ({ setup, members }: Situation): Member | undefined => {
  const able = members.filter(({ listener }) => !listener.mono && !isSideOn(setup.kit, listener));
  return (
    able.find((m) => m.listener.id === setup.wishes.first) ??
    able.find((m) => m.listener.kind === "drummer") ??
    able[0]
  );
};

/** The voices whose house pan puts the house right for an audience listener. */
export const neededInHouse = (situation: Situation, audience: Listener): Over | null => {
  const standing = standingFor(situation.setup, audience);
  return someOver(
    situation.voices.map((voice) => {
      const wrong = (difference: Db): number => {
        const count = startCount();
        const heard = audience.mono ? 0 : audience.flipped ? -difference : difference;
        addTo(count, standing(voice.source), heard, false);
        return count.wrong;
      };
      return wrong(voice.house[1]) < wrong(voice.house[0]);
    }),
  );
};

/** The voices whose house pan moves what a listener hears in the sum: those that follow it. */
export const following = (situation: Situation, over: Over): Over | null =>
  someOver(over.map((is, at) => is && situation.voices[at]?.send.pan === null));

/** What those get who do not hear the sum, with some house pans moved. */
export const talliesOfOthers = ({ setup, others, voices }: Situation, house: Over | null): Tally[] => {
  const moved = new Map(
    voices.filter((_, at) => house?.[at]).map((v) => [v.source.id, v.houseOver.pan] as const),
  );
  const sources = setup.sources.map((s) => (moved.has(s.id) ? { ...s, pan: moved.get(s.id) as number } : s));
  return imagesOf({ ...setup, sources }, others).map(({ count, sidesLost, score }) => ({
    ...count,
    sidesLost,
    score,
  }));
};
