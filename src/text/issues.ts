import type { Issue, IssueCode, Severity } from "../core/inputs/issue";
import { quoted } from "../core/lib/direction";
import type { Id, Setup } from "../core/model/setup";
import type { Db, Sides } from "../core/model/units";
import { listenerName, SIDE_LETTERS } from "./names";
import { formatPort } from "./sheet";
import { MISFITS, TAP_NAMES } from "./taps";
import {
  capitalised,
  feedName,
  formatChange,
  formatCount,
  formatFew,
  formatInputs,
  formatList,
} from "./words";

/** What names are looked up in. */
type Names = Pick<Setup, "channels" | "buses" | "listeners" | "desk">;

/** How bad an issue is, as a word before it. */
export const SEVERITY_NAMES: { readonly [severity in Severity]: string } = {
  fault: "Fault",
  warn: "Check",
  note: "Note",
};

/** An issue in words: what is so, and what to do. */
export interface IssueText {
  readonly says: string;
  readonly remedy: string;
}

const be = (count: number): string => (count === 1 ? "is" : "are");

/** The channels and buses of an issue by name, few or counted: "Bass", "Bass and Keys", "12 channels". */
const subjects = (setup: Names, { channels, buses }: Issue): string => {
  const most = 4;
  const names = [
    ...buses.map((id) => feedName(setup, "bus", id)),
    ...channels.map((id) => feedName(setup, "channel", id)),
  ];
  if (names.length <= most) return formatList(names);
  return formatList([
    ...(buses.length > 0 ? [formatCount(buses.length, "bus", "buses")] : []),
    ...(channels.length > 0 ? [formatCount(channels.length, "channel")] : []),
  ]);
};

const listeners = (setup: Names, ids: readonly Id[]): string =>
  capitalised(formatFew(ids, (id) => listenerName(setup.listeners.find((l) => l.id === id))));

/** "+6.02 dB", or ear by ear where they differ. */
const formatRise = (rise: Sides<Db | null>): string => {
  const ears = rise.map((ear) => (ear === null ? null : formatChange(ear)));
  // Compared as they are shown: what differs by rounding only is the same.
  if (ears[0] !== null && ears[0] === ears[1]) return ears[0] ?? "";
  return formatList(["left", "right"].flatMap((side, i) => (ears[i] === null ? [] : [`${ears[i]} ${side}`])));
};

type Describe<Code extends IssueCode> = (
  issue: Extract<Issue, { code: Code }>,
  setup: Names,
) => readonly [says: string, remedy: string];

