import type { Pan } from "../core/model/units";
import { formatPan, parsePan, stepPan } from "../core/pan/notation";
import { current } from "../document/store";
import { Entry } from "../ui/entry";

/** A pan typed in the console's own notation. */
export const PanEntry = (props: {
  label: string;
  value: Pan | null;
  onValue: (pan: Pan) => void;
  onDone: () => void;
  onEmpty?: () => void;
  empty?: string;
}) => {
  const { desk: console } = current.value;
  return (
    <Entry
      label={props.label}
      value={props.value}
      shown={props.value === null ? "" : formatPan(props.value, console)}
      read={(text) => parsePan(text, console)}
      onValue={props.onValue}
      onEmpty={props.onEmpty}
      onDone={props.onDone}
      placeholder={props.empty}
      onKey={(e) => {
        if (e.key !== "ArrowUp" && e.key !== "ArrowDown") return;
        e.preventDefault();
        props.onValue(stepPan(props.value ?? 0, console, e.key === "ArrowUp" ? 1 : -1));
      }}
    />
  );
};
