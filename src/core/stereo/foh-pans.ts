import type { Id, Setup } from "../model/setup";
import type { Side } from "../model/units";
import { channelName } from "../names";
import { capitalised } from "../words";
import { placeOfOffset } from "./geometry";
import type { Image } from "./image";

/** A channel pan that does not match where the piece stands for the audience. */
export interface FohPanIssue {
  readonly channel: Id;
  readonly says: string;
}

const fohSide = (side: Side): string => `house ${side}`;

/**
 * Channel pans that do not match where the piece stands for the audience, channel by channel. Empty where the audience
 * sees the kit side-on.
 * @param image what the audience gets
 */
export const fohPanIssues = (setup: Setup, image: Image): FohPanIssue[] =>
  image.rows.flatMap((row) => {
    if (row.placement !== "wrong" || row.stands === null || row.stands === "middle" || row.heard === null)
      return [];
    if (row.heard === "middle") return [];
    const channel = setup.channels.find((s) => s.id === row.channel);
    const piece = setup.kit.pieces.find((p) => p.id === channel?.piece);
    const drummersSide = piece !== undefined && placeOfOffset(piece.x) === row.heard;
    const name = capitalised(channelName(setup, row.channel));
    const why = drummersSide ? ": panned from the drummer’s side" : "";
    return [
      {
        channel: row.channel,
        says: `${name} is panned ${fohSide(row.heard)} but stands ${fohSide(row.stands)} for the audience${why}.`,
      },
    ];
  });
