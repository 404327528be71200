import { SEARCHES, type SearchNews, type SearchTask } from "../../core/searches";

declare const self: DedicatedWorkerGlobalScope;

const tell = (news: SearchNews): void => self.postMessage(news);

/** Runs one search and tells how far it is and what it found; the page ends this worker, in the middle to stop it. */
self.onmessage = ({ data: { name, input } }: MessageEvent<SearchTask>): void => {
  const search = SEARCHES[name] as (input: unknown, tell: (share: number) => void) => never;
  tell({ found: search(input, (share) => tell({ share })) });
};
