import { current } from "../document/store";
import { busName } from "../text/names";
import { OneOf } from "../ui/choice";
import { chooseBus, chosenBus } from "./state";

/** Which bus a screen is about; nothing where there is no choice. */
export const BusPick = ({ label }: { label: string }) => {
  const { buses } = current.value;
  const chosen = chosenBus.value;
  if (buses.length < 2 || !chosen) return null;
  const options = buses.map((s) => [s.id, busName(s)] as const);
  return <OneOf label={label} value={chosen.id} options={options} onValue={chooseBus} />;
};
