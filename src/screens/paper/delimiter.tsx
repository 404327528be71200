import { useSignal } from "@preact/signals";
import { useId } from "preact/hooks";
import { asTyped } from "../../core/lib/number";
import { DELIMITER_NAMES, DELIMITERS, type Delimiter, isDelimiter } from "../../shelf/csv";
import { Choice } from "../../ui/choice";

const ANOTHER = "another";

/** A delimiter that has no name here, typed. */
const Another = ({ value, onValue }: { value: Delimiter; onValue: (delimiter: Delimiter) => void }) => {
  const id = useId();
  const typed = useSignal(value);
  const wrong = typed.value !== "" && !isDelimiter(typed.value);
  return (
    <div class="field">
      <label for={id}>Character</label>
      <input
        id={id}
        type="text"
        autocomplete="off"
        value={typed.value}
        aria-invalid={wrong}
        aria-describedby={wrong ? `${id}-wrong` : undefined}
        onInput={(e) => {
          typed.value = e.currentTarget.value;
          if (isDelimiter(typed.value)) onValue(typed.value);
        }}
      />
      {wrong ? (
        <p class="wrong" id={`${id}-wrong`} role="alert">
          Delimiter: “{asTyped(typed.value)}” cannot be it. Allowed: one character, no quotation mark.
        </p>
      ) : null}
    </div>
  );
};

/** What stands between the cells: guessed, and changed by the user, to any character. */
export const DelimiterChoice = (props: { value: Delimiter; onValue: (delimiter: Delimiter) => void }) => {
  const isNamed = props.value in DELIMITER_NAMES;
  const isAnother = useSignal(!isNamed);
  return (
    <>
      <Choice<string>
        label="Delimiter"
        value={isAnother.value ? ANOTHER : props.value}
        options={[
          ...DELIMITERS.map((d) => [d, DELIMITER_NAMES[d] ?? d] as const),
          [ANOTHER, "another character"],
        ]}
        onValue={(v) => {
          isAnother.value = v === ANOTHER;
          if (v !== ANOTHER) props.onValue(v);
        }}
      />
      {isAnother.value ? <Another value={isNamed ? "" : props.value} onValue={props.onValue} /> : null}
    </>
  );
};
