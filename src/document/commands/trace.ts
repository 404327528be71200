import type { TraceAbout, TraceLook } from "../../core/inputs/trace";
import type { Id } from "../../core/model/setup";
import { type Command, step } from "../command";
import { LIMITS } from "../limits";
import type { SetupFile } from "../schema";
import { isTraceable } from "../trace-session";

/** Begins a trace; one that was under way is over. Nothing happens where what it is about is not there. */
export const startTrace = (listener: Id, about: TraceAbout): Command =>
  step("start trace", (file) => {
    const trace = { listener, about, looks: [] };
    return isTraceable(file, trace) ? { ...file, trace } : file;
  });

const withLooks = (
  file: SetupFile,
  change: (looks: readonly TraceLook[]) => readonly TraceLook[],
): SetupFile => {
  const { trace } = file;
  if (!trace) return file;
  const looks = change(trace.looks);
  return looks === trace.looks ? file : { ...file, trace: { ...trace, looks } };
};

/** What was seen behind a link. Nothing happens while no trace is under way, or beyond `LIMITS.looks`. */
export const addLook = (look: TraceLook): Command =>
  step("look", (file) =>
    withLooks(file, (looks) => (looks.length < LIMITS.looks ? [...looks, look] : looks)),
  );

/** Takes the last look back. */
export const undoLook = (): Command =>
  step("remove answer", (file) =>
    withLooks(file, (looks) => (looks.length > 0 ? looks.slice(0, -1) : looks)),
  );

/** Takes all looks back: the same question from the start. */
export const restartTrace = (): Command =>
  step("restart trace", (file) => withLooks(file, (looks) => (looks.length > 0 ? [] : looks)));

/** Ends the trace; its looks are gone. */
export const endTrace = (): Command =>
  step("end trace", (file) => {
    if (!file.trace) return file;
    const { trace: _, ...rest } = file;
    return rest;
  });
