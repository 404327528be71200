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
import { setupName } from "../shown-names";
import { toast } from "../state";
import { Facts } from "./facts";
import { type Incoming, letGo } from "./incoming";
import { openNew } from "./open";

type Readable = Extract<ReadSetup, { ok: true }>;

const UNTIL = "Nothing is kept on this device until you say so.";

const Refusals = ({ setups }: { setups: readonly ReadSetup[] }) => (
  <Portion
    what="that were refused"
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
    <Verdict tone="care" says={`Take in “${setupName(read.file)}”?`}>
      From {from}. {UNTIL}
    </Verdict>
    <div class="card stack">
      <Facts file={read.file} notes={read.notes} />
    </div>
    <div class="row">
      <button type="button" class="main" disabled={readOnly.value} onClick={() => openNew(read.file)}>
        Keep it and open it
      </button>
      <button type="button" onClick={letGo}>
        Leave it
      </button>
    </div>
  </>
);

const putOnShelf = async (files: readonly SetupFile[]): Promise<void> => {
  const { done, why } = await restore(shelf, files);
  const says = `${formatCount(done, "setup")} put on the shelf`;
  if (!why) letGo();
  toast.value = { says: why ? `${says}, then no more: ${why}` : says, undo: false };
};

const Several = ({ reads, from }: { reads: readonly Readable[]; from: string }) => {
  const left = useSignal<ReadonlySet<number>>(new Set());
  const chosen = reads.filter((_, at) => !left.value.has(at));
  const tick = (at: number, on: boolean) => {
    const next = new Set(left.value);
    if (on) next.delete(at);
    else next.add(at);
    left.value = next;
  };
  return (
    <>
      <Verdict tone="care" says={`${formatCount(reads.length, "setup")} to choose from`}>
        From {from}. {UNTIL} What is there already stays as it is; one of the same name gets a number.
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
          disabled={readOnly.value || chosen.length === 0}
          onClick={() => putOnShelf(chosen.map((read) => read.file))}
        >
          Put {formatCount(chosen.length, "setup")} on the shelf
        </button>
        <button type="button" onClick={letGo}>
          Leave them
        </button>
      </div>
    </>
  );
};

/** What came from outside: shown whole, kept only on a tap. */
export const Preview = ({ setups, from }: Incoming) => {
  if (!setups)
    return (
      <>
        <Verdict tone="care" says="Looking into it …">
          From {from}. {UNTIL}
        </Verdict>
        <button type="button" onClick={letGo}>
          Leave it
        </button>
      </>
    );
  const reads = setups.filter((read) => read.ok);
  const [only] = reads;
  if (!only)
    return (
      <>
        <Verdict tone="wrong" says="Nothing to take in">
          From {from}.
        </Verdict>
        <Refusals setups={setups} />
        <button type="button" onClick={letGo}>
          To my setups
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
