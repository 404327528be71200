import "./setups.css";
import { useLayoutEffect } from "preact/hooks";
import { setNote } from "../../document/commands/settings";
import { LIMITS } from "../../document/limits";
import { current, endVisit, readOnly } from "../../document/store";
import { shelf } from "../../shelf/here";
import { formatCount } from "../../text/words";
import { Fold } from "../../ui/fold";
import { TextField } from "../../ui/text-field";
import { Verdict } from "../../ui/verdict";
import { typing } from "../act";
import { receivedLink } from "../route";
import { setupName } from "../shown-names";
import { BeginSetup } from "./begin";
import { Compare } from "./compare";
import { Device } from "./device";
import { Files } from "./files";
import { incoming, lookIntoLink } from "./incoming";
import { SetupList } from "./list";
import { NextTimeCard } from "./next-time";
import { Preview } from "./preview";
import { ShareSetup } from "./share";

/** The place for setups: what is kept, new ones, in and out, and what came from outside. */
export const SetupsScreen = () => {
  const link = receivedLink.value;
  useLayoutEffect(() => {
    if (link !== "") void lookIntoLink(link);
  }, [link]);
  const waits = incoming.value;
  if (waits && (waits.link === "" || waits.link === link)) return <Preview {...waits} />;
  return (
    <>
      <Verdict tone="fine" says={`${formatCount(shelf.list.value.length, "setup")} on this device`}>
        Open now: “{setupName(current.value)}”.
      </Verdict>
      <TextField
        label="Note on the open setup"
        most={LIMITS.note}
        lines={3}
        value={current.value.note}
        disabled={readOnly.value || current.value.handed !== undefined}
        onValue={(note) => typing(setNote(note))}
        onDone={endVisit}
      />
      <NextTimeCard />
      <Fold title="Start a new setup" open={shelf.list.value.length < 2}>
        {() => <BeginSetup />}
      </Fold>
      <div class="two">
        <div class="stack">
          <SetupList />
          <Fold title="Share the open setup">{() => <ShareSetup />}</Fold>
          {shelf.list.value.length < 2 ? null : <Fold title="Compare two setups">{() => <Compare />}</Fold>}
        </div>
        <div class="stack">
          <Files />
          <Device />
        </div>
      </div>
    </>
  );
};
