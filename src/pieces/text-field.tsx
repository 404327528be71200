import { useId } from "preact/hooks";

/** A line of free text; hostile or not, it is only ever shown as text. */
export const TextField = (props: {
  label: string;
  value: string;
  onValue: (text: string) => void;
  onDone?: () => void;
  hideLabel?: boolean;
  placeholder?: string;
  /** Most characters; the field takes no more. */
  most?: number;
}) => {
  const id = useId();
  return (
    <div class="field">
      <label for={id} class={props.hideLabel ? "hidden-visually" : ""}>
        {props.label}
      </label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        enterKeyHint="done"
        maxLength={props.most ?? 80}
        value={props.value}
        placeholder={props.placeholder}
        onInput={(e) => props.onValue(e.currentTarget.value)}
        onBlur={() => props.onDone?.()}
        onKeyDown={(e) => {
          if (e.key === "Enter") e.currentTarget.blur();
        }}
      />
    </div>
  );
};
