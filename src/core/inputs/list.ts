import { BLANK_CHANNEL, BLANK_DIRECT_OUT, BLANK_INPUT } from "../model/defaults";
import { nextId } from "../model/ids";
import type { Channel, ChannelKind, Id, MonitorInput, Setup, TapPoint } from "../model/setup";
import type { Db, Pan, Side } from "../model/units";

/** An input that a channel has of its own. */
export interface ListFeed {
  /** Number as it stands on the mixer, from 1. */
  readonly input: number;
  readonly side: "both" | Side;
  readonly tap: TapPoint;
  readonly on: boolean;
  readonly trim: Db;
}

/** One line of an input list: all that is said of a channel, and the inputs it has of its own. */
export interface ListRow {
  readonly name: string;
  readonly kind: ChannelKind;
  /** Name of the piece it stands at; null where it stands at none. */
  readonly piece: string | null;
  readonly lines: 1 | 2;
  readonly pan: Pan;
  readonly muted: boolean;
  readonly inverted: boolean;
  readonly gatedRms: Db | null;
  readonly peak: Db | null;
  readonly keepSides: boolean;
  /** In the order of the inputs. */
  readonly feeds: readonly ListFeed[];
}

const feedsOf = (setup: Setup, { id, directOut }: Channel): ListFeed[] =>
  setup.monitor.inputs.flatMap((input, i) =>
    input?.feed.kind === "channel" && input.feed.channel === id
      ? [{ input: i + 1, side: input.feed.side, tap: directOut.tap, on: input.on, trim: input.trim }]
      : [],
  );

/** The input list of a setup. */
export const listOf = (setup: Setup): ListRow[] =>
  setup.channels.map((channel) => ({
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
    feeds: feedsOf(setup, channel),
  }));

/** What becomes of the channels that the list does not name: they stay, or they go. */
export type ListMode = "add" | "replace";

const same = (a: string, b: string): boolean => a.trim().toLowerCase() === b.trim().toLowerCase();

/** The channel that each line is about: the next one of its name, else a new one. */
const matched = (setup: Setup, rows: readonly ListRow[]): { readonly row: ListRow; readonly id: Id }[] => {
  const left = [...setup.channels];
  const all: { readonly id: Id }[] = [...setup.channels];
  return rows.map((row) => {
    const at = left.findIndex((s) => same(s.name, row.name));
    const [known] = at < 0 ? [] : left.splice(at, 1);
    if (known) return { row, id: known.id };
    const id = nextId("s", all);
    all.push({ id });
    return { row, id };
  });
};

const channelOf = (setup: Setup, { feeds, piece, ...row }: ListRow, id: Id): Channel => ({
  ...BLANK_CHANNEL,
  ...setup.channels.find((c) => c.id === id),
  ...row,
  id,
  ...(feeds[0] ? { directOut: { ...BLANK_DIRECT_OUT, tap: feeds[0].tap } } : {}),
  piece: piece === null ? null : (setup.kit.pieces.find((p) => same(p.name, piece))?.id ?? null),
});

/** Puts feeds into their inputs; one whose input is taken goes into the next free one from there, else the first, or beyond the count. */
const put = (
  inputs: (MonitorInput | null)[],
  feeds: readonly { readonly index: number; readonly input: MonitorInput }[],
  inputCount: number,
): void => {
  const waiting: { readonly index: number; readonly input: MonitorInput }[] = [];
  for (const { index, input } of feeds) {
    while (inputs.length <= index) inputs.push(null);
    if (inputs[index]) waiting.push({ index, input });
    else inputs[index] = input;
  }
  for (const { index, input } of waiting) {
    while (inputs.length < inputCount) inputs.push(null);
    const after = inputs.indexOf(null, index);
    const free = after < 0 || after >= inputCount ? inputs.indexOf(null) : after;
    if (free < 0) inputs.push(input);
    else inputs[free] = input;
  }
};

/**
 * A setup with an input list taken in. A channel of the same name is changed and keeps its place in the buses, one that
 * is not there is added behind. Inputs that a line names are filled; where something else is in one, the feed goes into
 * the next free input after it, else the first free one, or beyond the count: nothing is dropped. A piece that the kit has not is no piece.
 */
export const withList = (setup: Setup, rows: readonly ListRow[], mode: ListMode): Setup => {
  const lines = matched(setup, rows);
  const byId = new Map(lines.map((line) => [line.id, line]));
  const listed = ({ row, id }: (typeof lines)[number]): Channel => channelOf(setup, row, id);
  const known = new Set(setup.channels.map((s) => s.id));
  const channels =
    mode === "replace"
      ? lines.map(listed)
      : [
          ...setup.channels.map((s) => {
            const line = byId.get(s.id);
            return line ? listed(line) : s;
          }),
          ...lines.filter((line) => !known.has(line.id)).map(listed),
        ];
  const stays = new Set(channels.map((s) => s.id));
  const inputs = setup.monitor.inputs.map((input) => {
    if (input?.feed.kind !== "channel") return input;
    const line = byId.get(input.feed.channel);
    return stays.has(input.feed.channel) && (line?.row.feeds.length ?? 0) === 0 ? input : null;
  });
  const feeds = lines.flatMap(({ row, id }) =>
    row.feeds.map(({ input, side, on, trim }) => ({
      index: input - 1,
      input: { ...BLANK_INPUT, feed: { kind: "channel", channel: id, side }, on, trim } as const,
    })),
  );
  put(inputs, feeds, setup.monitor.inputCount);
  const buses = setup.buses.map((bus) => ({ ...bus, sends: bus.sends.filter((s) => stays.has(s.channel)) }));
  return { ...setup, channels, buses, monitor: { ...setup.monitor, inputs } };
};
