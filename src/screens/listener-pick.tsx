import { current } from "../document/store";
import { nameOr } from "../text/names";
import { OneOf } from "../ui/choice";
import { chooseListener, chosenListener } from "./state";

/** Whose ears a screen is about. */
export const ListenerPick = ({ label }: { label: string }) => {
  const { listeners } = current.value;
  const chosen = chosenListener.value;
  if (!chosen) return null;
  const options = listeners.map((l) => [l.id, nameOr(l, "listener")] as const);
  return <OneOf label={label} value={chosen.id} options={options} onValue={chooseListener} />;
};
