import { editDesk } from "../../document/commands/settings";
import { compareDesks } from "../../document/compare";
import { current } from "../../document/store";
import { deskInUse } from "../../shelf/desks-here";
import { describeComparison } from "../../text/compare";
import { describeOtherDesk, formatDifferences } from "../../text/desks";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { runWithWord } from "../act";
import { deskTitle } from "../shown-names";

/** The open setup is of another desk than the one used last: both named, and nothing changed until the user says which. */
export const DeskNotice = () => {
  const last = deskInUse.other.value;
  if (!last) return null;
  const setup = current.value;
  const { says, keep, use } = describeOtherDesk(setup, setup.desk, last);
  const differences = describeComparison(compareDesks(last, setup.desk));
  return (
    <div class="notice warn stack" role="status">
      <p>{says}</p>
      <Fold look="explain" title={formatDifferences(differences.length)}>
        {() => <Sentences says={differences} />}
      </Fold>
      <div class="row">
        <button type="button" onClick={deskInUse.keep}>
          {keep}
        </button>
        <button
          type="button"
          onClick={() => runWithWord(editDesk(last), `This setup’s desk is now “${deskTitle(last)}”`)}
        >
          {use}
        </button>
      </div>
    </div>
  );
};
