import { fohReach, idleDirectOuts, inputsWithoutPort } from "../../core/inputs/foh-reach";
import type { IssueCode } from "../../core/inputs/issue";
import { current } from "../../document/store";
import { describeIssue } from "../../text/issues";
import { describeIdle, describePortless, describeReach } from "../../text/switch-audit";
import { Table } from "../../ui/table";
import { patchNow } from "../patch-figures";

/** Issues of the patch that one switch or one port makes. */
const SWITCHES: readonly IssueCode[] = [
  "off",
  "muted",
  "send off",
  "same port",
  "beyond last",
  "nothing fed",
];

/** Switches and ports that are not as the plan needs them. */
const Findings = () => {
  const setup = current.value;
  const issues = patchNow.value.issues.filter(({ code }) => SWITCHES.includes(code));
  const rest = [describeIdle(setup, idleDirectOuts(setup)), describePortless(inputsWithoutPort(setup))];
  const more = rest.filter((line) => line !== "");
  if (issues.length + more.length === 0) return <p>Every switch is as the plan needs it.</p>;
  return (
    <ul>
      {issues.map((issue) => {
        const { says, remedy } = describeIssue(setup, issue);
        return (
          <li key={says}>
            {says} {remedy}
          </li>
        );
      })}
      {more.map((line) => (
        <li key={line}>{line}</li>
      ))}
    </ul>
  );
};

/** What a mute or a fader at FOH takes from the musicians’ ears. */
const Reach = () => {
  const setup = current.value;
  const reach = fohReach(setup);
  const reached = reach.filter((r) => r.byMute || r.byFader);
  if (reached.length === 0) return <p>No mute and no fader at FOH takes anything from the musicians.</p>;
  return (
    <Table caption="What FOH takes from the musicians" heads={["Feed", "Channel mute", "Channel fader"]}>
      <tbody>
        {reached.map((r) => {
          const { feed, mute, fader } = describeReach(setup, r);
          return (
            <tr key={feed}>
              <th scope="row">{feed}</th>
              <td>{mute}</td>
              <td>{fader}</td>
            </tr>
          );
        })}
      </tbody>
    </Table>
  );
};

/** Every switch against the plan, and what FOH does to monitors by accident. */
export const SwitchAudit = () => (
  <div class="stack">
    <Findings />
    <Reach />
    <p class="soft small">
      Every musician mixes from the same monitor inputs, so it is the same for all. What is not in the table
      stays as it is, whatever FOH does. What a mute takes is set by the desk’s rule, in Channels.
    </p>
  </div>
);
