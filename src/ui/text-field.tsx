import { useSignal } from "@preact/signals";
import { useId, useLayoutEffect, useRef } from "preact/hooks";

/**
 * Free text; hostile or not, it is only ever shown as text. One that is too long stays as typed, with a sentence
 * under it, and what was there before stays in force.
 */
export const TextField = (props: {
  label: string;
  value: string;
  onValue: (text: string) => void;
  onDone?: () => void;
  hideLabel?: boolean;
  placeholder?: string;
  disabled?: boolean;
  /** Most characters. */
  most: number;
  /** Several lines in sight; one without it. */
  lines?: number;
  /** Takes the focus as it comes, with its text selected. */
  selected?: boolean;
}) => {
  const id = useId();
  const long = useSignal<string | null>(null);
  useLayoutEffect(() => {
    // Changed by undo or from elsewhere: what was typed is over.
    long.value = null;
  }, [props.value]);
  const input = useRef<HTMLInputElement>(null);
  useLayoutEffect(() => {
    if (props.selected) input.current?.select();
  }, [props.selected]);
  const letters = [...(long.value ?? "")].length;
  const field = {
    id,
    autocomplete: "off",
    value: long.value ?? props.value,
    placeholder: props.placeholder,
    disabled: props.disabled,
    "aria-invalid": long.value !== null,
    "aria-describedby": long.value === null ? undefined : `${id}-wrong`,
    onInput: (e: { currentTarget: { value: string } }) => {
      const text = e.currentTarget.value;
      const fits = [...text].length <= props.most;
      long.value = fits ? null : text;
      if (fits) props.onValue(text);
    },
    onBlur: () => props.onDone?.(),
  };
  return (
    <div class="field">
      <label for={id} class={props.hideLabel ? "hidden-visually" : ""}>
        {props.label}
      </label>
      {props.lines ? (
        <textarea {...field} rows={props.lines} />
      ) : (
        <input
          {...field}
          ref={input}
          type="text"
          enterKeyHint="done"
          onKeyDown={(e) => {
            if (e.key === "Enter") e.currentTarget.blur();
          }}
        />
      )}
      {long.value === null ? null : (
        <p class="wrong" id={`${id}-wrong`} role="alert">
          {props.label}: {letters} characters are too many. Allowed: up to {props.most}. The old text stays.
        </p>
      )}
    </div>
  );
};
