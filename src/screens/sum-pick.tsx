import { sumCalled } from "../core/called";
import { current } from "../document/store";
import { OneOf } from "../pieces/choice";
import { chooseSum, chosenSum } from "./state";

/** Which sum a screen is about; nothing where there is no choice. */
export const SumPick = ({ label }: { label: string }) => {
  const { sums } = current.value;
  const chosen = chosenSum.value;
  if (sums.length < 2 || !chosen) return null;
  const options = sums.map((s) => [s.id, sumCalled(s)] as const);
  return <OneOf label={label} value={chosen.id} options={options} onValue={chooseSum} />;
};
