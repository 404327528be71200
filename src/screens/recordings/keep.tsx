import { useSignal } from "@preact/signals";
import { isolated } from "../../core/lib/direction";
import { formatClock } from "../../core/lib/number";
import type { Recording } from "../../core/model/setup";
import { forgetRecording, keepRecording } from "../../document/commands/recording";
import { current, readOnly } from "../../document/store";
import { formatCount } from "../../text/words";
import { Tick } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { Table } from "../../ui/table";
import { runWithWord } from "../act";
import { channelTitle } from "../shown-names";
import { level } from "./words";

/** Keeps the figures in the setup, and on demand in its channels. */
export const Keep = ({ recording }: { recording: Recording }) => {
  const copy = useSignal(true);
  return (
    <section class="card stack" aria-labelledby="keep">
      <h2 id="keep">Keep these figures with the setup</h2>
      <Tick
        label="Copy gated RMS and peak into the channels too, so that every estimate uses them"
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
              `Figures of ${formatCount(recording.channels.length, "channel")} kept`,
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
    <Fold look="plain" title={`Kept: ${isolated(kept.name)}, ${formatClock(kept.seconds)}`}>
      {() => (
        <>
          <Table
            kind="figures"
            caption="dBFS, true peak dBTP; RMS by samples; the audio itself was not kept"
            heads={["Channel", "Gated RMS", "RMS", "Peak", "True peak"]}
          >
            <tbody>
              {kept.channels.map((m) => (
                <tr key={m.channel}>
                  <th scope="row">{channelTitle(m.channel)}</th>
                  <td>{level(m.gatedRms)}</td>
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
              onClick={() => runWithWord(forgetRecording(), "Measured figures removed")}
            >
              Remove
            </button>
          </div>
        </>
      )}
    </Fold>
  );
};
