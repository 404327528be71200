import type { Id, Link, SendTap, TapPoint } from "../model/setup";
import type { Db } from "../model/units";

/** What the plan says of each link of a chain from a microphone to an ear. Inputs are indexes from 0. */
export interface LinkValues {
  /** The microphone or line at its channel. */
  readonly source: { readonly channel: Id };
  /** The channel mute, where it takes this feed. */
  readonly mute: { readonly channel: Id; readonly muted: boolean };
  /** The direct out, or the send to a bus. */
  readonly feed:
    | { readonly channel: Id; readonly bus: null; readonly on: boolean; readonly tap: TapPoint }
    | { readonly channel: Id; readonly bus: Id; readonly on: boolean; readonly tap: SendTap };
  /** What has a level on the way: send, channel fader where the feed is taken after it, bus fader; absent where it is not on it. */
  readonly level: {
    readonly send?: Db | null;
    readonly fader?: Db | null;
    readonly busFader?: Db | null;
    readonly bus: Id | null;
  };
  /** Output ports; null where not entered. `shared` are those that are to feed something else too. */
  readonly port: {
    readonly ports: readonly (number | null)[];
    readonly inputs: readonly number[];
    readonly shared: readonly number[];
  };
  /** Card, cables and clock to the monitor system, and the inputs at which they end; none where it is about all. */
  readonly "monitor link": { readonly link: Link; readonly inputs: readonly number[] };
  /** The monitor inputs that bring it; `off` are switched off there or beyond the last. */
  readonly "monitor input": { readonly inputs: readonly number[]; readonly off: readonly number[] };
  /** The stereo link of two inputs at the mixer. */
  readonly "stereo link": { readonly inputs: readonly number[]; readonly isPair: boolean };
  /** The listener’s own mixer: level, mute, pan, solo. */
  readonly mixer: { readonly listener: Id };
  /** Pack, battery, earphones. */
  readonly earphones: { readonly listener: Id };
}

/** A link of a chain. */
export type LinkCode = keyof LinkValues;

/** How likely a link is the broken one, and what it costs to see whether the signal has passed it. */
interface LinkRule {
  readonly weight: number;
  /** Null where nobody can look behind it: there it is heard, or not. */
  readonly lookCost: number | null;
}

/**
 * Links in the order of the signal, by relative weight and by cost of a look; common practice, no source.
 * A switch that was left off is the commonest fault. At the desk a look is one button (1), the output page is further
 * away (2), the monitor system’s meters lie elsewhere (3), a musician can be asked (2), or gone to (4).
 */
export const LINK_RULES: { readonly [code in LinkCode]: LinkRule } = {
  source: { weight: 8, lookCost: 1 },
  mute: { weight: 5, lookCost: 1 },
  feed: { weight: 10, lookCost: 1 },
  level: { weight: 6, lookCost: 1 },
  port: { weight: 6, lookCost: 2 },
  "monitor link": { weight: 2, lookCost: 3 },
  "monitor input": { weight: 5, lookCost: 2 },
  "stereo link": { weight: 4, lookCost: 4 },
  mixer: { weight: 8, lookCost: 4 },
  earphones: { weight: 5, lookCost: null },
};

/** One link with what the plan says of it. */
export type TraceLink = {
  readonly [code in LinkCode]: {
    readonly code: code;
    readonly values: LinkValues[code];
    /** The plan itself lets nothing through here. */
    readonly broken: boolean;
  };
}[LinkCode];

/** A link; `broken` where the plan lets nothing through. */
export const traceLink = <Code extends LinkCode>(
  code: Code,
  values: LinkValues[Code],
  broken = false,
): TraceLink => ({ code, values, broken }) as TraceLink;
