import { useSignal } from "@preact/signals";
import type { Desk } from "../../core/model/setup";
import { editDesk } from "../../document/commands/settings";
import { type DeskFile, deskOf, isDesk } from "../../document/desk-file";
import type { SetupFile } from "../../document/schema";
import { readOnly } from "../../document/store";
import { restore } from "../../shelf/backup";
import { deskInUse, desks } from "../../shelf/desks-here";
import { shelf, takeOver } from "../../shelf/here";
import type { ReceivedThing } from "../../shelf/received";
import { formatThings } from "../../text/desks";
import type { ReadNote } from "../../text/reading";
import { Tick } from "../../ui/choice";
import { Portion } from "../../ui/portion";
import { Verdict } from "../../ui/verdict";
import { runWithWord } from "../act";
import { attempt } from "../attempt";
import { DeskFacts } from "../desks/desk-facts";
import { oneAtATime } from "../one-at-a-time";
import { replacePlace } from "../route";
import { deskTitle, setupName } from "../shown-names";
import { toast } from "../state";
import { WhoField } from "../who-field";
import { Facts, FileNotes } from "./facts";
import { type Incoming, incoming, letGo } from "./incoming";
import { openNew } from "./open";
import { PartsIn, TicksIn } from "./ticks-in";

type File = SetupFile | DeskFile;
/** What was read, of either sort. */
interface Readable<F extends File = File> {
  readonly file: F;
  readonly notes: readonly ReadNote[];
}

const UNTIL = "Nothing is saved until you import it.";

const Refusals = ({ things }: { things: readonly ReceivedThing[] }) => (
  <Portion
    what="that can’t be read"
    items={things.flatMap((read) => (read.ok ? [] : [read.why]))}
    each={(why, at) => (
      <li class="notice bad" key={at}>
        {why}
      </li>
    )}
  />
);

const Contents = ({ file, notes }: Readable) =>
  isDesk(file) ? <DeskFacts desk={deskOf(file)} notes={notes} /> : <Facts file={file} notes={notes} />;

const Cancel = ({ disabled }: { disabled?: boolean }) => (
  <button type="button" disabled={disabled} onClick={letGo}>
    Cancel
  </button>
);

/** Opens a helper’s copy in this tab, whichever was edited before. */
const openToHelp = oneAtATime(async (file: SetupFile) => {
  if (readOnly.peek()) await takeOver();
  await openNew.run(file);
});

const ToHelp = ({ file }: { file: SetupFile }) => (
  <div class="row">
    <button
      type="button"
      class="main"
      disabled={openToHelp.isBusy.value}
      onClick={() => openToHelp.run(file)}
    >
      Open it to help
    </button>
    <Cancel />
  </div>
);

const OneSetup = ({ file }: { file: SetupFile }) => (
  <div class="row">
    <button
      type="button"
      class="main"
      disabled={readOnly.value || openNew.isBusy.value}
      onClick={() => openNew.run(file)}
    >
      Import and open
    </button>
    <Cancel />
  </div>
);

/** Saves a desk, under a free name. */
const importDesk = oneAtATime((file: DeskFile, then: (desk: Desk) => void) =>
  attempt("Not imported", async () => {
    const desk = deskOf(file);
    then({ ...desk, name: await desks.put(desk) });
  }),
);

const OneDesk = ({ file }: { file: DeskFile }) => {
  const isStuck = readOnly.value || importDesk.isBusy.value;
  return (
    <div class="row">
      <button
        type="button"
        class="main"
        disabled={isStuck}
        onClick={() =>
          importDesk.run(file, (desk) => {
            letGo();
            toast.value = { says: `Desk saved as “${deskTitle(desk)}”`, undo: false };
          })
        }
      >
        Import
      </button>
      <button
        type="button"
        disabled={isStuck}
        onClick={() =>
          importDesk.run(file, (desk) => {
            incoming.value = null;
            replacePlace("channels");
            runWithWord(editDesk(desk), `This setup’s desk is now “${deskTitle(desk)}”`);
            void deskInUse.choose(desk);
          })
        }
      >
        Import and use in the open setup
      </button>
      <Cancel />
    </div>
  );
};

