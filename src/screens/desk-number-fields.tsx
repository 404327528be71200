import { endVisit } from "../document/store";
import { NumberField } from "../ui/number-field";
import { RULES } from "./rules";

/** Numbers at the desk of a channel or a bus: one, and a second for a stereo one on two faders. */
export const DeskNumberFields = (props: {
  /** "Channel number", "Bus number". */
  label: string;
  numbers: readonly number[];
  stereo: boolean;
  onNumbers: (numbers: readonly number[]) => void;
}) => {
  const { label, stereo, onNumbers } = props;
  const [first, second] = props.numbers;
  return (
    <>
      <NumberField
        rule={second === undefined ? RULES.number : RULES.firstNumber}
        label={label}
        value={first ?? null}
        onValue={(n) => onNumbers(second === undefined ? [n] : [n, second])}
        // The second does not move to the first place while somebody types.
        onEmpty={() => onNumbers([])}
        onDone={endVisit}
      />
      {first !== undefined && (stereo || second !== undefined) ? (
        <NumberField
          rule={RULES.number}
          label={`${label} of R`}
          value={second ?? null}
          onValue={(n) => onNumbers([first, n])}
          onEmpty={() => onNumbers([first])}
          onDone={endVisit}
        />
      ) : null}
    </>
  );
};
