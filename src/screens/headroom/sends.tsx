import type { Bus, Id } from "../../core/model/setup";
import { setSend } from "../../document/commands/buses";
import { current, endVisit, run } from "../../document/store";
import { busName } from "../../text/names";
import { Tick } from "../../ui/choice";
import { Fold } from "../../ui/fold";
import { NumberField } from "../../ui/number-field";
import { typing } from "../act";
import { RULES } from "../rules";
import { channelTitle } from "../shown-names";

/** The other sums that a channel goes into as well. */
const elsewhere = (channel: Id, bus: Id): string => {
  const names = current.value.buses
    .filter((s) => s.id !== bus && s.sends.some((send) => send.channel === channel))
    .map(busName);
  return names.length === 0 ? "" : `also in ${names.join(", ")}`;
};

/** Which channels go into a bus, and how loud: the sends on one page. */
export const Sends = ({ bus }: { bus: Bus }) => {
  const name = busName(bus);
  return (
    <Fold title={`What goes into ${name}`} open={bus.sends.length === 0}>
      {() => (
        <>
          {bus.sends.length === 0 ? null : (
            <div class="fields">
              {bus.sends.map(({ channel, level }) => (
                <NumberField
                  key={channel}
                  rule={RULES.send}
                  label={`Send of ${channelTitle(channel)}`}
                  value={level}
                  step={1}
                  onValue={(to) => typing(setSend(bus.id, channel, { level: to }))}
                  onEmpty={() => typing(setSend(bus.id, channel, { level: null }))}
                  onDone={endVisit}
                />
              ))}
            </div>
          )}
          <fieldset>
            <legend class="soft small">Channels in {name}; a channel may be in several buses</legend>
            <div class="fields">
              {current.value.channels.map(({ id }) => {
                const also = elsewhere(id, bus.id);
                return (
                  <Tick
                    key={id}
                    label={
                      <>
                        {channelTitle(id)}
                        {also === "" ? null : <span class="small soft"> {also}</span>}
                      </>
                    }
                    value={bus.sends.some((s) => s.channel === id)}
                    onValue={(on) => run(setSend(bus.id, id, on ? {} : null))}
                  />
                );
              })}
            </div>
          </fieldset>
        </>
      )}
    </Fold>
  );
};
