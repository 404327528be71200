import type { Desk } from "../../core/model/setup";
import { deskSettings } from "../../document/compare";
import { formatDeskSize } from "../../text/desks";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { FileNotes } from "../setups/facts";

/** What a desk has and how it pans, counts and mutes, without using it. */
export const DeskFacts = ({ desk, notes }: { desk: Desk; notes: readonly string[] }) => (
  <>
    <p>{formatDeskSize(desk)}</p>
    <Fold look="explain" title="All settings">
      {() => <Sentences says={deskSettings(desk)} />}
    </Fold>
    <FileNotes notes={notes} />
  </>
);
