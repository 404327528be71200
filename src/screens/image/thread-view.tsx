import type { Listener } from "../../core/model/setup";
import type { Image } from "../../core/stereo/image";
import { earPosition, lateralPosition } from "../../core/stereo/position";
import { listenerName } from "../../text/names";
import { type Thread, Threads } from "../../ui/threads";
import { channelTitle } from "../shown-names";

/** Metres that count as fully to one side in the drawing: the outermost piece, but at least an arm's length. */
const ARM = 0.6;

/** What is drawn of an image: the channels that both stand and are heard somewhere. */
const threadsOf = (image: Image): Thread[] => {
  const reach = Math.max(ARM, ...image.rows.map((r) => Math.abs(r.offset ?? 0)));
  const threads: Thread[] = [];
  for (const row of image.rows) {
    if (row.offset === null || row.heard === null) continue;
    const heard = image.hears === "foh" ? (lateralPosition(row.sides) ?? 0) : earPosition(row.difference);
    threads.push({
      id: row.channel,
      name: channelTitle(row.channel),
      stands: row.offset / reach,
      heard,
      agreement: row.placement,
    });
  }
  return threads;
};

/** The thread drawing of one listener's image. */
export const ThreadView = (props: { image: Image; listener: Listener; says: string; turn: string }) => {
  const { image, listener } = props;
  const who = listenerName(listener);
  const foh = image.hears === "foh";
  const threads = threadsOf(image);
  if (threads.length === 0) return null;
  const heard = foh ? "Where FOH hears it" : `Where ${who} hears it`;
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
