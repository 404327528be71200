import { kitPieceName } from "../core/model/kinds";
import type { Id, Setup } from "../core/model/setup";
import type { FohPanIssue } from "../core/stereo/foh-pans";
import type { OverheadIssue } from "../core/stereo/overheads";
import { channelName, nameOr } from "./names";
import { capitalised, formatList } from "./words";

/** What is so, and what to do, each as sentences. */
export interface Finding {
  readonly says: string;
  readonly remedy: string;
}

const namesOf = (setup: Setup, ids: readonly Id[]): string =>
  formatList(ids.map((id) => channelName(setup, id)));

const tellingHit = (setup: Setup, { hit }: OverheadIssue): string => {
  const piece = setup.kit.pieces.find((p) => p.id === hit);
  if (!piece) return "Hit one piece at the edge of the kit and watch the overhead meters";
  return `Hit only the ${kitPieceName(piece)} and watch the overhead meters`;
};

const remedyOf = (setup: Setup, flag: OverheadIssue): string => {
  const names = namesOf(setup, flag.channels);
  const hit = `${tellingHit(setup, flag)}: the louder overhead belongs on the side of that piece`;
  switch (flag.change) {
    case "overheads":
      return `For the audience the close mics are right. ${flag.code === "crossed" ? "Swap the overhead pans" : `Pan ${names} to the other side`}, or swap the lines if the pans are as meant. ${hit}.`;
    case "close microphones":
      return `For the audience the overheads are right: the kit stands the other way round than the close mics are panned. Pan ${names} to the other side.`;
    case null:
      return `Where the kit stands does not tell which is right. ${hit}. Then re-pan the overheads or the close mics.`;
  }
};

/** Overheads and close microphones that disagree: what is so, and which to change. */
export const describeOverheads = (setup: Setup, flag: OverheadIssue): Finding => {
  const bus = setup.buses.find((s) => s.id === flag.where);
  const at = flag.where === "foh" ? "at FOH" : `in ${nameOr(bus, "bus")}`;
  const names = namesOf(setup, flag.overheads);
  const disagree = flag.overheads.length === 1 ? "disagrees" : "disagree";
  return {
    says: capitalised(
      `${names} ${disagree} with the close mics ${at}: that side of the kit is on both sides.`,
    ),
    remedy: remedyOf(setup, flag),
  };
};

/** A channel pan that does not match where the piece stands for the audience. */
export const describeFohPan = (setup: Setup, { channel, heard, stands, asDrummer }: FohPanIssue): string =>
  `${capitalised(channelName(setup, channel))} is panned house ${heard} but stands house ${stands} for the audience${asDrummer ? ": panned from the drummer’s side" : ""}.`;
