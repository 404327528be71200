import { sourceCalled } from "./called";
import type { Image } from "./image";
import type { Id, Setup } from "./setup";
import { standingPlace } from "./stage";
import type { Side } from "./units";
import { sentence } from "./words";

/** A house pan that does not match where the piece stands for the audience. */
export interface HousePanFlag {
  readonly source: Id;
  readonly says: string;
}

const houseSide = (side: Side): string => `house ${side}`;

/**
 * House pans that do not match where the piece stands for the audience, source by source. Empty where the audience
 * sees the kit side-on.
 * @param image what the audience gets
 */
export const housePanFlags = (setup: Setup, image: Image): HousePanFlag[] =>
  image.rows.flatMap((row) => {
    if (row.agreement !== "wrong" || row.stands === null || row.stands === "middle" || row.heard === null)
      return [];
    if (row.heard === "middle") return [];
    const source = setup.sources.find((s) => s.id === row.source);
    const piece = setup.kit.pieces.find((p) => p.id === source?.piece);
    const drummersSide = piece !== undefined && standingPlace(piece.x) === row.heard;
    const name = sentence(sourceCalled(setup, row.source));
    const why = drummersSide ? ": panned from the drummer’s side" : "";
    return [
      {
        source: row.source,
        says: `${name} is panned ${houseSide(row.heard)} but stands ${houseSide(row.stands)} for the audience${why}.`,
      },
    ];
  });
