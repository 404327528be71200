import { printBackup } from "../../shelf/backup";
import { shelf } from "../../shelf/here";
import { saveFile } from "../../shelf/share";
import { formatCount } from "../../text/words";
import { attempt } from "../attempt";
import { FileButton } from "../file-button";
import { lookIntoFiles } from "./incoming";

const backUp = (): Promise<boolean> =>
  attempt("No backup made", async () => {
    const day = new Date().toISOString().slice(0, 10);
    saveFile(
      new File([await printBackup(shelf)], `hatside-backup-${day}.json`, { type: "application/json" }),
    );
  });

/** In from files and out into one backup. */
export const Files = () => (
  <section class="card stack" aria-labelledby="files">
    <h2 id="files">Files</h2>
    <div class="row">
      <FileButton
        label="Open a setup file or a backup"
        accept=".hatside,.json,application/json"
        several
        onFiles={(files) => void lookIntoFiles(files)}
      />
      <button type="button" onClick={backUp}>
        Back up {formatCount(shelf.list.value.length, "setup")}
      </button>
    </div>
    <p class="soft small">
      What is in a file is shown before anything of it is kept. A backup is one file with everything on this
      device.
    </p>
  </section>
);
