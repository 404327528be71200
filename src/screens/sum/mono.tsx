import type { Sum } from "../../core/setup";
import type { SumFigures } from "../../core/sum/figures";
import type { FarSource } from "../../core/sum/folded";
import { db } from "../../core/sum/say";
import { Explain } from "../../pieces/explain";
import { Fold } from "../../pieces/fold";
import { Table } from "../../pieces/table";
import { sourceName } from "../names";
import { MonoHelp } from "./help";

const Far = ({ ear, far }: { ear: string; far: readonly FarSource[] }) => (
  <Table
    caption={<>With the {ear} ear only: what drops against the other ear, dB</>}
    heads={["Source", "Drop"]}
  >
    <tbody>
      {far.map((f) => (
        <tr key={f.source}>
          <th scope="row">{sourceName(f.source)}</th>
          <td>{f.drop === Number.NEGATIVE_INFINITY ? "gone" : db(f.drop)}</td>
        </tr>
      ))}
    </tbody>
  </Table>
);

/** What becomes of the pair in one leg, and in one ear. */
export const MonoAndOneEar = ({ sum, figures }: { sum: Sum; figures: SumFigures }) => {
  if (!sum.stereo) return null;
  return (
    <Fold title="Folded to mono, and with one ear">
      {() => (
        <>
          <div class="two">
            <Table
              caption="Level in the plain sum left + right against the source at its send, dB"
              heads={["Source", "Fold"]}
            >
              <tbody>
                {figures.folds.map((f) => (
                  <tr key={f.source}>
                    <th scope="row">{sourceName(f.source)}</th>
                    <td>{db(f.rise)}</td>
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
