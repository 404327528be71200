import "./listen.css";
import { formatNumber } from "../../core/lib/number";
import { LEVELS } from "../../listen/output";

/** How loud it is, against the loudest that the device plays. */
export const LevelSlider = ({ value, onValue }: { value: number; onValue: (level: number) => void }) => {
  const [least, most] = LEVELS;
  const shown = `${formatNumber(value, 0)} dB`;
  return (
    <label class="field">
      <span class="label">Level: {shown}</span>
      <input
        class="level"
        type="range"
        min={least}
        max={most}
        step={1}
        value={value}
        aria-label="Level"
        aria-valuetext={shown}
        onInput={(e) => onValue(Number(e.currentTarget.value))}
      />
    </label>
  );
};

/** What is to be known before the first tap. */
export const Caution = () => (
  <p class="notice warn small">
    Start low: turn the phone down before the earpieces are in, then raise it slowly. Hearing damage is
    permanent. How loud it is here says nothing about how loud it will be on stage.
  </p>
);
