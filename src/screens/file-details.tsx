import type { News } from "../shelf/shelf";
import { describeReadNote, describeReadRefusal } from "../text/reading";
import { Sentences } from "../ui/sentences";

/** What of a file was not read, or why nothing was: a sentence each. */
export const FileDetails = ({ notes, why }: Pick<News, "notes" | "why">) => (
  <Sentences says={[...(why ? [describeReadRefusal(why)] : []), ...notes.map(describeReadNote)]} />
);
