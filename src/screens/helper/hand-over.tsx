import { useMemo } from "preact/hooks";
import { handOver } from "../../document/hand-over";
import { current } from "../../document/store";
import { shelf } from "../../shelf/here";
import { setupName } from "../shown-names";
import { LinkOut } from "./link-out";

/** The open setup for a helper’s phone, as a link or as codes. */
export const HandOver = () => {
  const file = current.value;
  const of = shelf.openId.value ?? "";
  const thing = useMemo(() => handOver(file, of, new Date().toISOString()), [file, of]);
  return (
    <div class="stack">
      <p class="soft small">
        A helper gets the line check, the trace and the desk list, and can tick but change nothing else. Their
        ticks come back as a link or a code and are merged with yours. Levels, notes and recordings stay here.
      </p>
      <LinkOut thing={thing} name={`Help with ${setupName(file)}`} />
    </div>
  );
};
