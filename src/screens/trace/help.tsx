import { LINK_TABLE } from "../../text/trace-links";
import { Table } from "../../ui/table";

/** By what the order of looks is decided. */
export const TraceHelp = () => (
  <>
    <p>
      One link of the chain is assumed to be broken. A look after a link tells whether the fault is before or
      after it. The order of looks has the lowest expected cost until one link is left: the exact best search
      tree for these weights and costs.
    </p>
    <Table
      caption="How often each link is the fault, and what a look costs"
      heads={["Link", "Weight", "Cost"]}
    >
      <tbody>
        {LINK_TABLE.map(([link, weight, cost]) => (
          <tr key={link}>
            <th scope="row">{link}</th>
            <td>{weight}</td>
            <td>{cost}</td>
          </tr>
        ))}
      </tbody>
    </Table>
    <p>
      A direct out left off is the most common. One button at the desk costs 1, the output page 2, asking the
      musician 2, the monitor system’s meters 3, walking to the musician 4.
    </p>
    <p>Source: search by dynamic programming (textbook); weights and costs are common practice, no source.</p>
  </>
);
