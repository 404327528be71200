import { fileName } from "../../shelf/file";
import { shareFile } from "../../shelf/share";
import { attempt } from "../attempt";

/**
 * Hands CSV on as a file.
 * @param what stands behind the setup's name in that of the file: "patch sheet"
 */
export const sendCsv = (setup: string, what: string, text: string): Promise<boolean> =>
  attempt("No file made", async () => {
    const name = `${fileName(`${setup} ${what}`)}.csv`;
    return shareFile(new File([text], name, { type: "text/csv" }));
  });
