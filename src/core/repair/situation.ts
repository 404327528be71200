import { isSwapped } from "../mix/pair-order";
import type { Bus, Listener, Setup } from "../model/setup";
import type { Db } from "../model/units";
import { isSideOn } from "../stereo/geometry";
import { imagesOf } from "../stereo/image";
import { locationsFor } from "../stereo/location";
import { addPlacement, type Location, newTally, type Tally } from "../stereo/placement";
import type { Added } from "./added";
import { type Over, someOver } from "./hearing";
import type { Option } from "./options";
import { isOnBus } from "./parts";
import { numbering } from "./patterns";
import { type Voice, voicesOf } from "./voices";

/** Somebody who hears the bus. */
export interface Member {
  readonly listener: Listener;
  /** Where each voice's channel stands for them. */
  readonly standing: readonly Location[];
  /** What each voice adds to a tally, by the way of hearing it; filled in `added.ts` as it is asked for. */
  readonly added: Map<number, Added>;
  /** What may be done for them by the state of the pair, and with a pair of their own; filled in `options.ts`. */
  readonly options: Map<number, readonly Option[]>;
  readonly own: Map<number, readonly Option[]>;
}

/** A bus with everything that recommendations of it are reckoned from. */
export interface Situation {
  readonly setup: Setup;
  readonly bus: Bus;
  /** The sides reach the listeners in reverse order now. */
  readonly reversed: boolean;
  readonly voices: readonly Voice[];
  readonly members: readonly Member[];
  /** Who hears something else: FOH, another bus, nothing. */
  readonly others: readonly Listener[];
  /** Tells patterns of voices apart by a number from 1 on: the same for equal ones. */
  readonly numberOf: (over: Over) => number;
  /** What the others get, by the channels whose channel pan is moved; filled as it is asked for. */
  readonly othersGet: Map<string, readonly Tally[]>;
}

/**
 * Gathers what recommendations of a bus are reckoned from.
 * @param like one that differs in nothing but who of its members faces where, wishes, free inputs, the throne's turn
 *   and sends that are gone: what was worked out for it is taken over
 */
export const situationOf = (setup: Setup, bus: Bus, like?: Situation): Situation => {
  const sends = like && like.bus !== bus ? new Set(bus.sends) : null;
  const stays = sends && like?.voices.map((v) => sends.has(v.send));
  const still = <T>(list: readonly T[]): readonly T[] => (stays ? list.filter((_, at) => stays[at]) : list);
  const voices = like ? still(like.voices) : voicesOf(setup, bus);
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
    const standing = locationsFor(setup, listener);
    return {
      listener,
      standing: voices.map((v) => standing(v.channel)),
      added: new Map(),
      options: new Map(),
      own: new Map(),
    };
  };
  const others = setup.listeners.filter((l) => !isOnBus(l, bus));
  return {
    setup,
    bus,
    reversed: isSwapped(setup, bus),
    voices,
    members: setup.listeners.filter((l) => isOnBus(l, bus)).map(member),
    others,
    numberOf: like?.numberOf ?? numbering(),
    othersGet: like?.setup.kit === setup.kit ? like.othersGet : new Map(),
  };
};

/** Who decides which channels need to be panned over in the bus: the one who matters most, if they can tell the sides. */
export const deciderOf = ({ setup, members }: Situation): Member | undefined => {
  const able = members.filter(({ listener }) => !listener.mono && !isSideOn(setup.kit, listener));
  return (
    able.find((m) => m.listener.id === setup.preferences.first) ??
    able.find((m) => m.listener.kind === "drummer") ??
    able[0]
  );
};

/** The voices whose channel pan puts the house right for an audience listener. */
export const neededInFoh = (situation: Situation, audience: Listener): Over | null => {
  const standing = locationsFor(situation.setup, audience);
  return someOver(
    situation.voices.map((voice) => {
      const wrong = (difference: Db): number => {
        const count = newTally();
        const heard = audience.mono ? 0 : audience.flipped ? -difference : difference;
        addPlacement(count, standing(voice.channel), heard, false);
        return count.wrong;
      };
      return wrong(voice.foh[1]) < wrong(voice.foh[0]);
    }),
  );
};

/** The voices whose channel pan moves what a listener hears in the bus: those that follow it. */
export const following = (situation: Situation, over: Over): Over | null =>
  someOver(over.map((is, at) => is && situation.voices[at]?.send.pan === null));

/** What those get who do not hear the bus, with some channel pans moved. */
export const talliesOfOthers = (
  { setup, others, voices, othersGet }: Situation,
  foh: Over | null,
): readonly Tally[] => {
  const moved = new Map(
    voices.filter((_, at) => foh?.[at]).map((v) => [v.channel.id, v.fohOver.pan] as const),
  );
  const key = JSON.stringify([...moved.keys()]);
  const known = othersGet.get(key);
  if (known) return known;
  const channels = setup.channels.map((s) =>
    moved.has(s.id) ? { ...s, pan: moved.get(s.id) as number } : s,
  );
  const tallies = imagesOf({ ...setup, channels }, others).map(({ count, sidesLost, score }) => ({
    ...count,
    sidesLost,
    score,
  }));
  othersGet.set(key, tallies);
  return tallies;
};
