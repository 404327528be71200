import { current } from "../document/store";
import { Choice } from "../pieces/choice";
import { chooseListener, chosenListener } from "./state";

/** Whose ears a screen is about. */
export const ListenerPick = ({ label }: { label: string }) => {
  const chosen = chosenListener.value;
  if (!chosen) return null;
  const options = current.value.listeners.map((l) => [l.id, l.name || "Unnamed listener"] as const);
  return <Choice label={label} value={chosen.id} options={options} onValue={chooseListener} />;
};
