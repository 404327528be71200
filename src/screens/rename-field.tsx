import { useSignal } from "@preact/signals";
import { LIMITS } from "../document/limits";
import { readOnly } from "../document/store";
import { TextField } from "../ui/text-field";
import { attempt } from "./attempt";

/** The name of something on the shelf; it takes effect when the field is left, and an empty one changes nothing. */
export const RenameField = (props: {
  label: string;
  name: string;
  /** Called with another name than before. May reject. */
  rename: (name: string) => Promise<void>;
}) => {
  const name = useSignal(props.name);
  const rename = async () => {
    const next = name.value.trim();
    if (next !== "" && next !== props.name) await attempt("Not renamed", () => props.rename(next));
  };
  return (
    <>
      <TextField
        label={props.label}
        most={LIMITS.name}
        value={name.value}
        disabled={readOnly.value}
        onValue={(text) => {
          name.value = text;
        }}
        onDone={rename}
      />
      {name.value.trim() === "" ? <p class="bad small">Name: empty. The old name stays.</p> : null}
    </>
  );
};
