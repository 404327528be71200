import type { HeardDrum } from "../core/hear/heard";
import type { JudgeAsk, JudgeBegin, Judged } from "./protocol";

/** Judges hits off the page's thread: with a large kit it takes longer than a page may be held up. */
export interface Judge {
  /** Asks what is to be said of these hits. Only the last question is answered. */
  readonly ask: (heard: readonly HeardDrum[]) => void;
  readonly close: () => void;
}

/**
 * A judge of one check by input.
 * @param said hears every answer, with the hits that it is of
 * @param failed told where no answer comes
 */
export const openJudge = (
  begin: Omit<JudgeBegin, "kind">,
  said: (judged: Judged, heard: readonly HeardDrum[]) => void,
  failed: () => void,
): Judge => {
  const worker = new Worker(new URL("./worker/judge.ts", import.meta.url), { type: "module" });
  /** Asked and not answered, the oldest first: a worker answers in order. */
  const open: (readonly HeardDrum[])[] = [];
  worker.onmessage = ({ data }: MessageEvent<Judged>) => {
    const heard = open.shift();
    if (heard && open.length === 0) said(data, heard);
  };
  worker.onerror = failed;
  worker.postMessage({ ...begin, kind: "begin" } satisfies JudgeBegin);
  return {
    ask: (heard) => {
      open.push(heard);
      worker.postMessage({ kind: "ask", heard } satisfies JudgeAsk);
    },
    close: () => worker.terminate(),
  };
};
