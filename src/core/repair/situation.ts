import { addTo, type Standing, startCount, type Tally } from "../agreement";
import { imagesOf } from "../image";
import { isReversed } from "../patched";
import type { Listener, Setup, Sum } from "../setup";
import { isSideOn } from "../stage";
import { standingFor } from "../standing";
import type { Db } from "../units";
import type { Added } from "./added";
import { type Over, someOver } from "./hearing";
import type { Option } from "./options";
import { isOnSum } from "./parts";
import { numbering } from "./patterns";
import { type Voice, voicesOf } from "./voices";

/** Somebody who hears the sum. */
export interface Member {
  readonly listener: Listener;
  /** Where each voice's source stands for them. */
  readonly standing: readonly Standing[];
  /** What each voice adds to a tally, by the way of hearing it; filled in `added.ts` as it is asked for. */
  readonly added: Map<number, Added>;
  /** What may be done for them by the state of the pair, and with a pair of their own; filled in `options.ts`. */
  readonly options: Map<number, readonly Option[]>;
  readonly own: Map<number, readonly Option[]>;
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
  /** Tells patterns of voices apart by a number from 1 on: the same for equal ones. */
  readonly numberOf: (over: Over) => number;
  /** What the others get, by the sources whose house pan is moved; filled as it is asked for. */
  readonly othersGet: Map<string, readonly Tally[]>;
}

/**
 * Gathers what repairs of a sum are reckoned from.
 * @param like one that differs in nothing but who of its members faces where, wishes, free slots, the throne's turn
 *   and sends that are gone: what was worked out for it is taken over
 */
export const situationOf = (setup: Setup, sum: Sum, like?: Situation): Situation => {
  const sends = like && like.sum !== sum ? new Set(sum.sends) : null;
  const stays = sends && like?.voices.map((v) => sends.has(v.send));
  const still = <T>(list: readonly T[]): readonly T[] => (stays ? list.filter((_, at) => stays[at]) : list);
  const voices = like ? still(like.voices) : voicesOf(setup, sum);
  const member = (listener: Listener): Member => {
    const known = like?.setup.kit === setup.kit && like.members.find((m) => m.listener === listener);
    if (known && !stays) return known;
    if (known)
      return {
        listener,
        standing: still(known.standing),
        added: new Map(
          [...known.added].map(([way, { counts, heard, weight }]) => [
            way,
            { counts: still(counts), heard: still(heard), weight: still(weight) },
          ]),
        ),
        options: new Map(),
        own: new Map(),
      };
    const standing = standingFor(setup, listener);
    return {
      listener,
      standing: voices.map((v) => standing(v.source)),
      added: new Map(),
      options: new Map(),
      own: new Map(),
    };
  };
  const others = setup.listeners.filter((l) => !isOnSum(l, sum));
  return {
    setup,
    sum,
    reversed: isReversed(setup, sum),
    voices,
    members: setup.listeners.filter((l) => isOnSum(l, sum)).map(member),
    others,
    numberOf: like?.numberOf ?? numbering(),
    othersGet: like?.setup.kit === setup.kit ? like.othersGet : new Map(),
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
export const talliesOfOthers = (
  { setup, others, voices, othersGet }: Situation,
  house: Over | null,
): readonly Tally[] => {
  const moved = new Map(
    voices.filter((_, at) => house?.[at]).map((v) => [v.source.id, v.houseOver.pan] as const),
  );
  const key = JSON.stringify([...moved.keys()]);
  const known = othersGet.get(key);
  if (known) return known;
  const sources = setup.sources.map((s) => (moved.has(s.id) ? { ...s, pan: moved.get(s.id) as number } : s));
  const tallies = imagesOf({ ...setup, sources }, others).map(({ count, sidesLost, score }) => ({
    ...count,
    sidesLost,
    score,
  }));
  othersGet.set(key, tallies);
  return tallies;
};
