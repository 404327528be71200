import type { Desk } from "../../core/model/setup";
import { deskSettings } from "../../document/compare";
import { current } from "../../document/store";
import { describeDeskSetting } from "../../text/compare";
import { formatDeskSize } from "../../text/desks";
import type { ReadNote } from "../../text/reading";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { FileNotes } from "../setups/facts";

interface Props {
  readonly desk: Desk;
  /** What of its file was not understood. */
  readonly notes: readonly ReadNote[];
}

/** Every setting of a desk, behind a tap. */
export const DeskSettings = ({ desk, notes }: Props) => (
  <>
    <Fold look="explain" title="All settings">
      {() => <Sentences says={deskSettings(desk).map((of) => describeDeskSetting(of, current.value))} />}
    </Fold>
    <FileNotes notes={notes} />
  </>
);

/** What a desk has and how it pans, counts and mutes, without using it. */
export const DeskFacts = (props: Props) => (
  <>
    <p>{formatDeskSize(props.desk)}</p>
    <DeskSettings {...props} />
  </>
);
