import { excerpt, quoted } from "../core/lib/direction";
import type { Desk } from "../core/model/setup";
import { formatCount } from "./words";

/** Something that has a name, or none yet. */
interface Named {
  readonly name: string;
}

/** A desk in the middle of a sentence. */
export const deskName = ({ name }: Named): string => (name === "" ? "an unnamed desk" : quoted(name));

/** The numbers that tell one desk from another at a glance: "48 channels, 16 buses, 16 output ports". */
export const formatDeskSize = ({ channelCount, busCount, portCount }: Desk): string =>
  [
    formatCount(channelCount, "channel"),
    formatCount(busCount, "bus", "buses"),
    formatCount(portCount, "output port"),
  ].join(", ");

/** A setup of another desk than the one used last: the sentence, and what can be done about it. */
export interface OtherDesk {
  readonly says: string;
  readonly keep: string;
  readonly use: string;
}

/** Tells a setup's desk apart from the one used last. */
export const describeOtherDesk = (setup: Named, desk: Named, last: Named): OtherDesk => {
  const called = setup.name === "" ? "This setup" : quoted(setup.name);
  const keep = "Keep the setup’s desk";
  if (desk.name === last.name)
    return {
      says: `${called} has ${deskName(desk)} with other settings than you last used.`,
      keep,
      use: "Use the last settings",
    };
  return {
    says: `${called} is for another desk: ${deskName(desk)}. You last used ${deskName(last)}.`,
    keep,
    use: last.name === "" ? "Use the unnamed desk" : `Use “${excerpt(last.name)}”`,
  };
};

/** How many settings two desks differ in, as a heading. */
export const formatDifferences = (count: number): string =>
  `${formatCount(count, "setting")} ${count === 1 ? "differs" : "differ"}`;

/** Setups and desks by their numbers: "2 setups", "1 setup and 3 desks", "1 desk". */
export const formatThings = (setups: number, desks: number): string =>
  [
    ...(setups > 0 || desks === 0 ? [formatCount(setups, "setup")] : []),
    ...(desks > 0 ? [formatCount(desks, "desk")] : []),
  ].join(" and ");
