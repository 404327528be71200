import { worstFirst } from "../../core/headroom/direct-outs";
import { current, figures } from "../../document/store";
import { describeDirectOut } from "../../text/direct-outs";
import { Fold } from "../../ui/fold";
import { Table } from "../../ui/table";

/** Every direct out that a monitor input takes: its peak, its headroom and what limits it, the worst first. */
export const DirectOuts = () => {
  const { directOuts } = figures.value;
  if (directOuts.length === 0) return null;
  return (
    <Fold title="Direct outs">
      {() => (
        <Table
          caption="Peak at the direct out, dBFS; headroom, dB"
          heads={["Channel", "Peak", "Headroom", "Limiting stage"]}
        >
          <tbody>
            {worstFirst(directOuts).map((its) => {
              const [name, ...cells] = describeDirectOut(current.value, its);
              return (
                <tr key={its.channel}>
                  <th scope="row">{name}</th>
                  {cells.map((cell, at) => (
                    <td key={at}>{cell}</td>
                  ))}
                </tr>
              );
            })}
          </tbody>
        </Table>
      )}
    </Fold>
  );
};
