import { printBackup } from "../../shelf/backup";
import { shelf } from "../../shelf/here";
import { saveFile } from "../../shelf/share";
import { formatCount } from "../../text/words";
import { attempt } from "../attempt";
import { FileButton } from "../file-button";
import { oneAtATime } from "../one-at-a-time";
import { lookIntoFiles } from "./incoming";

const backUp = oneAtATime(() =>
  attempt("No backup made", async () => {
    const day = new Date().toISOString().slice(0, 10);
    saveFile(new File(await printBackup(shelf), `hatside-backup-${day}.json`, { type: "application/json" }));
  }),
);

/** In from files and out into one backup. */
export const Files = () => (
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
        Back up {formatCount(shelf.list.value.length, "setup")}
      </button>
    </div>
    <p class="soft small">
      You see what is in a file before you import it. A backup is one file with every setup on this device.
    </p>
  </section>
);
