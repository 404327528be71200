import { current } from "../../document/store";
import { exportFile } from "../../shelf/file";
import { setupName } from "../shown-names";
import { ShareThing } from "./share-thing";

/** The open setup as a link, a code and a file. */
export const ShareSetup = () => {
  const file = current.value;
  return <ShareThing what="setup" name={setupName(file)} file={file} exported={() => exportFile(file)} />;
};
