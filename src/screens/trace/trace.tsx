import "./trace.css";
import { Begin } from "./begin";
import { Running } from "./running";
import { traced } from "./session";

/** The place for why somebody hears nothing, or too much. */
export const TraceScreen = () => (traced.value ? <Running /> : <Begin />);
