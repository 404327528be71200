import { addTo, finish, losesSides, type Standing, startCount, type Tally } from "../agreement";
import type { Id, Listener } from "../setup";
import type { Db } from "../units";
import type { Member, Situation } from "./situation";
import type { Voice } from "./voices";

/** Which voices are panned over, by their index. */
export type Over = readonly boolean[];

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

/** Voices that are panned over, or null where none is. */
export const someOver = (over: Over): Over | null => (over.includes(true) ? over : null);

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
  someOver(
    situation.voices.map(
      (_, at) => badSides(situation, member, after, at) < badSides(situation, member, before, at),
    ),
  );