const One = ({ read: { file, notes }, from }: { read: Readable; from: string }) => {
  if (!isDesk(file) && file.handed)
    return (
      <>
        <Verdict tone="care" says={`Help with “${setupName(file)}”?`}>
          From {from}. You get the line check, the trace and the desk list. What you tick goes back as a link
          or a code. Nothing else can be changed.
        </Verdict>
        <FileNotes notes={notes} />
        <WhoField />
        <ToHelp file={file} />
      </>
    );
  const title = isDesk(file) ? `Import the desk “${deskTitle(file)}”?` : `Import “${setupName(file)}”?`;
  return (
    <>
      <Verdict tone="care" says={title}>
        From {from}. {UNTIL}
      </Verdict>
      <div class="card stack">
        <Contents file={file} notes={notes} />
      </div>
      {isDesk(file) ? <OneDesk file={file} /> : <OneSetup file={file} />}
    </>
  );
};

const count = (files: readonly File[]): string => {
  const deskCount = files.filter(isDesk).length;
  return formatThings(files.length - deskCount, deskCount);
};

const put = (file: File): Promise<unknown> => (isDesk(file) ? desks.put(deskOf(file)) : shelf.put(file));

/** Saves setups and desks; what could not be saved any more stays to be chosen. */
const importAll = oneAtATime(async (files: readonly File[], saved: (count: number) => void) => {
  const { done, why } = await restore({ put }, files);
  saved(done);
  const says = `${count(files.slice(0, done))} imported`;
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
  const leaveOut = (number: number) => {
    left.value = new Set([...left.value, ...chosen.slice(0, number)]);
  };
  const files = chosen.flatMap((at) => reads[at]?.file ?? []);
  const isBusy = importAll.isBusy.value;
  return (
    <>
      <Verdict tone="care" says={`${count(reads.map(({ file }) => file))} to choose from`}>
        From {from}. {UNTIL} What you saved stays as it is; an imported one of the same name gets a number.
      </Verdict>
      <Portion
        what="more"
        items={reads}
        each={({ file, notes }, at) => (
          <li class="card stack" key={at}>
            <Tick
              label={<b>{isDesk(file) ? `Desk: ${deskTitle(file)}` : setupName(file)}</b>}
              value={!left.value.has(at)}
              onValue={(on) => tick(at, on)}
            />
            <Contents file={file} notes={notes} />
          </li>
        )}
      />
      <div class="row">
        <button
          type="button"
          class="main"
          disabled={readOnly.value || chosen.length === 0 || isBusy}
          onClick={() => importAll.run(files, leaveOut)}
        >
          {isBusy ? "Importing …" : `Import ${count(files)}`}
        </button>
        <Cancel disabled={isBusy} />
      </div>
    </>
  );
};

/** What came from outside: shown whole, saved only on a tap. */
export const Preview = ({ things, from, ticks, parts }: Incoming) => {
  if (ticks) return <TicksIn file={ticks} from={from} />;
  if (parts) return <PartsIn {...parts} />;
  if (!things)
    return (
      <>
        <Verdict tone="care" says="Reading …">
          From {from}. {UNTIL}
        </Verdict>
        <Cancel />
      </>
    );
  const reads = things.flatMap((read): Readable[] => (read.ok ? [read] : []));
  const [only] = reads;
  if (!only)
    return (
      <>
        <Verdict tone="wrong" says="Nothing to import">
          From {from}.
        </Verdict>
        <Refusals things={things} />
        <button type="button" onClick={letGo}>
          Back to setups
        </button>
      </>
    );
  return (
    <>
      {things.length === 1 ? <One read={only} from={from} /> : <Several reads={reads} from={from} />}
      <Refusals things={things} />
    </>
  );
};
