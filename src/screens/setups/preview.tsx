import { useSignal } from "@preact/signals";
import type { ReadSetup } from "../../document/read-setup";
import type { SetupFile } from "../../document/schema";
import { readOnly } from "../../document/store";
import { restore } from "../../shelf/backup";
import { shelf } from "../../shelf/here";
import { formatCount } from "../../text/words";
import { Tick } from "../../ui/choice";
import { Portion } from "../../ui/portion";
import { Verdict } from "../../ui/verdict";
import { oneAtATime } from "../one-at-a-time";
import { setupName } from "../shown-names";
import { toast } from "../state";
import { Facts } from "./facts";
import { type Incoming, letGo } from "./incoming";
import { openNew } from "./open";

type Readable = Extract<ReadSetup, { ok: true }>;

const UNTIL = "Nothing is saved until you import it.";

const Refusals = ({ setups }: { setups: readonly ReadSetup[] }) => (
  <Portion
    what="that can’t be read"
    items={setups.flatMap((read) => (read.ok ? [] : [read.why]))}
    each={(why, at) => (
      <li class="notice bad" key={at}>
        {why}
      </li>
    )}
  />
);

const One = ({ read, from }: { read: Readable; from: string }) => (
  <>
    <Verdict tone="care" says={`Import “${setupName(read.file)}”?`}>
      From {from}. {UNTIL}
    </Verdict>
    <div class="card stack">
      <Facts file={read.file} notes={read.notes} />
    </div>
    <div class="row">
      <button
        type="button"
        class="main"
        disabled={readOnly.value || openNew.isBusy.value}
        onClick={() => openNew.run(read.file)}
      >
        Import and open
      </button>
      <button type="button" onClick={letGo}>
        Cancel
      </button>
    </div>
  </>
);

/** Saves setups; what could not be saved any more stays to be chosen. */
const importAll = oneAtATime(async (files: readonly SetupFile[], saved: (count: number) => void) => {
  const { done, why } = await restore(shelf, files);
  saved(done);
  const says = `${formatCount(done, "setup")} imported`;
  if (!why) letGo();
  toast.value = { says: why ? `${says}, then stopped: ${why}` : says, undo: false };
});

const Several = ({ reads, from }: { reads: readonly Readable[]; from: string }) => {
  const left = useSignal<ReadonlySet<number>>(new Set());
  const chosen = [...reads.keys()].filter((at) => !left.value.has(at));
  const tick = (at: number, on: boolean) => {
    const next = new Set(left.value);
    if (on) next.delete(at);
    else next.add(at);
    left.value = next;
  };
  const leaveOut = (count: number) => {
    left.value = new Set([...left.value, ...chosen.slice(0, count)]);
  };
  const files = () => chosen.flatMap((at) => reads[at]?.file ?? []);
  const isBusy = importAll.isBusy.value;
  return (
    <>
      <Verdict tone="care" says={`${formatCount(reads.length, "setup")} to choose from`}>
        From {from}. {UNTIL} Your saved setups stay as they are; an imported one of the same name gets a
        number.
      </Verdict>
      <Portion
        what="more"
        items={reads}
        each={({ file, notes }, at) => (
          <li class="card stack" key={at}>
            <Tick
              label={<b>{setupName(file)}</b>}
              value={!left.value.has(at)}
              onValue={(on) => tick(at, on)}
            />
            <Facts file={file} notes={notes} />
          </li>
        )}
      />
      <div class="row">
        <button
          type="button"
          class="main"
          disabled={readOnly.value || chosen.length === 0 || isBusy}
          onClick={() => importAll.run(files(), leaveOut)}
        >
          {isBusy ? "Importing …" : `Import ${formatCount(chosen.length, "setup")}`}
        </button>
        <button type="button" disabled={isBusy} onClick={letGo}>
          Cancel
        </button>
      </div>
    </>
  );
};

/** What came from outside: shown whole, saved only on a tap. */
export const Preview = ({ setups, from }: Incoming) => {
  if (!setups)
    return (
      <>
        <Verdict tone="care" says="Reading …">
          From {from}. {UNTIL}
        </Verdict>
        <button type="button" onClick={letGo}>
          Cancel
        </button>
      </>
    );
  const reads = setups.filter((read) => read.ok);
  const [only] = reads;
  if (!only)
    return (
      <>
        <Verdict tone="wrong" says="Nothing to import">
          From {from}.
        </Verdict>
        <Refusals setups={setups} />
        <button type="button" onClick={letGo}>
          Back to setups
        </button>
      </>
    );
  return (
    <>
      {setups.length === 1 ? <One read={only} from={from} /> : <Several reads={reads} from={from} />}
      <Refusals setups={setups} />
    </>
  );
};
