import { arePair } from "../../core/inputs/arrange";
import type { Feed, Id, MonitorInput } from "../../core/model/setup";
import { amend, mapped } from "../amend";
import { type Command, type EditCommand, edit, fieldsOf, step } from "../command";
import { LIMITS, RANGES } from "../limits";
import { mend } from "../mend";
import type { SetupFile } from "../schema";
import { withoutStaleTicks } from "../ticks";

type Inputs = readonly (MonitorInput | null)[];

const withInputs = (file: SetupFile, inputs: Inputs): SetupFile =>
  mend(withoutStaleTicks(file, amend(file, { monitor: amend(file.monitor, { inputs }) })));

/** Puts something into an input, by index from 0; null frees it. Nothing happens beyond `LIMITS.inputs`. */
export const setInput = (index: number, input: MonitorInput | null): Command =>
  step(input ? "assign input" : "free input", (file) => {
    if (!Number.isInteger(index) || index < 0 || index >= LIMITS.inputs) return file;
    const { inputs } = file.monitor;
    if ((inputs[index] ?? null) === input) return file;
    const length = Math.max(inputs.length, index + 1);
    return withInputs(
      file,
      Array.from({ length }, (_, at) => (at === index ? input : (inputs[at] ?? null))),
    );
  });

/** Changes the switch, trim or feed of an input that is not free. */
export const editInput = (index: number, patch: Partial<MonitorInput>): EditCommand =>
  edit("change input", `input ${index} ${fieldsOf(patch)}`, (file) =>
    withInputs(
      file,
      mapped(file.monitor.inputs, (input, at) => (input && at === index ? amend(input, patch) : input)),
    ),
  );

/** Inputs with one moved; what lies between moves up, and no pair of neighbours is torn apart. */
const moved = (inputs: Inputs, from: number, to: number): Inputs => {
  const start = arePair(inputs[from - 1], inputs[from]) ? from - 1 : from;
  const size = start < from || arePair(inputs[from], inputs[from + 1]) ? 2 : 1;
  const rest = [...inputs.slice(0, start), ...inputs.slice(start + size)];
  const wanted = Math.max(0, Math.min(rest.length, start + to - from));
  const splits = arePair(rest[wanted - 1], rest[wanted]);
  const target = splits ? wanted + Math.sign(to - from) : wanted;
  const next = [...rest.slice(0, target), ...inputs.slice(start, start + size), ...rest.slice(target)];
  return mapped(inputs, (_, at) => next[at] ?? null);
};

/**
 * Moves an input in the order, by indexes from 0; the inputs between move up by as much.
 * The two sides of a bus or the two channels of a channel that are neighbours move together.
 */
export const moveInput = (from: number, to: number): EditCommand =>
  edit("move input", "order of inputs", (file) => {
    const { inputs } = file.monitor;
    return inputs[from] === undefined || !Number.isInteger(to)
      ? file
      : withInputs(file, moved(inputs, from, to));
  });

const OTHER = { left: "right", right: "left", both: "both" } as const;

type Direct = MonitorInput & { readonly feed: Extract<Feed, { readonly kind: "channel" }> };

const isOf = (input: MonitorInput | null, channel: Id): input is Direct =>
  input?.feed.kind === "channel" && input.feed.channel === channel;

/** The channels of a channel change inputs; each input keeps its trim and switch. Nothing happens where only one has an input. */
export const swapLines = (channel: Id): Command =>
  step("swap channel L/R", (file) => {
    const { inputs } = file.monitor;
    const channels = inputs.map((input) => (isOf(input, channel) ? input.feed.side : null));
    if (!channels.includes("left") || !channels.includes("right")) return file;
    const swapped = inputs.map((input) =>
      isOf(input, channel) ? { ...input, feed: { ...input.feed, side: OTHER[input.feed.side] } } : input,
    );
    return withInputs(file, swapped);
  });

/** How many inputs the monitor system has; what is in inputs over that stays there and is shown as over. Outside `RANGES.inputCount` nothing happens. */
export const setInputCount = (inputCount: number): EditCommand =>
  edit("change number of inputs", "number of inputs", (file) =>
    Number.isInteger(inputCount) && inputCount >= RANGES.inputCount.min && inputCount <= RANGES.inputCount.max
      ? mend(amend(file, { monitor: amend(file.monitor, { inputCount }) }))
      : file,
  );
