import { sitsAtKit } from "../../core/model/kinds";
import type { Channel, Hand, Id } from "../../core/model/setup";
import type { Excess } from "../../text/excess";
import { alike } from "../amend";
import { type Command, step } from "../command";
import type { SetupFile } from "../schema";
import { addChannels } from "./add-channels";
import { removeChannel } from "./channels";
import { setHand } from "./kit";
import { editListener, removeListener } from "./listeners";

/** What is different next time. */
export interface NextTime {
  /** Name of the drummer. */
  readonly drummer: string;
  readonly hand: Hand;
  /** Listeners and channels that are not there. */
  readonly absent: readonly Id[];
  /** Channels that are new. */
  readonly fresh: readonly Omit<Channel, "id">[];
}

/** Without what was said and seen last time; ticks of the desk list stay, for the desk stands as it was left. */
const begunAnew = ({ trace: _, tickLog = [], ...file }: SetupFile): SetupFile => {
  const log = tickLog.filter((entry) => entry.control !== "line check");
  return { ...file, check: null, lineCheck: {}, ...(log.length > 0 ? { tickLog: log } : {}) };
};

/**
 * A setup for next time from that of last time, as one step: another drummer, another hand, who and what is not there,
 * what is new; the line check begins anew. Refused where it would hold more than it may.
 * @param into the bus that new drums and percussion are sent into; null sends none
 */
export const setUpNextTime = ({ drummer, hand, absent, fresh }: NextTime, into: Id | null): Command => {
  const added = addChannels(fresh, into);
  const withoutNew = (file: SetupFile): SetupFile => {
    const id = file.listeners.find((l) => sitsAtKit(l))?.id ?? "";
    const commands = [
      editListener(id, { name: drummer }),
      setHand(hand),
      ...absent.flatMap((gone) => [removeListener(gone), removeChannel(gone)]),
    ];
    return commands.reduce((now, command) => command.apply(now), begunAnew(file));
  };
  const refuses = (file: SetupFile): Excess | null => added.refuses?.(withoutNew(file)) ?? null;
  return {
    ...step("set up next time", (file) => {
      if (refuses(file)) return file;
      const next = added.apply(withoutNew(file));
      return alike(next, file) ? file : next;
    }),
    refuses,
  };
};
