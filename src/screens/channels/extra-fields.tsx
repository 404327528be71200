import { useMemo } from "preact/hooks";
import { extraHeads, extraUnder, withExtra } from "../../core/inputs/list-extra";
import { isolated } from "../../core/lib/direction";
import type { Channel } from "../../core/model/setup";
import { editChannel } from "../../document/commands/channels";
import { LIMITS } from "../../document/limits";
import { current, endVisit } from "../../document/store";
import { TextField } from "../../ui/text-field";
import { typing } from "../act";

/**
 * Further columns of an imported list: microphone, stand, phantom power, notes, whatever the list had; a channel's own
 * first, then those that other channels have, as many as a channel holds.
 */
export const ExtraFields = ({ channel }: { channel: Channel }) => {
  // As they are when the row is opened: a column that gets its first letter does not move under the thumb.
  const heads = useMemo(
    () => extraHeads([channel, ...current.value.channels]).slice(0, LIMITS.extra),
    [channel.id],
  );
  const set = (head: string, value: string) =>
    typing(editChannel(channel.id, { extra: withExtra(channel.extra, [{ head, value }]) }));
  return (
    <>
      {heads.map((head) => (
        <TextField
          key={head}
          label={isolated(head) || "Column without a header"}
          most={LIMITS.cell}
          value={extraUnder(channel.extra, head)}
          onValue={(value) => set(head, value)}
          onDone={endVisit}
        />
      ))}
    </>
  );
};
