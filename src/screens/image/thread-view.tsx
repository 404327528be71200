import type { Listener } from "../../core/model/setup";
import type { Metres } from "../../core/model/units";
import type { Image, ImageRow } from "../../core/stereo/image";
import { earPosition, lateralPosition } from "../../core/stereo/position";
import { listenerName } from "../../text/names";
import { type Thread, Threads } from "../../ui/threads";
import { channelTitle } from "../shown-names";

/** Metres that count as fully to one side in the drawing: the outermost piece, but at least an arm's length. */
const ARM = 0.6;

/** More threads nobody tells apart, and they would hold up the page. A design choice. */
const MOST = 64;

const far = (row: ImageRow): Metres => Math.abs(row.offset ?? 0);

/** What can be drawn of an image: the channels that both stand and are heard somewhere. */
const drawable = (image: Image): readonly ImageRow[] =>
  image.rows.filter((row) => row.offset !== null && row.heard !== null);

/** Those that stand farthest out, in their order. */
const outermost = (rows: readonly ImageRow[]): readonly ImageRow[] => {
  if (rows.length <= MOST) return rows;
  const most = new Set([...rows].sort((a, b) => far(b) - far(a)).slice(0, MOST));
  return rows.filter((row) => most.has(row));
};

/** The thread drawing of one listener's image. */
export const ThreadView = (props: { image: Image; listener: Listener; says: string; turn: string }) => {
  const { image, listener } = props;
  const who = listenerName(listener);
  const foh = image.hears === "foh";
  const all = drawable(image);
  const rows = outermost(all);
  if (rows.length === 0) return null;
  const reach = Math.max(ARM, ...image.rows.map(far));
  const threads = rows.map(
    (row): Thread => ({
      id: row.channel,
      name: channelTitle(row.channel),
      stands: (row.offset ?? 0) / reach,
      heard: foh ? (lateralPosition(row.sides) ?? 0) : earPosition(row.difference),
      agreement: row.placement,
    }),
  );
  const heard = foh ? "Where FOH hears it" : `Where ${who} hears it`;
  const crossed = threads.some((t) => t.agreement === "wrong") ? "; × marks a wrong side" : "";
  const part = rows.length < all.length ? `. The ${MOST} of ${all.length} channels farthest out` : "";
  return (
    <Threads
      threads={threads}
      above={`Where each piece stands, as ${who} sees it`}
      below={`${heard}${crossed}${part}`}
      says={props.says}
      turn={props.turn}
    />
  );
};
