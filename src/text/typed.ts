import type { NewChannel, TypedNote } from "../core/inputs/typed";
import { excerpt, isolated } from "../core/lib/direction";
import { CHANNEL_KINDS, kitPieceName } from "../core/model/kinds";
import type { Setup } from "../core/model/setup";
import { formatPan } from "../core/pan/notation";
import { type TextsOf, textOf } from "./coded";
import { formatDeskNumbers } from "./names";
import { formatCount, formatFew } from "./words";

/** A typed line as it was understood: "12 Snare Top: Drum, mono, at Snare, pan L30". */
export const describeTyped = (
  { desk, kit }: Pick<Setup, "desk" | "kit">,
  { numbers, name, kind, lines, piece, pan }: NewChannel,
): string => {
  const at = kit.pieces.find((p) => p.id === piece);
  const parts = [
    CHANNEL_KINDS[kind],
    lines === 2 ? "stereo" : "mono",
    at ? `at ${kitPieceName(at)}` : "",
    pan === 0 ? "" : `pan ${formatPan(pan, desk)}`,
  ];
  const title = [formatDeskNumbers(numbers), isolated(name)].filter(Boolean).join(" ");
  return `${title}: ${parts.filter(Boolean).join(", ")}`;
};

const NOTES: TextsOf<TypedNote> = {
  "long name": ({ name, letters, most }) =>
    `“${excerpt(name)}” has ${letters} characters. Allowed: ${most}. Shorten it.`,
  "many numbers": ({ name, numbers }) =>
    `${isolated(name)} has ${numbers.length} channel numbers. Allowed: one, or two for a stereo channel. Give each channel its own line.`,
  "too many": ({ lines, room, most }) =>
    `${formatCount(lines, "channel")} to add, but there is room for ${room}: a setup holds up to ${most}. Remove some lines.`,
  "same number": ({ number, names }) =>
    `${formatFew(names, isolated)} have the same channel number, ${number}. Correct the line, or the channel later.`,
  "beyond desk": ({ names, channelCount }) =>
    `${formatFew(names, isolated)}: channel number beyond the desk’s last, ${channelCount}. Correct the line, or the channel count under Desk.`,
  "same name": ({ name, becomes }) =>
    `There is a ${isolated(name)} already: the new channel becomes ${isolated(becomes)}.`,
};

/** What is to be said of typed lines, as a sentence. */
export const describeTypedNote = (note: TypedNote): string => textOf(NOTES, note);
