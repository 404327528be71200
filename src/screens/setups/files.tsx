import { useEffect } from "preact/hooks";
import { printBackup } from "../../shelf/backup";
import { desks } from "../../shelf/desks-here";
import { shelf } from "../../shelf/here";
import { saveFile } from "../../shelf/share";
import { formatThings } from "../../text/desks";
import { attempt } from "../attempt";
import { FileButton } from "../file-button";
import { oneAtATime } from "../one-at-a-time";
import { lookIntoFiles } from "./incoming";

const backUp = oneAtATime(() =>
  attempt("No backup made", async () => {
    const day = new Date().toISOString().slice(0, 10);
    const parts = await printBackup(shelf, await desks.texts());
    saveFile(new File(parts, `hatside-backup-${day}.json`, { type: "application/json" }));
  }),
);

/** In from files and out into one backup. */
export const Files = () => {
  useEffect(() => void desks.readAll().catch(() => {}), []);
  return (
    <section class="card stack" aria-labelledby="files">
      <h2 id="files">Files</h2>
      <div class="row">
        <FileButton
          label="Import a setup or backup"
          accept=".hatside,.json,application/json"
          several
          onFiles={(files) => void lookIntoFiles(files)}
        />
        <button type="button" disabled={backUp.isBusy.value} onClick={() => backUp.run()}>
          Back up {formatThings(shelf.list.value.length, desks.list.value.length)}
        </button>
      </div>
      <p class="soft small">
        You see what is in a file before you import it. A backup is one file with every setup and every saved
        desk on this device.
      </p>
    </section>
  );
};
