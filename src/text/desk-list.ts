import {
  CONTROL_OWNERS,
  type ControlCode,
  type ControlValues,
  type PatchedFeed,
} from "../core/inputs/controls";
import type { DeskMove, DeskSection, Kinship } from "../core/inputs/desk-list";
import { formatEntry } from "../core/lib/number";
import type { Bus, DirectOut, Feed, Id, Send, Setup } from "../core/model/setup";
import type { Db, Pan } from "../core/model/units";
import { formatPan } from "../core/pan/notation";
import { busName, formatDeskNumbers, mixerName, nameOr, numberedName } from "./names";
import { formatFeed, formatNumbers, formatPort } from "./sheet";
import { TAP_NAMES } from "./taps";
import { capitalised, formatCount } from "./words";

/** What names and numbers are looked up in. */
type Names = Pick<Setup, "channels" | "buses" | "listeners" | "desk" | "monitor">;

/** Two plans as one, to look names up in: what is no more has its name from the plan before. */
export const namesOfBoth = (from: Setup | null, to: Setup): Names =>
  from
    ? {
        ...to,
        channels: [...to.channels, ...from.channels],
        buses: [...to.buses, ...from.buses],
        listeners: [...to.listeners, ...from.listeners],
      }
    : to;

/** A level as it is set: "−6 dB", "−∞". */
export const formatLevel = (level: Db | null): string => (level === null ? "−∞" : `${formatEntry(level)} dB`);
const onOff = (value: boolean): string => (value ? "on" : "off");
const letters = (value: readonly [string, string]): string => `L ${value[0]}, R ${value[1]}`;
const formatPanIn = (names: Names, pan: Pan | null): string =>
  pan === null ? "follows channel pan" : `pan ${formatPan(pan, names.desk)}`;
const formatNumberList = (word: string, numbers: readonly number[]): string =>
  numbers.length === 0 ? "no number" : `${word} ${formatDeskNumbers(numbers)}`;

const directOutParts = ({ on, tap, trim }: DirectOut): readonly string[] =>
  on ? ["on", TAP_NAMES[tap], `trim ${formatLevel(trim)}`] : ["off"];

const sendParts = (
  { on, level, tap, pan }: Omit<Send, "channel">,
  names: Names,
  into: Bus | undefined,
): readonly string[] => {
  if (!on) return ["off"];
  const parts = ["on", formatLevel(level), TAP_NAMES[tap]];
  return into?.stereo ? [...parts, formatPanIn(names, pan)] : parts;
};

/** What an output port or an input is fed by, as the desk lists it: "Bus 5 Drums L", "Ch 12 Bass direct out". */
export const formatSource = (names: Pick<Names, "channels" | "buses" | "desk">, feed: Feed): string => {
  const isBus = feed.kind === "bus";
  const thing = isBus
    ? names.buses.find((b) => b.id === feed.bus)
    : names.channels.find((c) => c.id === feed.channel);
  const stereo = thing !== undefined && ("stereo" in thing ? thing.stereo : thing.lines === 2);
  const [first, second] = thing?.numbers ?? [];
  const ofSide = feed.side === "left" ? [first] : feed.side === "right" ? [second ?? first] : [first, second];
  const numbers = ofSide.filter((n) => n !== undefined);
  const number = numbers.length > 0 ? `${formatNumbers(feed, numbers)} ` : "";
  return `${number}${formatFeed(names, feed, stereo)}${isBus ? "" : " direct out"}`;
};

const feedParts = (patched: PatchedFeed | null, names: Names): readonly string[] => {
  if (!patched) return ["nothing"];
  const { feed, port } = patched;
  return [formatSource(names, feed), port === null ? "no port" : `via ${formatPort(names.desk, port)}`];
};

/** What a control is called, and its value: one text for each thing that is set by itself. */
interface ControlText<Code extends ControlCode> {
  readonly name: string;
  readonly parts: (value: ControlValues[Code], names: Names, into: Bus | undefined) => readonly string[];
  /** Whether a part goes without saying where nothing is compared; none does without it. */
  readonly isPlain?: (value: ControlValues[Code], part: number) => boolean;
}

const text = <Code extends ControlCode>(
  name: string,
  format: (value: ControlValues[Code], names: Names) => string,
): ControlText<Code> => ({ name, parts: (value, names) => [format(value, names)] });

