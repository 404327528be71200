import type { ComponentChildren } from "preact";
import { useId } from "preact/hooks";

/** One of a few, all in sight. */
export function Choice<T extends string>(props: {
  label: string;
  hideLabel?: boolean;
  value: T;
  options: readonly (readonly [value: T, name: string])[];
  onValue: (value: T) => void;
}) {
  const id = useId();
  return (
    <fieldset class="field">
      <legend class={props.hideLabel ? "hidden-visually" : "soft small"}>{props.label}</legend>
      <div class="choice">
        {props.options.map(([value, name]) => (
          <label key={value}>
            <input
              type="radio"
              name={id}
              value={value}
              checked={value === props.value}
              onChange={() => props.onValue(value)}
            />
            {name}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** One of many, in the platform's own list. */
export function Pick<T extends string>(props: {
  label: string;
  hideLabel?: boolean;
  value: T;
  options: readonly (readonly [value: T, name: string])[];
  onValue: (value: T) => void;
  disabled?: boolean;
}) {
  const id = useId();
  return (
    <div class="field">
      <label for={id} class={props.hideLabel ? "hidden-visually" : ""}>
        {props.label}
      </label>
      <select
        id={id}
        value={props.value}
        disabled={props.disabled}
        onChange={(e) => props.onValue(e.currentTarget.value as T)}
      >
        {props.options.map(([value, name]) => (
          <option key={value} value={value}>
            {name}
          </option>
        ))}
      </select>
    </div>
  );
}

/** More than this would push what is below out of sight on a phone. */
const IN_SIGHT = 3;

/** One of some: all in sight where they are few. */
export function OneOf(props: {
  label: string;
  value: string;
  options: readonly (readonly [value: string, name: string])[];
  onValue: (value: string) => void;
}) {
  const Part = props.options.length <= IN_SIGHT ? Choice : Pick;
  return <Part {...props} />;
}

/** Yes or no. */
export const Tick = (props: {
  label: ComponentChildren;
  value: boolean;
  onValue: (value: boolean) => void;
  disabled?: boolean;
}) => (
  <label class="tick">
    <input
      type="checkbox"
      checked={props.value}
      disabled={props.disabled}
      onChange={(e) => props.onValue(e.currentTarget.checked)}
    />
    <span>{props.label}</span>
  </label>
);
