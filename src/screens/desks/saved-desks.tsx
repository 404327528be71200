import "./desks.css";
import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { alike } from "../../document/amend";
import { deskOf } from "../../document/desk-file";
import { current, readOnly } from "../../document/store";
import type { SavedDesk } from "../../shelf/desks";
import { desks } from "../../shelf/desks-here";
import { Portion } from "../../ui/portion";
import { attempt } from "../attempt";
import { FileButton } from "../file-button";
import { lookIntoFiles } from "../setups/incoming";
import { deskTitle } from "../shown-names";
import { DeskRow } from "./desk-row";
import { SaveDesk } from "./save-desk";

/** Desks that are kept by themselves: that of the open setup saved, others used in it, copied, renamed, shared, removed. */
export const SavedDesks = () => {
  const isRead = useSignal(false);
  const looksOn = readOnly.value;
  useEffect(() => {
    // The tab that edited until now may have saved some.
    void attempt("The saved desks were not read", desks.readAll).then(() => {
      isRead.value = true;
    });
  }, [looksOn, isRead]);
  if (!isRead.value) return <p class="wait">One moment …</p>;
  const { desk } = current.value;
  const isHere = ({ read }: SavedDesk): boolean => read.ok && alike(deskOf(read.file), desk);
  const list = desks.list.value;
  const here = list.find(isHere);
  return (
    <>
      {here ? <p>This setup’s desk is saved as “{deskTitle(here)}”.</p> : <SaveDesk />}
      <Portion
        what="more"
        items={list}
        each={(line) => <DeskRow key={line.id} line={line} isHere={isHere(line)} />}
      />
      <p class="small soft">
        A setup keeps its own copy: changing or removing a saved desk changes no setup. A new setup starts
        with the desk used last.
      </p>
      <div class="row">
        <FileButton
          label="Import a desk"
          accept=".hatside,.json,application/json"
          several
          onFiles={(files) => void lookIntoFiles(files)}
        />
      </div>
    </>
  );
};
