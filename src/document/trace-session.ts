import type { TraceAbout, TraceLook } from "../core/inputs/trace";
import { LINK_RULES } from "../core/inputs/trace-links";
import { keysOf } from "../core/lib/keys";
import type { Setup } from "../core/model/setup";
import { LIMITS } from "./limits";
import { fields, isFields, list, oneOf, orNull, type Reader, text, whole } from "./reader";
import type { TraceSession } from "./schema";

const id = text("", LIMITS.id);

type About<What extends TraceAbout["what"]> = Extract<TraceAbout, { what: What }>;

/** How each kind of question is read. */
const ABOUTS: { readonly [What in TraceAbout["what"]]: Reader<About<What>> } = {
  channel: fields<About<"channel">>({ what: oneOf(["channel"], "channel"), channel: id, bus: orNull(id) }),
  input: fields<About<"input">>({
    what: oneOf(["input"], "input"),
    input: whole({ min: 0, max: LIMITS.inputs - 1 }, 0),
  }),
  everything: fields<About<"everything">>({ what: oneOf(["everything"], "everything") }),
  side: fields<About<"side">>({ what: oneOf(["side"], "side"), side: oneOf(["left", "right"], "left") }),
  "too loud": fields<About<"too loud">>({ what: oneOf(["too loud"], "too loud"), channel: id }),
};

const about: Reader<TraceAbout> = (value, at, say) => {
  const what = isFields(value) ? value.what : undefined;
  const known = Object.keys(ABOUTS).find((w) => w === what) as TraceAbout["what"] | undefined;
  return ABOUTS[known ?? "everything"](value, at, say);
};

const session = fields<TraceSession>({
  listener: id,
  about,
  looks: list(
    fields<TraceLook>({
      link: oneOf(keysOf(LINK_RULES), "source"),
      said: oneOf(["signal", "no signal", "unseen"], "unseen"),
    }),
    LIMITS.looks,
  ),
});

/** A trace under way; absent where there is none. */
export const readTrace: Reader<TraceSession | undefined> = (value, at, say) =>
  value === undefined ? undefined : session(value, at, say);

/** Whether what a trace is about is still there: its listener, its channel, its bus, its input. */
export const isTraceable = (setup: Setup, { listener, about }: TraceSession): boolean => {
  if (!setup.listeners.some((l) => l.id === listener)) return false;
  if (about.what === "input") return Boolean(setup.monitor.inputs[about.input]);
  if (about.what !== "channel" && about.what !== "too loud") return true;
  const hasBus =
    about.what === "too loud" || about.bus === null || setup.buses.some((b) => b.id === about.bus);
  return hasBus && setup.channels.some((c) => c.id === about.channel);
};
