import type { Db } from "../model/units";
import {
  addPlacement,
  finishTally,
  type Location,
  losesSides,
  newTally,
  type RunningTally,
  type Tally,
} from "../stereo/placement";
import type { Hearing } from "./hearing";
import type { Member, Situation } from "./situation";
import type { Voice } from "./voices";

/**
 * What each voice adds to a tally by one way of hearing it, as plain lists: they are added up more often than anything
 * else in the search.
 */
export interface Added {
  /** Right, wrong, flat, unplaceable, sides lost: the digits of one number, the last first. */
  readonly counts: readonly number[];
  /** Offset × heard, metres. */
  readonly heard: readonly number[];
  /** Distance from the middle, metres. */
  readonly weight: readonly number[];
}

/** Base of those digits: more than a bus has channels; five of them are a whole number that is exact. */
const BASE = 2 ** 10;
const ROOM = [1, BASE, BASE ** 2, BASE ** 3, BASE ** 4] as const;
const WRONG = 1;
const LOST = 4;

const packed = ({ right, wrong, centred: flat, unplaced: unplaceable, sidesLost }: RunningTally): number =>
  right + wrong * ROOM[WRONG] + flat * ROOM[2] + unplaceable * ROOM[3] + sidesLost * ROOM[LOST];

const digit = (counts: number, at: 0 | 1 | 2 | 3 | 4): number => Math.floor(counts / ROOM[at]) % BASE;

/** How a voice is heard by a hearing: panned over in it or not, at FOH or not. */
interface Pans {
  readonly over: boolean;
  readonly foh: boolean;
}

const differenceOf = (voice: Voice, hearing: Hearing, { over }: Pans, mono: boolean): Db | null => {
  if (hearing.folded) return mono ? voice.folded.inOne : voice.folded.ears;
  const now = (mono ? voice.inOne : voice.ears)[over ? 1 : 0][hearing.order === "swapped" ? 1 : 0];
  return now !== null && hearing.order === "mirror" ? -now : now;
};

const countOf = (
  { reversed, bus }: Situation,
  listener: Member["listener"],
  standing: Location,
  voice: Voice,
  hearing: Hearing,
  pans: Pans,
): RunningTally => {
  const straight = differenceOf(voice, hearing, pans, listener.mono);
  const flips = hearing.flipped && !listener.mono;
  const difference = flips && straight !== null ? -straight : straight;
  const lost =
    voice.channel.keepSides &&
    losesSides(
      voice.channel,
      {
        turned: (reversed !== (hearing.order !== "as now")) !== flips,
        collapsed: listener.mono || hearing.folded || bus.folded || !bus.stereo,
      },
      voice.foh[pans.foh ? 1 : 0],
      difference,
    );
  const count = newTally();
  addPlacement(count, standing, difference, lost);
  return count;
};

/** Number of a way of hearing a bus: its order, folded or not. Six of them. */
export const numberOfWay = ({ order, folded }: Hearing): number =>
  (order === "as now" ? 0 : order === "swapped" ? 1 : 2) + (folded ? 3 : 0);

/** What each voice adds for a member by a hearing with all pans alike; worked out once. */
const allAdded = (
  situation: Situation,
  member: Member,
  hearing: Hearing,
  over: boolean,
  foh: boolean,
): Added => {
  const way = numberOfWay(hearing) + (hearing.flipped ? 6 : 0) + (over ? 12 : 0) + (foh ? 24 : 0);
  const known = member.added.get(way);
  if (known) return known;
  const counts = situation.voices.map((voice, at) =>
    countOf(situation, member.listener, member.standing[at] as Location, voice, hearing, { over, foh }),
  );
  const fresh = {
    counts: counts.map(packed),
    heard: counts.map((c) => c.heard),
    weight: counts.map((c) => c.weight),
  };
  member.added.set(way, fresh);
  return fresh;
};

/** What voices add by a hearing, by whether each is panned over in it (+1) and at FOH (+2). */
const addedBy = (situation: Situation, member: Member, hearing: Hearing): readonly Added[] => {
  const of = (over: boolean, foh: boolean): Added => allAdded(situation, member, hearing, over, foh);
  const now = of(false, false);
  const { over, foh } = hearing;
  if (!foh) return over ? [now, of(true, false)] : [now];
  return over ? [now, of(true, false), of(false, true), of(true, true)] : [now, now, of(false, true)];
};

const wayAt = ({ over, foh }: Hearing, at: number): number => (over?.[at] ? 1 : 0) + (foh?.[at] ? 2 : 0);

/** What somebody who hears the bus gets of a hearing, counted as `imageOf` counts. */
export const tallyOf = (situation: Situation, member: Member, hearing: Hearing): Tally => {
  const by = addedBy(situation, member, hearing);
  const size = situation.voices.length;
  let counts = 0;
  let heard = 0;
  let weight = 0;
  for (let at = 0; at < size; at += 1) {
    const its = by[wayAt(hearing, at)] as Added;
    counts += its.counts[at] as number;
    heard += its.heard[at] as number;
    weight += its.weight[at] as number;
  }
  return finishTally({
    right: digit(counts, 0),
    wrong: digit(counts, WRONG),
    centred: digit(counts, 2),
    unplaced: digit(counts, 3),
    sidesLost: digit(counts, LOST),
    heard,
    weight,
  });
};

const countsOf = (situation: Situation, member: Member, hearing: Hearing): number[] => {
  const by = addedBy(situation, member, hearing);
  return situation.voices.map((_, at) => (by[wayAt(hearing, at)] as Added).counts[at] as number);
};

/** Wrong and lost sides of each voice by a hearing. */
export const badSides = (situation: Situation, member: Member, hearing: Hearing): number[] =>
  countsOf(situation, member, hearing).map((its) => digit(its, WRONG) + digit(its, LOST));

/** Whether each voice loses the sides it must keep by a hearing. */
export const lostSides = (situation: Situation, member: Member, hearing: Hearing): boolean[] =>
  countsOf(situation, member, hearing).map((its) => digit(its, LOST) > 0);
