import { remembered } from "../lib/memo";
import type { Listener } from "../model/setup";
import { imagesOf } from "../stereo/image";
import { locationsFor } from "../stereo/location";
import type { Tally } from "../stereo/placement";
import type { Mirrored, Situation } from "./model";
import { entryOf, seenFrom, type TallyEntry, tallyOf } from "./tally";

/** What somebody gets who does not hear the bus: by voice, with its channel pan as it is and mirrored; and the rest. */
export interface Elsewhere {
  readonly rest: readonly TallyEntry[];
  /** Null for a voice that they do not get. */
  readonly voices: readonly (readonly [asIs: TallyEntry, mirrored: TallyEntry] | null)[];
}

/** What those get who do not hear the bus, in the order of `others`, for whom the kit is turned, and whether FOH may change. */
export type ElsewhereFor = (turned: readonly string[], fohChanges: boolean) => Elsewhere[];

/** What those get who do not hear the bus; worked out at the first look. */
export const elsewhere = (situation: Situation): ElsewhereFor => {
  const { setup, voices, others } = situation;
  const pans = new Map(voices.map((v) => [v.channel.id, v.channelMirrored.pan]));
  const channels = setup.channels.map((s) => ({ ...s, pan: pans.get(s.id) ?? s.pan }));
  const images = remembered((mirrored: boolean) =>
    imagesOf(mirrored ? { ...setup, channels } : setup, others).map((i) => i.rows),
  );
  const of = (listener: Listener, at: number, turned: boolean, fohChanges: boolean): Elsewhere => {
    const known = new Map(setup.channels.map((s) => [s.id, s]));
    const standing = locationsFor(setup, seenFrom(situation, listener, turned));
    const entries = [images(false)[at] ?? [], images(fohChanges)[at] ?? []].map(
      (rows) =>
        new Map(
          rows.map((row) => {
            const channel = known.get(row.channel);
            const stands = channel ? standing(channel) : row;
            const entry = entryOf(stands, row.heard === null ? null : row.difference, row.sidesLost);
            return [row.channel, entry] as const;
          }),
        ),
    );
    const [asIs, mirrored] = entries as [Map<string, TallyEntry>, Map<string, TallyEntry>];
    return {
      rest: [...asIs].flatMap(([id, entry]) => (pans.has(id) ? [] : [entry])),
      voices: voices.map(({ channel: { id } }) => {
        const [now, then] = [asIs.get(id), mirrored.get(id)];
        return now && then ? [now, then] : null;
      }),
    };
  };
  const kept = new Map<string, Elsewhere>();
  return (turned, fohChanges) =>
    others.map((listener, at) => {
      const isTurned = turned.includes(listener.id);
      const key = `${at} ${isTurned} ${fohChanges}`;
      const seen = kept.get(key) ?? of(listener, at, isTurned, fohChanges);
      kept.set(key, seen);
      return seen;
    });
};

/** What somebody gets who does not hear the bus, with some channel pans mirrored. */
export const tallyElsewhere = ({ rest, voices }: Elsewhere, mirrored: Mirrored): Tally => {
  const set = new Set(mirrored);
  return tallyOf([...rest, ...voices.flatMap((entry, at) => (entry ? [entry[set.has(at) ? 1 : 0]] : []))]);
};