const ISSUES: { readonly [code in IssueCode]: Describe<code> } = {
  "too many": ({ values: { used, inputCount, over } }) => [
    `${formatCount(used, "feed")} for ${formatCount(inputCount, "input")}: ${over} too many.`,
    "Choose one of the ways to free inputs.",
  ],
  "beyond last": ({ inputs, values: { inputCount, free } }) => [
    `${capitalised(formatInputs(inputs))} ${be(inputs.length)} beyond the last: the system has ${inputCount}.`,
    `Move ${inputs.length === 1 ? "it" : "them"} to a free input: ${formatList(free.map((i) => String(i + 1)))}.`,
  ],
  "heard twice": (issue, setup) => {
    const { direct, within, rise } = issue.values;
    const name = feedName(setup, "channel", issue.channels[0] ?? "");
    const bus = feedName(setup, "bus", issue.buses[0] ?? "");
    return [
      `${name} is heard twice: as a direct out (${formatInputs(direct)}) and in ${bus} (${formatInputs(within)}). With both up its level changes by ${formatRise(rise)}.`,
      `Free ${formatInputs(direct)}, or turn the send to ${bus} off, unless it is meant.`,
    ];
  },
  "patched twice": (issue, setup) => {
    const { again, rise } = issue.values;
    const louder =
      rise === null ? `Input ${again + 1} is off.` : `With both up it is ${formatChange(rise)} louder.`;
    return [
      `${subjects(setup, issue)} is patched twice: ${formatInputs(issue.inputs)}. ${louder}`,
      `Free input ${again + 1}: nothing is lost.`,
    ];
  },
  "spare side": (issue, setup) => [
    `${subjects(setup, issue)} is folded to mono: ${formatInputs(issue.inputs)} carry the same.`,
    `One input is enough: free ${formatInputs(issue.values.spare)}.`,
  ],
  split: (issue, setup) => [
    `${subjects(setup, issue)} L/R are in ${formatInputs(issue.inputs)}, not next to each other: mixers that link neighbours can’t make them a pair.`,
    "Move L and R next to each other.",
  ],
  swapped: (issue, setup) => [
    `${subjects(setup, issue)} L/R are swapped in ${formatInputs(issue.inputs)}${issue.buses.length > 0 ? ", but planned normal" : ""}.`,
    `Swap ${formatInputs(issue.inputs)}${issue.buses.length > 0 ? ", or plan it as L/R swapped" : ""}.`,
  ],
  normal: (issue, setup) => [
    `${subjects(setup, issue)} is planned as L/R swapped, but L/R are normal in ${formatInputs(issue.inputs)}.`,
    `Swap ${formatInputs(issue.inputs)}, or plan it as L/R normal.`,
  ],
  "odd and even": (issue, setup) => [
    `${subjects(setup, issue)} L/R start on an even input (${formatInputs(issue.inputs)}): mixers that link 1 and 2, 3 and 4 can’t make them a pair.`,
    "If yours is one of them, start the pair on an odd input.",
  ],
  "only one side": (issue, setup) => {
    const { missing } = issue.values;
    const has = SIDE_LETTERS[missing === "left" ? "right" : "left"];
    const name = subjects(setup, issue);
    return [
      `Only ${name} ${has} has an input: everything panned ${missing} is missing.`,
      `Give ${name} ${SIDE_LETTERS[missing]} the input next to it, or make ${name} mono.`,
    ];
  },
  off: (issue, setup) => {
    const many = issue.channels.length + issue.buses.length;
    return [
      `${subjects(setup, issue)} ${be(many)} off: nobody hears ${formatInputs(issue.inputs)}.`,
      `Turn ${many === 1 ? "it" : "them"} on, or free the ${issue.inputs.length === 1 ? "input" : "inputs"}.`,
    ];
  },
  muted: (issue, setup) => {
    const many = issue.channels.length;
    return [
      `${subjects(setup, issue)} ${be(many)} muted: ${formatInputs(issue.inputs)} ${be(issue.inputs.length)} silent.`,
      `Unmute ${many === 1 ? "it" : "them"}, or free the ${issue.inputs.length === 1 ? "input" : "inputs"}.`,
    ];
  },
  "tap point": (issue, setup) => {
    const { tap, better, why } = issue.values;
    return [
      `${subjects(setup, issue)} (${formatInputs(issue.inputs)}) ${be(issue.channels.length)} tapped ${TAP_NAMES[tap]}: ${MISFITS[why]}.`,
      `Change the tap point to ${TAP_NAMES[better]}.`,
    ];
  },
  "empty bus": (issue, setup) => [
    `${subjects(setup, issue)} ${issue.buses.length === 1 ? "has an input" : "have inputs"} but no signal: every send is off or muted.`,
    "Turn on a send, or free the inputs.",
  ],
  "unfed bus": (issue, setup) => {
    const one = issue.buses.length === 1;
    return [
      `${subjects(setup, issue)} ${one ? "has" : "have"} no monitor input: nobody hears ${one ? "it" : "them"}.`,
      `Assign ${one ? "it to monitor inputs, or remove the bus" : "them to monitor inputs, or remove the buses"}.`,
    ];
  },
  "no bus": ({ listeners: who }, setup) => [
    `${listeners(setup, who)} ${who.length === 1 ? "hears" : "hear"} no bus, only direct outs.`,
    "Choose a bus for them, unless that is meant.",
  ],
  "unfed listener": (issue, setup) => {
    const bus = feedName(setup, "bus", issue.buses[0] ?? "");
    const { listeners: who } = issue;
    const unassigned = issue.values.bus === "unassigned";
    return [
      `${listeners(setup, who)} ${who.length === 1 ? "listens" : "listen"} to ${bus}, which is ${unassigned ? "unassigned" : "off"}.`,
      unassigned ? `Assign ${bus} to monitor inputs.` : `Turn ${bus} on.`,
    ];
  },
  "unfed channel": (issue, setup) => {
    const one = issue.channels.length === 1;
    return [
      `${subjects(setup, issue)} ${one ? "reaches" : "reach"} nobody: no direct out, and in no patched bus.`,
      `Give ${one ? "it an input" : "each an input"}, or send ${one ? "it" : "them"} to a patched bus.`,
    ];
  },
  "same name": ({ channels, buses, values: { name } }) => [
    `${channels.length > 0 ? formatCount(channels.length, "channel") : formatCount(buses.length, "bus", "buses")} ${name === "" ? "have no name" : `are named ${quoted(name)}`}.`,
    "Give each its own name: on the patch sheet nobody can tell them apart.",
  ],
  "same number": (issue, setup) => {
    const what = issue.buses.length > 0 ? "bus" : "channel";
    return [
      `${subjects(setup, issue)} have the same ${what} number, ${issue.values.number}.`,
      `Correct the ${what} number of one of them.`,
    ];
  },
  "beyond desk": (issue, setup) => {
    const [what, many] = issue.buses.length > 0 ? ["bus", "buses"] : ["channel", "channels"];
    const one = issue.channels.length + issue.buses.length === 1;
    return [
      `${subjects(setup, issue)} ${one ? `has a ${what} number` : `have ${what} numbers`} beyond the desk’s last, ${issue.values.count}.`,
      `Correct ${one ? "it" : "them"}, or the number of ${many} of the desk.`,
    ];
  },
  "beyond ports": ({ inputs, values: { last } }, setup) => {
    const one = inputs.length === 1;
    return [
      `${capitalised(formatInputs(inputs))} ${one ? "has an output port" : "have output ports"} beyond the desk’s last, ${formatPort(setup.desk, last)}.`,
      `Correct ${one ? "it" : "them"}, or the number of output ports of the desk.`,
    ];
  },
  "same port": ({ inputs, values: { port } }, setup) => [
    `${formatPort(setup.desk, port)} is entered for ${formatInputs(inputs)}, which take different signals.`,
    "Correct the output port of all but one of them.",
  ],
  "send off": (issue, setup) => {
    const one = issue.channels.length === 1;
    const names = subjects(setup, { ...issue, buses: [] });
    const bus = feedName(setup, "bus", issue.buses[0] ?? "");
    return [
      `${names} ${be(issue.channels.length)} in ${bus}, but ${one ? "the send is" : "their sends are"} off.`,
      `Turn ${one ? "it" : "them"} on, unless that is meant.`,
    ];
  },
  "nothing fed": (issue, setup) => [
    "No monitor input carries a signal.",
    issue.buses.length > 0
      ? `Start with ${formatFew(issue.buses, (id) => feedName(setup, "bus", id))}.`
      : "Assign the first channel to an input.",
  ],
};

/** What is so, and what to do about it. */
export const describeIssue = (setup: Names, issue: Issue): IssueText => {
  // The table pairs each code with its own values, which the compiler cannot follow through the union.
  const describe = ISSUES[issue.code] as Describe<IssueCode>;
  const [says, remedy] = describe(issue, setup);
  return { says, remedy };
};
