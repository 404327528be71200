import type { BusFigures } from "../../core/headroom/figures";
import type { FarChannel } from "../../core/headroom/fold";
import type { Bus } from "../../core/model/setup";
import { formatDb } from "../../text/headroom";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { Table } from "../../ui/table";
import { channelTitle } from "../shown-names";
import { MonoHelp } from "./help";

const Far = ({ ear, far }: { ear: string; far: readonly FarChannel[] }) => (
  <Table
    caption={<>With the {ear} ear only: what drops against the other ear, dB</>}
    heads={["Channel", "Drop"]}
  >
    <tbody>
      {far.map((f) => (
        <tr key={f.channel}>
          <th scope="row">{channelTitle(f.channel)}</th>
          <td>{f.drop === Number.NEGATIVE_INFINITY ? "gone" : formatDb(f.drop)}</td>
        </tr>
      ))}
    </tbody>
  </Table>
);

/** What becomes of the pair in one side, and in one ear. */
export const MonoAndOneEar = ({ bus, figures }: { bus: Bus; figures: BusFigures }) => {
  if (!bus.stereo) return null;
  return (
    <Fold title="Folded to mono, and with one ear">
      {() => (
        <>
          <div class="two">
            <Table caption="Level in L + R against the channel at its send, dB" heads={["Channel", "Fold"]}>
              <tbody>
                {figures.folds.map((f) => (
                  <tr key={f.channel}>
                    <th scope="row">{channelTitle(f.channel)}</th>
                    <td>{formatDb(f.rise)}</td>
                  </tr>
                ))}
              </tbody>
            </Table>
            <div class="stack">
              <Far ear="left" far={figures.oneEar[0]} />
              <Far ear="right" far={figures.oneEar[1]} />
            </div>
          </div>
          <Explain about="How fold and drop are counted">
            <MonoHelp />
          </Explain>
        </>
      )}
    </Fold>
  );
};
