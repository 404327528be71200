import { busOf } from "../../core/mix/ear-gains";
import type { Listener } from "../../core/model/setup";
import { current } from "../../document/store";
import { busName, mixerName } from "../../text/names";
import { Explain } from "../../ui/explain";
import { course } from "./hearing";
import { HearHelp } from "./help";
import { BeginHits, DrumHits, HitsSoFar } from "./hits";
import { InputPanel } from "./input";
import { Meters } from "./meters";
import { ear } from "./session";

/** Checks what a listener hears by an audio input in the place of their ears. */
export const ByInput = ({ listener }: { listener: Listener }) => {
  const bus = busOf(current.value, listener);
  const isUnderWay = course.value !== null;
  return (
    <section class="stack" aria-label="Audio input">
      {isUnderWay ? <DrumHits /> : null}
      {isUnderWay || ear.value.kind === "open" ? null : (
        <p class="soft">
          Connect an interface with two inputs to this device, and feed them L and R from the headphone output
          of {mixerName(listener)}, or from the outputs of {busName(bus)}.
        </p>
      )}
      <InputPanel>
        {isUnderWay ? null : <BeginHits listener={listener} />}
        <Meters bus={bus} listener={listener} />
      </InputPanel>
      {isUnderWay ? <HitsSoFar /> : null}
      <Explain about="How hits are measured">
        <HearHelp />
      </Explain>
    </section>
  );
};
