import { nameOf } from "../core/called";
import { current } from "../document/store";
import { Choice, Pick } from "../pieces/choice";
import { chooseListener, chosenListener } from "./state";

/** More than this would push the drawing out of sight on a phone. */
const IN_SIGHT = 3;

/** Whose ears a screen is about. */
export const ListenerPick = ({ label }: { label: string }) => {
  const { listeners } = current.value;
  const chosen = chosenListener.value;
  if (!chosen) return null;
  const options = listeners.map((l) => [l.id, nameOf(l, "listener")] as const);
  const Part = options.length <= IN_SIGHT ? Choice : Pick;
  return <Part label={label} value={chosen.id} options={options} onValue={chooseListener} />;
};
