import { useMemo } from "preact/hooks";
import { current } from "../../document/store";
import { tickedSince } from "../../document/tick-log";
import { ticksToSend } from "../../document/ticks-file";
import { describeTicks } from "../../text/ticks";
import { formatCount } from "../../text/words";
import { Verdict } from "../../ui/verdict";
import { setupName } from "../shown-names";
import { WhoField } from "../who-field";
import { LinkOut } from "./link-out";

/** A helper’s ticks on their way back. */
export const SendTicks = () => {
  const file = current.value;
  const ticks = tickedSince(file);
  const thing = useMemo(() => ticksToSend(file), [file]);
  return (
    <>
      <Verdict
        tone="care"
        says={ticks.length === 0 ? "Nothing ticked yet" : `${formatCount(ticks.length, "tick")} to send`}
      >
        {ticks.length === 0
          ? "What you tick goes back to the phone that handed the setup over."
          : `${describeTicks(ticks)} Send them as often as you like: each is merged once.`}
      </Verdict>
      {ticks.length === 0 ? null : <LinkOut thing={thing} name={`Ticks for ${setupName(file)}`} />}
      <WhoField />
    </>
  );
};
