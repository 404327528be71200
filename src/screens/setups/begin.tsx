import { signal } from "@preact/signals";
import type { Hand } from "../../core/model/setup";
import { exampleSetup } from "../../document/example";
import { readOnly } from "../../document/store";
import { MICROPHONE_COUNTS, type MicrophoneCount, templateSetup } from "../../document/templates";
import { Choice } from "../../ui/choice";
import { DeskPick, startingDesk } from "../desks/desk-pick";
import { oneAtATime } from "../one-at-a-time";
import { HANDS } from "../shown-names";
import { openNew } from "./open";

const count = signal<MicrophoneCount>(8);
const hand = signal<Hand>("right");

const start = oneAtATime(async () => {
  const setup = templateSetup(count.peek(), hand.peek());
  await openNew.run({ ...setup, desk: await startingDesk() });
});

/** A setup of one's own from a template, or the worked example. */
export const BeginSetup = () => (
  <>
    <Choice
      label="Drum microphones"
      value={String(count.value)}
      options={MICROPHONE_COUNTS.map((n) => [String(n), String(n)] as const)}
      onValue={(n) => {
        count.value = Number(n) as MicrophoneCount;
      }}
    />
    <Choice
      label="The kit is set up"
      value={hand.value}
      options={HANDS}
      onValue={(h) => {
        hand.value = h;
      }}
    />
    <DeskPick />
    <div class="row">
      <button
        type="button"
        class="main"
        disabled={readOnly.value || openNew.isBusy.value || start.isBusy.value}
        onClick={() => start.run()}
      >
        Start with {count.value} microphones
      </button>
      <button
        type="button"
        disabled={readOnly.value || openNew.isBusy.value}
        onClick={() => openNew.run(exampleSetup())}
      >
        Open the example
      </button>
    </div>
    <p class="soft small">
      A template’s positions, pans and levels are typical values: replace them with yours. The example is an
      invented band.
    </p>
  </>
);
