import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { useId, useLayoutEffect, useRef } from "preact/hooks";
import type { Typed } from "../core/lib/number";
import { describeEntryFault, type EntryFault } from "../text/entry";

/** A field whose text the user owns while it has the focus. */
export interface EntryProps {
  readonly label: string;
  /** The value in force; null where there is none. */
  readonly value: number | null;
  /** The value as text, shown while nobody types. */
  readonly shown: string;
  /** What a text means; "open" is half-typed and no error. */
  readonly read: (text: string) => Typed<EntryFault>;
  /** Called with every text that is a value, while typing. */
  readonly onValue: (value: number) => void;
  /** Called with an emptied field that may be empty. */
  readonly onEmpty?: (() => void) | undefined;
  /** Called when the field is left: one visit is one step of undo. */
  readonly onDone?: (() => void) | undefined;
  /** Shown in an empty field. */
  readonly placeholder?: string | undefined;
  /** Keys of the phone: whole and positive numbers get a number pad, others need the minus sign. */
  readonly keys?: "decimal" | "text" | undefined;
  readonly hideLabel?: boolean | undefined;
  readonly before?: ComponentChildren;
  readonly after?: ComponentChildren;
  readonly onKey?: ((event: KeyboardEvent) => void) | undefined;
}

/**
 * A text field for a value. What is typed stays as typed until the field is left;
 * a wrong text stays even then, with the reason under it. While the text is no value, the one from before
 * the visit is in force: never what a half of the text happens to mean.
 */
export const Entry = (props: EntryProps) => {
  const id = useId();
  const typed = useSignal<string | null>(null);
  const wrong = useSignal("");
  const before = useRef(props.value);
  const seen = useRef(props.value);
  // At once, not after the paint: a fast typist has put the next value by then.
  useLayoutEffect(() => {
    if (props.value === seen.current) return;
    // Changed by a button, a key or undo: what was typed is over.
    seen.current = props.value;
    before.current = props.value;
    typed.value = null;
    wrong.value = "";
  }, [props.value]);
  const put = (value: number | null) => {
    seen.current = value;
    if (value !== null) props.onValue(value);
    else props.onEmpty?.();
  };
  const input = (text: string) => {
    typed.value = text;
    const meant = props.read(text);
    wrong.value = meant.state === "wrong" ? describeEntryFault(meant.why) : "";
    if (meant.state === "value") put(meant.value);
    else if (text.trim() === "" && props.onEmpty) put(null);
    else if (props.value !== before.current) put(before.current);
  };
  const leave = () => {
    if (wrong.value === "") typed.value = null;
    props.onDone?.();
  };
  return (
    <div class="field">
      <label for={id} class={props.hideLabel ? "hidden-visually" : ""}>
        {props.label}
      </label>
      <div class="entry">
        {props.before}
        <input
          id={id}
          type="text"
          inputMode={props.keys ?? "text"}
          enterKeyHint="done"
          autocomplete="off"
          spellcheck={false}
          value={typed.value ?? props.shown}
          placeholder={props.placeholder}
          aria-invalid={wrong.value !== ""}
          aria-describedby={wrong.value === "" ? undefined : `${id}-wrong`}
          onFocus={(e) => {
            before.current = props.value;
            e.currentTarget.select();
          }}
          onInput={(e) => input(e.currentTarget.value)}
          onBlur={leave}
          onKeyDown={(e) => {
            if (e.key === "Enter") e.currentTarget.blur();
            else props.onKey?.(e);
          }}
        />
        {props.after}
      </div>
      {wrong.value === "" ? null : (
        <p class="wrong" id={`${id}-wrong`} role="alert">
          {wrong.value}
        </p>
      )}
    </div>
  );
};
