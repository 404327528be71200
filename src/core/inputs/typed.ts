import { uniqueName } from "../model/ids";
import type { Channel, Setup } from "../model/setup";
import { beyondDesk, sharedNumbers } from "./desk-numbers";
import { impliedBy } from "./implied";
import type { InputKind } from "./kinds";
import { channelOf, type ListLine } from "./list";
import { joinSides, type NamedLine } from "./list-join";
import { readName } from "./names";
import { pieceOf } from "./pieces";

/** A channel that is not in the setup yet. */
export type NewChannel = Omit<Channel, "id">;

/** How much may be added. */
export interface TypedLimits {
  /** Channels of a setup. */
  readonly channels: number;
  /** Characters of a name. */
  readonly name: number;
}

/** Numbers that a channel can have: one, or two of a stereo channel on two faders. */
const MOST_NUMBERS = 2;

/** What is to be said of typed lines, each with its values. */
export type TypedNote =
  /** Nothing can be added before these are put right. */
  | { readonly code: "long name"; readonly name: string; readonly letters: number; readonly most: number }
  | { readonly code: "many numbers"; readonly name: string; readonly numbers: readonly number[] }
  | { readonly code: "too many"; readonly lines: number; readonly room: number; readonly most: number }
  /** These do not keep anything from being added. */
  | { readonly code: "same number"; readonly number: number; readonly names: readonly string[] }
  | { readonly code: "beyond desk"; readonly names: readonly string[]; readonly channelCount: number }
  | { readonly code: "same name"; readonly name: string; readonly becomes: string };

/** What lines that somebody typed come to. */
export interface TypedChannels {
  readonly channels: readonly NewChannel[];
  /** What keeps them from being added. */
  readonly wrong: readonly TypedNote[];
  /** What is worth knowing. */
  readonly notes: readonly TypedNote[];
}

const namedLines = (text: string, { kit }: Pick<Setup, "kit">): NamedLine[] => {
  let before: InputKind | null = null;
  return text
    .split(/[\r\n]+/)
    .map((line) => line.replace(/[\s\p{Cc}]+/gu, " ").trim())
    .filter(Boolean)
    .map((typed) => {
      const input = readName(typed, before);
      before = input.kind;
      const piece = input.kind === "drum" ? pieceOf(kit.pieces, input) : null;
      const otherwise = impliedBy(input, input.stereo ? 2 : 1, piece);
      return { input, line: { name: input.name, numbers: input.channels, says: {}, otherwise } };
    });
};

const wrongOf = (lines: readonly ListLine[], held: number, limits: TypedLimits): TypedNote[] => {
  const room = Math.max(0, limits.channels - held);
  return [
    ...lines.flatMap(({ name, numbers }): TypedNote[] => {
      const letters = [...name].length;
      return [
        ...(letters > limits.name ? [{ code: "long name", name, letters, most: limits.name } as const] : []),
        ...(numbers.length > MOST_NUMBERS ? [{ code: "many numbers", name, numbers } as const] : []),
      ];
    }),
    ...(lines.length > room
      ? [{ code: "too many", lines: lines.length, room, most: limits.channels } as const]
      : []),
  ];
};

/**
 * Reads channels as people write them, one a line ("12 Bass DI", "13-14 Keys", "OH SR"): number, name, kind, width, piece
 * and pan as far as the name tells. Two lines that are the sides of one thing become one stereo channel. Each is a new
 * channel: a name that is there already gets the next free number.
 */
export const channelsTyped = (
  text: string,
  setup: Pick<Setup, "kit" | "channels" | "desk">,
  limits: TypedLimits,
): TypedChannels => {
  const { lines } = joinSides(namedLines(text, setup), new Set());
  const wrong = wrongOf(lines, setup.channels.length, limits);
  // More than fit are never added, so their names need not be told apart.
  if (wrong.length > 0)
    return { channels: lines.map((line) => channelOf(setup.kit, line)), wrong, notes: [] };
  const all: NewChannel[] = [...setup.channels];
  const notes: TypedNote[] = [];
  const channels = lines.map((line) => {
    const name = uniqueName(line.name, all);
    if (name !== line.name) notes.push({ code: "same name", name: line.name, becomes: name });
    const channel = { ...channelOf(setup.kit, line), name };
    all.push(channel);
    return channel;
  });
  const fresh = new Set(channels);
  const shared = sharedNumbers(all).filter((s) => s.all.some((c) => fresh.has(c)));
  const beyond = beyondDesk(channels, setup.desk.channelCount);
  return {
    channels,
    wrong,
    notes: [
      ...notes,
      ...shared.map(
        ({ number, all: its }): TypedNote => ({
          code: "same number",
          number,
          names: its.map((c) => c.name),
        }),
      ),
      ...(beyond.length > 0
        ? [
            {
              code: "beyond desk",
              names: beyond.map((c) => c.name),
              channelCount: setup.desk.channelCount,
            } as const,
          ]
        : []),
    ],
  };
};
