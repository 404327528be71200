import type { Standing } from "./agreement";
import type { Id, Listener, Setup, Source } from "./setup";
import { isSideOn, offsetFor, standingPlace } from "./stage";

const NOWHERE: Standing = { offset: null, stands: null };

/** Where each source stands for a listener: nowhere without a piece or side-on. */
export const standingFor = (setup: Setup, listener: Listener): ((source: Source) => Standing) => {
  if (isSideOn(setup.kit, listener)) return () => NOWHERE;
  const standings = new Map(
    setup.kit.pieces.map((piece): [Id, Standing] => {
      const offset = offsetFor(setup.kit, listener, piece);
      return [piece.id, { offset, stands: standingPlace(offset) }];
    }),
  );
  return (source) => (source.piece === null ? undefined : standings.get(source.piece)) ?? NOWHERE;
};
