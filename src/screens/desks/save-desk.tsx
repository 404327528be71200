import { useSignal } from "@preact/signals";
import { useLayoutEffect } from "preact/hooks";
import { editDesk } from "../../document/commands/settings";
import { compareDesks } from "../../document/compare";
import { deskOf } from "../../document/desk-file";
import { LIMITS } from "../../document/limits";
import { current, readOnly, run } from "../../document/store";
import type { SavedDesk } from "../../shelf/desks";
import { deskInUse, desks } from "../../shelf/desks-here";
import { askToKeep } from "../../shelf/persist";
import { describeComparison } from "../../text/compare";
import { deskName, formatDifferences } from "../../text/desks";
import { Fold } from "../../ui/fold";
import { Sentences } from "../../ui/sentences";
import { TextField } from "../../ui/text-field";
import { attempt } from "../attempt";
import { oneAtATime } from "../one-at-a-time";
import { toast } from "../state";

/** The open setup's desk was saved under a name: it is called so in the setup too, and is the one used last. */
const called = async (name: string): Promise<void> => {
  run(editDesk({ name }));
  // The desk of an example is never taken for the one in use by itself.
  await deskInUse.choose(current.peek().desk);
  void askToKeep();
};

const saveNew = oneAtATime((name: string) =>
  attempt("Desk not saved", async () => {
    const kept = await desks.put({ ...current.peek().desk, name });
    await called(kept);
    toast.value = { says: `Desk saved as “${kept}”`, undo: false };
  }),
);

const replace = oneAtATime(({ id, name }: SavedDesk) =>
  attempt("Desk not saved", async () => {
    const putBack = await desks.replace(id, { ...current.peek().desk, name });
    await called(name);
    const undo = () => void attempt("Not restored", putBack);
    toast.value = { says: `Saved desk “${name}” replaced`, undo };
  }),
);

const Differences = ({ saved }: { saved: SavedDesk }) => {
  if (!saved.read.ok) return null;
  const differences = describeComparison(compareDesks(deskOf(saved.read.file), current.value.desk));
  return (
    <Fold look="explain" title={`${formatDifferences(differences.length)} from the saved one`}>
      {() => <Sentences says={differences} />}
    </Fold>
  );
};

/** Saves the open setup's desk, which no saved one is like. One of the same name is replaced only by a button that says so. */
export const SaveDesk = () => {
  const { desk } = current.value;
  const name = useSignal(desk.name);
  useLayoutEffect(() => {
    name.value = desk.name;
  }, [desk.name, name]);
  const wanted = name.value.trim();
  const namesake = desks.list.value.find((line) => line.name === wanted);
  const isStuck = readOnly.value || saveNew.isBusy.value || replace.isBusy.value || wanted === "";
  const free = desks.freeName(wanted);
  return (
    <>
      <p>This setup’s desk, {deskName(desk)}, is not saved.</p>
      <TextField
        label="Save it as"
        most={LIMITS.name}
        value={name.value}
        disabled={readOnly.value}
        onValue={(text) => {
          name.value = text;
        }}
      />
      {wanted === "" ? <p class="small soft">Enter a name to save it.</p> : null}
      {namesake ? <Differences saved={namesake} /> : null}
      <div class="row">
        {namesake ? (
          <button type="button" class="main" disabled={isStuck} onClick={() => replace.run(namesake)}>
            Replace the saved one
          </button>
        ) : null}
        <button
          type="button"
          class={namesake ? "" : "main"}
          disabled={isStuck}
          onClick={() => saveNew.run(wanted)}
        >
          {namesake ? `Save as “${free}”` : "Save this desk"}
        </button>
      </div>
    </>
  );
};
