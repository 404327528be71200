import "./trace.css";
import { BeginTrace } from "./begin";
import { traced } from "./session";
import { Tracing } from "./tracing";

/** The place for why somebody hears nothing, or too much. */
export const TraceScreen = () => (traced.value ? <Tracing /> : <BeginTrace />);
