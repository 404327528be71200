import type { Id, Setup } from "../model/setup";
import type { Side } from "../model/units";
import { placeOfOffset } from "./geometry";
import type { Image } from "./image";

/** A channel pan that does not match where the piece stands for the audience. */
export interface FohPanIssue {
  readonly channel: Id;
  /** Where FOH has it. */
  readonly heard: Side;
  /** Where it stands for the audience. */
  readonly stands: Side;
  /** It is panned to the side on which the drummer has it. */
  readonly asDrummer: boolean;
}

/**
 * Channel pans that do not match where the piece stands for the audience, channel by channel. Empty where the audience
 * sees the kit side-on.
 * @param image what the audience gets
 * @param told channels that something else was said of, such as overheads that are to change
 */
export const fohPanIssues = (setup: Setup, image: Image, told: readonly Id[] = []): FohPanIssue[] =>
  image.rows.flatMap(({ channel: id, placement: agreement, stands, heard }) => {
    if (agreement !== "wrong" || told.includes(id)) return [];
    if (stands === null || stands === "middle" || heard === null || heard === "middle") return [];
    const channel = setup.channels.find((s) => s.id === id);
    const piece = setup.kit.pieces.find((p) => p.id === channel?.piece);
    return [
      { channel: id, heard, stands, asDrummer: piece !== undefined && placeOfOffset(piece.x) === heard },
    ];
  });