const CONTROLS: { readonly [code in ControlCode]: ControlText<code> } = {
  "channel number": text("number", (numbers) => formatNumberList("Ch", numbers)),
  "channel stereo": text("stereo link", onOff),
  polarity: text("polarity", (inverted) => (inverted ? "inverted" : "normal")),
  mute: text("mute", onOff),
  pan: text("pan", (pan, { desk }) => formatPan(pan, desk)),
  fader: text("fader", formatLevel),
  "direct out": {
    name: "direct out",
    parts: directOutParts,
    isPlain: ({ trim }, part) => part === 2 && trim === 0,
  },
  send: { name: "send", parts: sendParts },
  "bus number": text("number", (numbers) => formatNumberList("Bus", numbers)),
  "bus stereo": text("stereo link", onOff),
  "bus mono": text("fold to mono", onOff),
  "bus fader": text("fader", formatLevel),
  "bus trim": text("trim", formatLevel),
  "side trim": text("L/R trim", ([left, right]) => letters([formatLevel(left), formatLevel(right)])),
  "side polarity": text("L/R polarity", ([left, right]) =>
    letters([left ? "inverted" : "normal", right ? "inverted" : "normal"]),
  ),
  pad: text("pad", formatLevel),
  // Where it is, the line begins with the port.
  "input feed": { name: "from", parts: feedParts, isPlain: (_, part) => part === 1 },
  "input on": text("on/off", onOff),
  "input trim": text("trim", formatLevel),
  hears: text("listen to", (id, { buses }) =>
    id === null ? "no bus" : busName(buses.find((b) => b.id === id)),
  ),
  flip: text("flip L/R", onOff),
  mono: text("mono", onOff),
};

/** One line of the desk list. */
export interface MoveText {
  /** "Ch 12 Bass", "Bus 5–6 Drums", "Card 9, In 3", "Monitor system, In 3", "Mara’s mixer". */
  readonly where: string;
  /** "direct out", "send to Drums". */
  readonly control: string;
  /** "on, pre-EQ"; "pre-fader → pre-EQ" where it stands at something else. */
  readonly value: string;
}

const numbered = (
  word: "Ch" | "Bus",
  list: readonly { readonly id: Id; readonly name: string; readonly numbers: readonly number[] }[],
  id: Id,
  kind: string,
): string => {
  const thing = list.find((t) => t.id === id);
  return numberedName(word, thing?.numbers ?? [], nameOr(thing, kind));
};

const whereOf = (names: Names, move: DeskMove): string => {
  switch (CONTROL_OWNERS[move.control]) {
    case "channel":
      return numbered("Ch", names.channels, move.id, "channel");
    case "bus":
      return numbered("Bus", names.buses, move.id, "bus");
    case "mixer":
      return capitalised(mixerName(names.listeners.find((l) => l.id === move.id)));
    case "monitor system":
      return `Monitor system, In ${Number(move.id) + 1}`;
    case "input": {
      const port = names.monitor.inputs[Number(move.id)]?.port ?? null;
      return `${port === null ? "" : `${formatPort(names.desk, port)}, `}In ${Number(move.id) + 1}`;
    }
  }
};

/** What changes of a value that is set in several parts; the whole of it where only now there is something. */
const changeOf = (was: readonly string[], is: readonly string[], whole: string): string => {
  if (was.length !== is.length) return `${was[0]} → ${whole}`;
  const changed = is.flatMap((part, at) => (part === was[at] ? [] : [`${was[at]} → ${part}`]));
  return changed.length === 0 ? whole : changed.join(", ");
};

/** One move as a line: where, which control, and its value. */
export const describeMove = (names: Names, move: DeskMove): MoveText => {
  // The table pairs each code with its own values, which the compiler cannot follow through the union.
  const { name, parts, isPlain } = CONTROLS[move.control] as ControlText<"pan">;
  const to = move.to as Pan;
  const into = names.buses.find((b) => b.id === move.bus);
  const is = parts(to, names, into);
  const whole = is.filter((_, part) => !isPlain?.(to, part)).join(", ");
  return {
    where: whereOf(names, move),
    control: move.bus === "" ? name : `${name} to ${busName(into)}`,
    value: move.from === null ? whole : changeOf(parts(move.from as Pan, names, into), is, whole),
  };
};

const SECTIONS: { readonly [at in Exclude<DeskSection["at"], "bank">]: string } = {
  unnumbered: "Channels without a number",
  buses: "Buses",
  outputs: "Output ports",
  "monitor system": "Monitor system",
  mixers: "Musicians’ mixers",
};

/** Where moves are made, as a heading: "Channels 9–16". */
export const formatSection = (section: DeskSection): string =>
  section.at === "bank" ? `Channels ${section.first}–${section.last}` : SECTIONS[section.at];

/** Why two setups are not compared control by control. */
export const describeUnrelated = ({ shared, all }: Kinship): string =>
  `These are different bands: ${formatCount(shared, "channel name")} of ${all} in common. Set the desk from nothing.`;
