import { BLANK_CHANNEL } from "../model/defaults";
import { nextId } from "../model/ids";
import type { Channel, Id, Setup } from "../model/setup";
import { withExtra } from "./list-extra";
import { type ListFeed, listFeedsOf, type NamedFeed, putFeeds, wholeFeeds } from "./list-feeds";
import { type ListSend, listSendsOf, type NamedSend, withListSends } from "./list-sends";
import { TAP_ADVICE } from "./taps";

/** One line of an input list: all that is said of a channel, and the monitor inputs it has of its own. */
export interface ListRow
  extends Pick<
    Channel,
    | "name"
    | "numbers"
    | "kind"
    | "lines"
    | "pan"
    | "muted"
    | "inverted"
    | "gatedRms"
    | "peak"
    | "keepSides"
    | "extra"
  > {
  /** Name of the piece it stands at; null where it stands at none. */
  readonly piece: string | null;
  /** In the order of the monitor inputs. */
  readonly feeds: readonly ListFeed[];
  /** In the order of the buses. */
  readonly sends: readonly ListSend[];
}

type ListFields = Omit<ListRow, "name" | "numbers" | "feeds" | "sends" | "extra">;

/** One line of a list that was read, for `withList`. */
export interface ListLine {
  readonly name: string;
  /** Numbers of the channel at the desk; none where the list names none, which changes nothing. */
  readonly numbers: readonly number[];
  /** What its cells say. A column that the list does not have, or a blank cell, says nothing and changes nothing. */
  readonly says: Partial<ListFields> & {
    readonly feeds?: readonly NamedFeed[];
    readonly sends?: readonly NamedSend[];
    readonly extra?: Channel["extra"];
  };
  /** What a new channel gets where the line says nothing. */
  readonly otherwise: ListFields;
}

/** The input list of a setup. */
export const listOf = (setup: Setup): ListRow[] =>
  setup.channels.map((channel) => ({
    numbers: channel.numbers,
    name: channel.name,
    kind: channel.kind,
    lines: channel.lines,
    pan: channel.pan,
    muted: channel.muted,
    inverted: channel.inverted,
    gatedRms: channel.gatedRms,
    peak: channel.peak,
    keepSides: channel.keepSides,
    piece: setup.kit.pieces.find((p) => p.id === channel.piece)?.name ?? null,
    feeds: listFeedsOf(setup, channel),
    sends: listSendsOf(setup, channel),
    extra: channel.extra,
  }));

/** What becomes of the channels that the list does not name: they stay, or they go. */
export type ListMode = "add" | "replace";

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

interface Matched {
  readonly line: ListLine;
  readonly id: Id;
  /** The channel as it is; undefined for a new one. */
  readonly known: Channel | undefined;
}

/** The channel that each line is about: the next one of its name, else a new one. */
const matched = (setup: Setup, lines: readonly ListLine[]): Matched[] => {
  const left = [...setup.channels];
  const all: { readonly id: Id }[] = [...setup.channels];
  return lines.map((line) => {
    const at = left.findIndex((s) => same(s.name, line.name));
    const [known] = at < 0 ? [] : left.splice(at, 1);
    const id = known?.id ?? nextId("s", all);
    if (!known) all.push({ id });
    return { line, id, known };
  });
};

/** A channel as its line has it, without the id: the known one changed in what the line says, else a new one. */
export const channelOf = (
  { pieces }: Pick<Setup["kit"], "pieces">,
  line: ListLine,
  known?: Channel,
): Omit<Channel, "id"> => {
  const { feeds = [], sends: _, extra = [], piece, ...says } = line.says;
  const { piece: guessed, ...otherwise } = line.otherwise;
  const at = piece === undefined ? guessed : piece;
  const placed = at === null ? null : (pieces.find((p) => same(p.name, at))?.id ?? null);
  const channel = { ...BLANK_CHANNEL, ...otherwise, ...known, ...says };
  const tap =
    feeds.find((feed) => feed.tap)?.tap ??
    (known || feeds.length === 0 ? null : TAP_ADVICE[channel.kind].better);
  return {
    ...channel,
    ...(line.numbers.length > 0 ? { numbers: line.numbers } : {}),
    ...(tap ? { directOut: { ...channel.directOut, tap } } : {}),
    piece: known && piece === undefined ? known.piece : placed,
    name: line.name,
    extra: withExtra(channel.extra, extra),
  };
};

/**
 * A setup with an input list imported. A channel of the same name is changed in what its line says, and in nothing else,
 * and keeps its place in the buses; one that is not there is added behind. A bus that the list names and the setup has not
 * is built. Monitor inputs that a line names are filled;
 * where something else is in one, the feed goes into the next free one after it, else the first free one, or beyond the
 * count: nothing is dropped. A piece that the kit has not is no piece.
 */
export const withList = (setup: Setup, lines: readonly ListLine[], mode: ListMode): Setup => {
  const all = matched(setup, lines).map((m) => ({
    ...m,
    channel: { ...channelOf(setup.kit, m.line, m.known), id: m.id },
  }));
  const byId = new Map(all.map((m) => [m.id, m]));
  const channels =
    mode === "replace"
      ? all.map((m) => m.channel)
      : [
          ...setup.channels.map((s) => byId.get(s.id)?.channel ?? s),
          ...all.filter((m) => !m.known).map((m) => m.channel),
        ];
  const stays = new Set(channels.map((s) => s.id));
  const inputs = setup.monitor.inputs.map((input) => {
    if (input?.feed.kind !== "channel") return input;
    const named = byId.get(input.feed.channel)?.line.says.feeds ?? [];
    return stays.has(input.feed.channel) && named.length === 0 ? input : null;
  });
  const feeds = all.flatMap(({ line, id, known }) =>
    wholeFeeds(line.says.feeds ?? [], known ? listFeedsOf(setup, known) : []).map((feed) => ({
      ...feed,
      channel: id,
    })),
  );
  putFeeds(inputs, feeds, setup.monitor.inputCount, setup.monitor.inputs);
  const buses = withListSends(
    setup.buses.map((bus) => ({ ...bus, sends: bus.sends.filter((s) => stays.has(s.channel)) })),
    all.map(({ id, line }) => ({ channel: id, sends: line.says.sends ?? [] })),
  );
  return { ...setup, channels, buses, monitor: { ...setup.monitor, inputs } };
};
