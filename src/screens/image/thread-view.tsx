import { called } from "../../core/called";
import type { Image } from "../../core/image";
import { earPosition, lateralPosition } from "../../core/position";
import type { Listener } from "../../core/setup";
import { type Thread, Threads } from "../../pieces/threads";
import { sourceName } from "../names";

/** Metres that count as fully to one side in the drawing: the outermost piece, but at least an arm's length. */
const ARM = 0.6;

/** What is drawn of an image: the sources that both stand and are heard somewhere. */
const threadsOf = (image: Image): Thread[] => {
  const reach = Math.max(ARM, ...image.rows.map((r) => Math.abs(r.offset ?? 0)));
  const threads: Thread[] = [];
  for (const row of image.rows) {
    if (row.offset === null || row.heard === null) continue;
    const heard = image.hears === "house" ? (lateralPosition(row.legs) ?? 0) : earPosition(row.difference);
    threads.push({
      id: row.source,
      name: sourceName(row.source),
      stands: row.offset / reach,
      heard,
      agreement: row.agreement,
    });
  }
  return threads;
};

/** The thread drawing of one listener's image. */
export const ThreadView = (props: { image: Image; listener: Listener; says: string; turn: string }) => {
  const { image, listener } = props;
  const who = called(listener);
  const house = image.hears === "house";
  const threads = threadsOf(image);
  if (threads.length === 0) return null;
  const heard = house ? "Where the house hears it" : `Where ${who} hears it`;
  const crossed = threads.some((t) => t.agreement === "wrong");
  return (
    <Threads
      threads={threads}
      above={`Where each piece stands, as ${who} sees it`}
      below={crossed ? `${heard}; × marks a wrong side` : heard}
      says={props.says}
      turn={props.turn}
    />
  );
};
