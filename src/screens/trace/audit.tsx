import { fohTakes, idleDirectOuts, inputsWithoutPort } from "../../core/inputs/foh-reach";
import type { IssueCode } from "../../core/inputs/issue";
import { hearsFoh } from "../../core/model/kinds";
import { current } from "../../document/store";
import { describeIssue } from "../../text/issues";
import { listenerName } from "../../text/names";
import { describeIdle, describePortless, describeTake } from "../../text/switch-audit";
import { Table } from "../../ui/table";
import { patchNow } from "../patch-figures";
import { chosenListener } from "../state";

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

/** What a mute or a fader at FOH takes from whose ears the screen is about. */
const Takes = () => {
  const setup = current.value;
  const listener = chosenListener.value;
  const who = listenerName(listener);
  const takes = listener ? fohTakes(setup, listener) : [];
  if (takes.length === 0) return <p>No mute and no fader at FOH takes anything from {who}.</p>;
  return (
    <Table caption={`What FOH takes from ${who}`} heads={["Channel", "Channel mute", "Channel fader"]}>
      <tbody>
        {takes.map((take) => {
          const { channel, mute, fader } = describeTake(setup, take);
          return (
            <tr key={take.channel}>
              <th scope="row">{channel}</th>
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
    {chosenListener.value && hearsFoh(chosenListener.value) ? null : <Takes />}
    <p class="soft small">
      A musician hears every monitor input, but of the buses that somebody listens to only their own. What is
      not in the table stays as it is, whatever FOH does. What a mute takes is set by the desk’s rule, in
      Channels.
    </p>
  </div>
);
