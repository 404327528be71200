import type { DrumResult } from "../../core/hear/heard";
import { formatNumber } from "../../core/lib/number";
import { earPosition } from "../../core/stereo/position";
import { formatRightLessLeft } from "../../text/hear-input";
import { Table } from "../../ui/table";
import { type Thread, Threads } from "../../ui/threads";
import { pieceName } from "../check/words";

/** Each drum as planned and as measured, as threads: what differs is crossed out at its lower end. */
const Drawing = ({ drums }: { drums: readonly DrumResult[] }) => {
  const heard = drums.filter(({ measured }) => measured !== null);
  if (heard.length === 0) return null;
  const threads = heard.map(
    ({ piece, expected, measured, asPlanned }): Thread => ({
      id: piece,
      name: pieceName(piece),
      stands: earPosition(expected.difference),
      heard: earPosition(measured?.difference ?? 0),
      agreement: asPlanned === false ? "wrong" : "right",
    }),
  );
  const off = heard.filter(({ asPlanned }) => asPlanned === false).length;
  return (
    <Threads
      threads={threads}
      above="Where the plan has each drum"
      below={`Where each was measured${off > 0 ? "; × marks what differs" : ""}`}
      says={`${heard.length} drums measured, ${off} differ from the plan. The table below has the figures.`}
      turn=""
    />
  );
};

/** What each drum should bring and what it brought, drawn and in figures. */
export const DrumTable = ({ drums }: { drums: readonly DrumResult[] }) => (
  <div class="stack">
    <Drawing drums={drums} />
    <Table
      kind="figures"
      caption="R − L of each drum, dB"
      heads={["Drum", "Planned", "Measured", "Correlation", "Hits"]}
    >
      <tbody>
        {drums.map(({ piece, expected, measured, asPlanned, hits }) => (
          <tr key={piece}>
            <th scope="row">
              {pieceName(piece)}
              {asPlanned === false ? <span class="small bad"> × differs</span> : null}
            </th>
            <td>{formatRightLessLeft(expected.difference)}</td>
            <td class={asPlanned === false ? "bad" : ""}>
              {measured ? formatRightLessLeft(measured.difference) : hits > 0 ? "no signal" : "–"}
            </td>
            <td>
              {measured?.correlation === null || !measured ? "–" : formatNumber(measured.correlation, 2)}
            </td>
            <td>{hits}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  </div>
);
