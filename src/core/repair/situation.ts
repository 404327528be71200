import { addTo, finish, losesSides, type Standing, startCount, type Tally } from "../agreement";
import { imagesOf, standingFor } from "../image";
import { isReversed } from "../patched";
import type { Id, Listener, Setup, Sum } from "../setup";
import { isSideOn } from "../stage";
import type { Db } from "../units";
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

/** Which voices are panned over, by their index. */
export type Over = readonly boolean[];

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

/** What a listener is fed, and how they hear it. */
export interface Feed {
  /** Voices panned over in what is fed. */
  readonly over: Over | null;
  /** Voices panned over in the house. */
  readonly house: Over | null;
  /** "mirror": the other order in slots with the trims of their own that go with the legs. */
  readonly order: "as now" | "swapped" | "mirror";
  readonly folded: boolean;
  readonly flipped: boolean;
}

const differenceOf = (voice: Voice, at: number, feed: Feed, mono: boolean): Db | null => {
  if (feed.folded) return mono && voice.folded !== null ? 0 : voice.folded;
  const now = voice.ears[feed.over?.[at] ? 1 : 0][feed.order === "swapped" ? 1 : 0];
  if (now === null) return null;
  return mono ? 0 : feed.order === "mirror" ? -now : now;
};

const add = (
  count: ReturnType<typeof startCount>,
  situation: Situation,
  { listener, standing }: Member,
  feed: Feed,
  at: number,
): void => {
  const voice = situation.voices[at] as Voice;
  const straight = differenceOf(voice, at, feed, listener.mono);
  const flips = feed.flipped && !listener.mono;
  const difference = flips && straight !== null ? -straight : straight;
  const lost =
    voice.source.keepSides &&
    losesSides(
      voice.source,
      {
        turned: (situation.reversed !== (feed.order !== "as now")) !== flips,
        collapsed: listener.mono || feed.folded || situation.sum.folded || !situation.sum.stereo,
      },
      voice.house[feed.house?.[at] ? 1 : 0],
      difference,
    );
  addTo(count, standing[at] as Standing, difference, lost);
};

/** What somebody who hears the sum gets of a feed, counted as `imageOf` counts. */
export const tallyOf = (situation: Situation, member: Member, feed: Feed): Tally => {
  const count = startCount();
  for (let at = 0; at < situation.voices.length; at += 1) add(count, situation, member, feed, at);
  return finish(count);
};

const badSides = (situation: Situation, member: Member, feed: Feed, at: number): number => {
  const count = startCount();
  add(count, situation, member, feed, at);
  return count.wrong + count.sidesLost;
};

/** The sources that must keep their sides and have lost them in a feed. */
export const sidesLostIn = (situation: Situation, member: Member, feed: Feed): Id[] =>
  situation.voices.flatMap(({ source }, at) => {
    if (!source.keepSides) return [];
    const count = startCount();
    add(count, situation, member, feed, at);
    return count.sidesLost > 0 ? [source.id] : [];
  });

const any = (over: Over): Over | null => (over.includes(true) ? over : null);

/** The feed as the sum is now, for one who hears it. */
export const feedNow = (listener: Listener): Feed => ({
  over: null,
  house: null,
  order: "as now",
  folded: false,
  flipped: listener.flipped,
});

/** The voices that one feed puts right for a listener: fewer wrong or lost sides than in another. Null when there are none. */
export const curedBy = (situation: Situation, member: Member, before: Feed, after: Feed): Over | null =>
  any(
    situation.voices.map(
      (_, at) => badSides(situation, member, after, at) < badSides(situation, member, before, at),
    ),
  );

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
  return any(
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
  any(over.map((is, at) => is && situation.voices[at]?.send.pan === null));

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
