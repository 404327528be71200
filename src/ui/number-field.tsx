import { formatEntry, type NumberRule, readNumber } from "../core/lib/number";
import { Entry } from "./entry";
import { Icon } from "./icon";

/** A number with its unit, typed or stepped; null is the rule's "empty". */
export interface NumberFieldProps {
  readonly rule: NumberRule;
  /** Shown instead of the rule's name where the name would repeat the surroundings. */
  readonly label?: string;
  readonly value: number | null;
  readonly onValue: (value: number) => void;
  readonly onEmpty?: () => void;
  readonly onDone?: () => void;
  /** Step of the − and + buttons and of the arrow keys; none without it. */
  readonly step?: number;
}

/** A number field: the text is the user's, the value follows, nothing is clamped. */
export const NumberField = (props: NumberFieldProps) => {
  const { rule, value, step } = props;
  const name = props.label ?? rule.name;
  const by = (steps: number) => {
    if (step === undefined) return;
    const from = value ?? Math.max(rule.min, Math.min(rule.max, 0));
    const next = Number(((Math.round(from / step) + steps) * step).toFixed(6));
    if (next < rule.min || next > rule.max) return;
    props.onValue(next);
  };
  const button = (steps: 1 | -1) => (
    <button
      type="button"
      aria-label={`${name} ${steps < 0 ? "down" : "up"}`}
      onClick={() => {
        by(steps);
        props.onDone?.();
      }}
    >
      <Icon name={steps < 0 ? "minus" : "plus"} />
    </button>
  );
  return (
    <Entry
      label={rule.unit === "" ? name : `${name}, ${rule.unit}`}
      value={value}
      shown={value === null ? "" : formatEntry(value)}
      read={(text) => readNumber(text, { ...rule, name })}
      onValue={props.onValue}
      onEmpty={rule.empty === undefined ? undefined : props.onEmpty}
      onDone={props.onDone}
      placeholder={rule.empty}
      keys={rule.min < 0 ? "text" : "decimal"}
      before={step === undefined ? null : button(-1)}
      after={step === undefined ? null : button(1)}
      onKey={(e) => {
        if (e.key === "ArrowUp") by(1);
        else if (e.key === "ArrowDown") by(-1);
        else return;
        e.preventDefault();
      }}
    />
  );
};
