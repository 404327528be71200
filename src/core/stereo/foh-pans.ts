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

const issuesFor = (setup: Setup, image: Image): FohPanIssue[] =>
  image.rows.flatMap(({ channel: id, placement, stands, heard }) => {
    if (placement !== "wrong") return [];
    if (stands === null || stands === "middle" || heard === null || heard === "middle") return [];
    const channel = setup.channels.find((s) => s.id === id);
    const piece = setup.kit.pieces.find((p) => p.id === channel?.piece);
    return [
      { channel: id, heard, stands, asDrummer: piece !== undefined && placeOfOffset(piece.x) === heard },
    ];
  });

/**
 * Channel pans that do not match where the piece stands for the audience, channel by channel. Of several who hear FOH
 * none counts before the others: a pan is wrong that is wrong for all of them who hear sides, so not for those in mono or
 * side-on to the kit.
 * @param images what the listeners get; only of those who hear FOH
 * @param told channels that something else was said of, such as overheads that are to change
 */
export const fohPanIssues = (
  setup: Setup,
  images: readonly Image[],
  told: readonly Id[] = [],
): FohPanIssue[] => {
  const inMono = new Set(setup.listeners.filter(({ mono }) => mono).map(({ id }) => id));
  const [first = [], ...others] = images
    .filter(({ hears, sideOn, listener }) => hears === "foh" && !sideOn && !inMono.has(listener))
    .map((image) => issuesFor(setup, image));
  const isForAll = (issue: FohPanIssue): boolean =>
    others.every((its) => its.some(({ channel }) => channel === issue.channel));
  return first.filter((issue) => !told.includes(issue.channel) && isForAll(issue));
};
