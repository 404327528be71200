import { useEffect } from "preact/hooks";
import { shelf } from "../../shelf/here";
import { askToKeep, isKept } from "../../shelf/persist";
import { Choice } from "../../ui/choice";
import { offline } from "../state";
import { setTheme, theme } from "../theme";

const storage = (): string => {
  if (shelf.saving.value.state === "unavailable")
    return "Nothing can be saved in this browser: download your setups.";
  if (isKept.value === null)
    return "Setups are saved in this browser; it may clear them when space is short.";
  return isKept.value
    ? "Setups are saved in this browser, which promised not to clear them by itself."
    : "Setups are saved in this browser, but it may clear them when space is short. Back them up.";
};

const copy = (): string => {
  const { ready, failed } = offline.value;
  if (ready) return "Works offline on this device.";
  return failed === ""
    ? "Not kept on this device yet: stay online until this line changes."
    : `No offline copy: ${failed}. It works online only.`;
};

/** How the app looks, and what this device keeps. */
export const Device = () => {
  const { look } = offline.value;
  // Others can clear the copy while the page is open: what is promised here is looked up.
  useEffect(() => void look?.(), [look]);
  return (
    <section class="card stack" aria-labelledby="device">
      <h2 id="device">This device</h2>
      <Choice
        label="Theme"
        value={theme.value}
        options={[
          ["dark", "Dark"],
          ["light", "Light"],
          ["device", "System"],
        ]}
        onValue={setTheme}
      />
      <p>{copy()}</p>
      <p>{storage()}</p>
      <div class="row">
        {isKept.value === null ? (
          <button type="button" onClick={() => void askToKeep()}>
            Ask the browser to keep them
          </button>
        ) : null}
        <a class="press" href="#about">
          About Hatside, cautions, sources
        </a>
      </div>
    </section>
  );
};
