import { isDirectOutMuted, isInputOn } from "../mix/taps";
import { inputsOfChannel } from "../model/inputs";
import type { MonitorInput, Setup } from "../model/setup";
import { capitalised, feedName, formatChange, formatCount, formatInputs, formatList } from "../words";
import { withinCount } from "./arrange";
import { type Edit, issue, type PatchIssue } from "./issue";
import { inputsAbout, patchedThings, repeatsOf } from "./patched";
import { TAP_ADVICE, TAP_NAMES } from "./taps";
import { heardTwice, riseOfCopy } from "./twice";
import { usageOf } from "./usage";

const free = (indexes: readonly number[]): Edit[] =>
  indexes.map((index) => ({ edit: "input", index, to: null }));

/** More feeds than inputs, or something beyond the last input while others are free. */
export const overIssues = (setup: Setup): PatchIssue[] => {
  const { used, over, tooMany, free: room } = usageOf(setup);
  if (over.length === 0) return [];
  const count = setup.monitor.inputCount;
  if (tooMany > 0) {
    const says = `${formatCount(used.length, "feed")} for ${formatCount(count, "input")}: ${tooMany} too many.`;
    return [issue("over", "fault", { inputs: over }, says, "Choose one of the ways back under the count.")];
  }
  const inputs = withinCount(setup);
  const fix = Array.from(
    { length: Math.max(inputs.length, setup.monitor.inputs.length) },
    (_, index) => index,
  )
    .filter((index) => (inputs[index] ?? null) !== (setup.monitor.inputs[index] ?? null))
    .map((index): Edit => ({ edit: "input", index, to: inputs[index] ?? null }));
  return [
    issue(
      "over",
      "fault",
      { inputs: over },
      `${capitalised(formatInputs(over))} ${over.length === 1 ? "is" : "are"} beyond the ${count} there are.`,
      `Move ${over.length === 1 ? "it" : "them"} into free inputs: ${formatList(room.map((i) => String(i + 1)))} ${room.length === 1 ? "is" : "are"} free.`,
      fix,
    ),
  ];
};

/** Channels with inputs of their own that are inside a patched sum too. */
export const twiceIssues = (setup: Setup): PatchIssue[] =>
  heardTwice(setup).map(({ channel, bus, direct, within, rise: [left, right] }) => {
    const name = feedName(setup, "channel", channel);
    const into = feedName(setup, "bus", bus);
    const ears = [left, right].map((ear) => (ear === null ? null : formatChange(ear)));
    const apart = ["left", "right"].flatMap((side, i) => (ears[i] === null ? [] : [`${ears[i]} ${side}`]));
    // Compared as they are said: what differs by rounding only is the same.
    const change = ears[0] !== null && ears[0] === ears[1] ? ears[0] : formatList(apart);
    return issue(
      "heard twice",
      "warn",
      { inputs: [...direct, ...within].sort((a, b) => a - b), channels: [channel], buses: [bus] },
      `${name} comes in twice: by ${formatInputs(direct)} and inside ${into} (${formatInputs(within)}). With both up it changes by ${change}.`,
      `Free ${formatInputs(direct)}, or take ${name} out of ${into}, if it is not meant.`,
      // Those that are off too, or a side would be left over.
      free(inputsOfChannel(setup.monitor, channel)),
    );
  });

/** The very same thing in two inputs. */
export const copyIssues = (setup: Setup): PatchIssue[] =>
  patchedThings(setup).flatMap((thing) => {
    if (thing.folded) return [];
    return repeatsOf(setup, thing).map(({ index, of }) => {
      const [again, first] = [
        setup.monitor.inputs[index] as MonitorInput,
        setup.monitor.inputs[of] as MonitorInput,
      ];
      const inputs = [Math.min(index, of), Math.max(index, of)];
      // One that is on only repeats what is on as well.
      const louder = isInputOn(setup, again)
        ? ` With both up it is ${formatChange(riseOfCopy(again.trim, first.trim))} louder.`
        : ` Input ${index + 1} is off.`;
      return issue(
        "patched twice",
        "warn",
        inputsAbout(thing, inputs),
        `${thing.name} is patched twice, in ${formatInputs(inputs)}.${louder}`,
        `Free input ${index + 1}: nothing is lost.`,
        free([index]),
      );
    });
  });

/** Feeds that are silent: of a muted channel, or switched off where nothing else brings the same. */
export const silentIssues = (setup: Setup): PatchIssue[] =>
  patchedThings(setup).flatMap((thing) => {
    if (
      thing.kind === "channel" &&
      setup.channels.some((s) => s.id === thing.id && isDirectOutMuted(setup.desk, s))
    ) {
      const says = `${thing.name} is muted: ${formatInputs(thing.inputs)} ${thing.inputs.length === 1 ? "is" : "are"} silent.`;
      return [issue("muted", "note", inputsAbout(thing), says, "Unmute it, or free what it takes.")];
    }
    const copies = repeatsOf(setup, thing).map((r) => r.index);
    const off = thing.inputs.filter((i) => !isInputOn(setup, setup.monitor.inputs[i]) && !copies.includes(i));
    if (off.length === 0) return [];
    const channel = setup.channels.find((c) => thing.kind === "channel" && c.id === thing.id);
    const fix = [
      ...off.flatMap((index): Edit[] => {
        const input = setup.monitor.inputs[index] as MonitorInput;
        return input.on ? [] : [{ edit: "input", index, to: { ...input, on: true } }];
      }),
      ...(channel && !channel.directOut.on
        ? [{ edit: "direct out", channel: channel.id, to: { ...channel.directOut, on: true } } as const]
        : []),
    ];
    const says = `${thing.name} in ${formatInputs(off)} is off: nobody hears it there.`;
    return [issue("off", "warn", inputsAbout(thing, off), says, "Switch it on, or free the input.", fix)];
  });

/** Tap points that do not fit the kind of channel, with the reason. */
export const tapIssues = (setup: Setup): PatchIssue[] =>
  setup.monitor.inputs.flatMap((input, index) => {
    if (input?.feed.kind !== "channel") return [];
    const { channel: id } = input.feed;
    const channel = setup.channels.find((s) => s.id === id);
    // Once a channel: its direct out has one tap point.
    if (!channel || inputsOfChannel(setup.monitor, id)[0] !== index) return [];
    const { tap } = channel.directOut;
    const { better, misfits } = TAP_ADVICE[channel.kind];
    const misfit = misfits[tap];
    if (!misfit) return [];
    return [
      issue(
        "tap point",
        misfit.severity,
        { inputs: inputsOfChannel(setup.monitor, id), channels: [id] },
        `${feedName(setup, "channel", id)} in input ${index + 1} is taken ${TAP_NAMES[tap]}: ${misfit.why}.`,
        `Take it ${TAP_NAMES[better]}.`,
        [{ edit: "direct out", channel: id, to: { ...channel.directOut, tap: better } }],
      ),
    ];
  });
