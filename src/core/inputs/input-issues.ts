import { isDirectOutMuted, isInputOn } from "../mix/taps";
import { inputsOfChannel } from "../model/inputs";
import type { MonitorInput, Setup } from "../model/setup";
import { withinCount } from "./arrange";
import { type Edit, type Issue, issue } from "./issue";
import { inputsAbout, patchedThings, repeatsOf } from "./patched";
import { TAP_ADVICE } from "./taps";
import { heardTwice, riseOfCopy } from "./twice";
import { usageOf } from "./usage";

const free = (indexes: readonly number[]): Edit[] =>
  indexes.map((index) => ({ edit: "input", index, to: null }));

/** More feeds than inputs, or something beyond the last input while others are free. */
export const overIssues = (setup: Setup): Issue[] => {
  const { used, over, tooMany, free: room } = usageOf(setup);
  if (over.length === 0) return [];
  const { inputCount } = setup.monitor;
  if (tooMany > 0)
    return [issue("too many", "fault", { inputs: over }, { used: used.length, inputCount, over: tooMany })];
  const inputs = withinCount(setup);
  const fix = Array.from(
    { length: Math.max(inputs.length, setup.monitor.inputs.length) },
    (_, index) => index,
  )
    .filter((index) => (inputs[index] ?? null) !== (setup.monitor.inputs[index] ?? null))
    .map((index): Edit => ({ edit: "input", index, to: inputs[index] ?? null }));
  return [issue("beyond last", "fault", { inputs: over }, { inputCount, free: room }, fix)];
};

/** Channels with inputs of their own that are inside a patched bus too. */
export const twiceIssues = (setup: Setup): Issue[] =>
  heardTwice(setup).map(({ channel, bus, direct, within, rise }) =>
    issue(
      "heard twice",
      "warn",
      { inputs: [...direct, ...within].sort((a, b) => a - b), channels: [channel], buses: [bus] },
      { direct, within, rise },
      // Those that are off too, or a side would be left over.
      free(inputsOfChannel(setup.monitor, channel)),
    ),
  );

/** The very same thing in two inputs. */
export const copyIssues = (setup: Setup): Issue[] =>
  patchedThings(setup).flatMap((thing) => {
    if (thing.folded) return [];
    return repeatsOf(setup, thing).map(({ index, of }) => {
      const [again, first] = [
        setup.monitor.inputs[index] as MonitorInput,
        setup.monitor.inputs[of] as MonitorInput,
      ];
      const inputs = [Math.min(index, of), Math.max(index, of)];
      // One that is on only repeats what is on as well.
      const rise = isInputOn(setup, again) ? riseOfCopy(again.trim, first.trim) : null;
      const values = { again: index, rise };
      return issue("patched twice", "warn", inputsAbout(thing, inputs), values, free([index]));
    });
  });

/** Feeds that are silent: of a muted channel, or switched off where nothing else brings the same. */
export const silentIssues = (setup: Setup): Issue[] =>
  patchedThings(setup).flatMap((thing) => {
    if (
      thing.kind === "channel" &&
      setup.channels.some((s) => s.id === thing.id && isDirectOutMuted(setup.desk, s))
    ) {
      return [issue("muted", "note", inputsAbout(thing), null)];
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
    return [issue("off", "warn", inputsAbout(thing, off), null, fix)];
  });

/** Tap points that do not fit the kind of channel, with the reason. */
export const tapIssues = (setup: Setup): Issue[] =>
  setup.monitor.inputs.flatMap((input, index) => {
    if (input?.feed.kind !== "channel") return [];
    const { channel: id } = input.feed;
    const channel = setup.channels.find((s) => s.id === id);
    // Once a channel: its direct out has one tap point.
    if (!channel || inputsOfChannel(setup.monitor, id)[0] !== index) return [];
    const { tap } = channel.directOut;
    const { better, misfits } = TAP_ADVICE[channel.kind];
    const misfit = misfits[tap];
    // A tap point that the channel's own rule asks for is decided.
    if (!misfit || channel.rule?.tap === tap) return [];
    return [
      issue(
        "tap point",
        misfit.severity,
        { inputs: inputsOfChannel(setup.monitor, id), channels: [id] },
        { tap, better, why: misfit.why },
        [{ edit: "direct out", channel: id, to: { ...channel.directOut, tap: better } }],
      ),
    ];
  });
