import { LINK_TABLE } from "../../text/trace-links";
import { Table } from "../../ui/table";

/** By what the order of looks is decided. */
export const TraceHelp = () => (
  <>
    <p>
      One link of the chain is taken to be broken. A look behind a link tells whether it lies before or after
      it. The looks are ordered so that the expected cost until one link is left is the least there is: the
      best search tree for these weights and costs, exactly.
    </p>
    <Table caption="How often each link is the one, and what a look costs" heads={["Link", "Weight", "Cost"]}>
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
      A direct out left off is the commonest. One button at the desk costs 1, the output page 2, asking the
      musician 2, the monitor system’s meters 3, walking to the musician 4.
    </p>
    <p>Source: search by dynamic programming (textbook); weights and costs are common practice, no source.</p>
  </>
);
