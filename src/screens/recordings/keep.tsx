import { useSignal } from "@preact/signals";
import { directed } from "../../core/direction";
import { clockSaid } from "../../core/number";
import type { Recording } from "../../core/setup";
import { counted } from "../../core/words";
import { forgetRecording, keepRecording } from "../../document/commands/recording";
import { current, readOnly } from "../../document/store";
import { Tick } from "../../pieces/choice";
import { Fold } from "../../pieces/fold";
import { Table } from "../../pieces/table";
import { runWithWord } from "../act";
import { sourceName } from "../names";
import { level } from "./words";

/** Keeps the figures in the setup, and on demand in its sources. */
export const Keep = ({ recording }: { recording: Recording }) => {
  const copy = useSignal(true);
  return (
    <section class="card stack" aria-labelledby="keep">
      <h2 id="keep">Keep these figures with the setup</h2>
      <Tick
        label="Copy level while playing and peak into the sources too, so that every estimate goes by them"
        value={copy.value}
        onValue={(v) => {
          copy.value = v;
        }}
      />
      <div class="row">
        <button
          type="button"
          class="main"
          disabled={readOnly.value}
          onClick={() =>
            runWithWord(
              keepRecording(recording, copy.value),
              `Figures of ${counted(recording.sources.length, "source")} kept`,
            )
          }
        >
          Keep these figures
        </button>
      </div>
      <Kept />
    </section>
  );
};

/** The figures that the setup has kept of an earlier measurement. */
export const Kept = () => {
  const kept = current.value.recording;
  if (!kept) return null;
  return (
    <Fold look="plain" title={`Kept: ${directed(kept.name)}, ${clockSaid(kept.seconds)}`}>
      {() => (
        <>
          <Table
            kind="figures"
            caption="dBFS, rms by samples; the audio itself was not kept"
            heads={["Source", "Playing", "Rms", "Peak", "True"]}
          >
            <tbody>
              {kept.sources.map((m) => (
                <tr key={m.source}>
                  <th scope="row">{sourceName(m.source)}</th>
                  <td>{level(m.playing)}</td>
                  <td>{level(m.rms)}</td>
                  <td>{level(m.peak)}</td>
                  <td>{level(m.truePeak)}</td>
                </tr>
              ))}
            </tbody>
          </Table>
          <div class="row">
            <button
              type="button"
              disabled={readOnly.value}
              onClick={() => runWithWord(forgetRecording(), "Measured figures forgotten")}
            >
              Forget them
            </button>
          </div>
        </>
      )}
    </Fold>
  );
};
