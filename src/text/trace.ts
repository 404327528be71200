import type { Arrival } from "../core/inputs/arrivals";
import type { TraceAbout } from "../core/inputs/trace";
import type { TraceLink } from "../core/inputs/trace-links";
import type { Id } from "../core/model/setup";
import { formatSource } from "./desk-list";
import { busName, channelName } from "./names";
import type { Statement } from "./statement";
import {
  describeBreak,
  describeLink,
  describeRemedy,
  formatShortInputs,
  type TraceNames,
} from "./trace-links";
import { formatCount, formatList } from "./words";

/** What is missing, or too loud: "Bass", "everything", "the left side". */
export const formatAbout = (names: TraceNames, about: TraceAbout): string => {
  switch (about.what) {
    case "channel":
      return channelName(names, about.channel);
    case "too loud":
      return channelName(names, about.channel);
    case "input": {
      const feed = names.monitor.inputs[about.input]?.feed;
      return `In ${about.input + 1}${feed ? `, ${formatSource(names, feed)}` : ""}`;
    }
    case "everything":
      return "everything";
    case "side":
      return `the ${about.side} side`;
  }
};

/** What of the plan itself stops the signal, as a headline; null where nothing does. */
export const describeBreaks = (
  names: TraceNames,
  chain: readonly TraceLink[],
  about: string,
): Statement | null => {
  const breaks = chain.map((link) => describeBreak(names, link)).filter((says) => says !== "");
  return breaks.length === 0
    ? null
    : { tone: "wrong", says: `In the plan, ${about} does not get through`, more: breaks.join(" ") };
};

/** How far a trace has come, as a headline. */
export const describeTrace = (
  names: TraceNames,
  chain: readonly TraceLink[] | null,
  suspects: readonly TraceLink[],
  isOver: boolean,
  about: string,
): Statement => {
  if (chain === null)
    return {
      tone: "wrong",
      says: `In the plan, ${about} reaches no monitor input`,
      more: "Neither its direct out nor a bus that it is sent to is assigned. Assign one in Patch.",
    };
  const [only] = suspects;
  if (!only)
    return {
      tone: "wrong",
      says: "These answers cannot all be right",
      more: "There was signal further down the chain than a point with none. Undo the answer that you doubt.",
    };
  if (suspects.length === 1)
    return {
      tone: "wrong",
      says: `Found: ${describeLink(names, only).name}`,
      more: describeRemedy(names, only),
    };
  const last = suspects.at(-1) ?? only;
  const between = `Anywhere from ${describeLink(names, only).name} to ${describeLink(names, last).name}`;

  return isOver
    ? {
        tone: "wrong",
        says: `It is one of these ${suspects.length}`,
        more: "No look tells them apart. Go through them:",
      }
    : { tone: "care", says: `It can be in ${formatCount(suspects.length, "place")}`, more: `${between}.` };
};

/** One way by which a channel arrives: "direct out (In 5)". */
export const formatArrival = (names: TraceNames, { bus, inputs }: Arrival): string =>
  `${bus === null ? "direct out" : busName(names.buses.find((b) => b.id === bus))} (${formatShortInputs(inputs)})`;

/** Whether a channel arrives more than once, and what to do. */
export const describeArrivals = (names: TraceNames, channel: Id, arrivals: readonly Arrival[]): Statement => {
  const name = channelName(names, channel);
  const on = arrivals.filter((a) => a.isOn);
  if (on.length > 1)
    return {
      tone: "wrong",
      says: `${name} arrives ${on.length === 2 ? "twice" : `${on.length} times`}`,
      more: `Via ${formatList(on.map((a) => formatArrival(names, a)))}. Keep one. Switch the rest off in the plan, or turn them down at the mixer.`,
    };
  return {
    tone: "care",
    says:
      on.length === 1 ? `${name} arrives once in the plan` : `In the plan, ${name} reaches no monitor input`,
    more:
      arrivals.length > on.length
        ? "Check at the desk that what is off below is off there too."
        : "Turn it down at the mixer.",
  };
};
