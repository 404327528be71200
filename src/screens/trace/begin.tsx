import { useSignal } from "@preact/signals";
import { routesOf, type TraceAbout } from "../../core/inputs/trace";
import { hearsFoh } from "../../core/model/kinds";
import type { Setup } from "../../core/model/setup";
import { startTrace } from "../../document/commands/trace";
import { current, run } from "../../document/store";
import { busName, listenerName } from "../../text/names";
import { formatAbout } from "../../text/trace";
import { formatChannelAt } from "../../text/trace-links";
import { capitalised } from "../../text/words";
import { Choice, Pick } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { ListenerPick } from "../listener-pick";
import { chosenListener } from "../state";
import { TraceHelp } from "./help";

type Option = readonly [value: string, name: string];

const option = (about: TraceAbout, name: string): Option => [JSON.stringify(about), name];

const SwitchAudit = lazy(async () => (await import("./audit")).SwitchAudit);

/** A channel once for each way by which it is to arrive. */
const channelOptions = (setup: Setup): Option[] =>
  setup.channels.flatMap(({ id }) => {
    const name = formatChannelAt(setup, id);
    const routes = routesOf(setup, id);
    const [first = null] = routes;
    if (routes.length < 2) return [option({ what: "channel", channel: id, bus: first }, name)];
    return routes.map((bus) => {
      const by = bus === null ? "direct out" : busName(setup.buses.find((b) => b.id === bus));
      return option({ what: "channel", channel: id, bus }, `${name}, by ${by}`);
    });
  });

const busInputs = (setup: Setup): Option[] =>
  setup.monitor.inputs.flatMap((input, at) => {
    const about: TraceAbout = { what: "input", input: at };
    return input?.feed.kind === "bus" ? [option(about, formatAbout(setup, about))] : [];
  });

const missingOptions = (setup: Setup): Option[] => [
  option({ what: "everything" }, "Everything"),
  option({ what: "side", side: "left" }, "The left side"),
  option({ what: "side", side: "right" }, "The right side"),
  ...channelOptions(setup),
  ...busInputs(setup),
];

const loudOptions = (setup: Setup): Option[] =>
  setup.channels.map(({ id }) => option({ what: "too loud", channel: id }, formatChannelAt(setup, id)));

/** Before a trace: who, and what is missing or too loud. */
export const Begin = () => {
  const listener = chosenListener.value;
  const who = capitalised(listenerName(listener));
  const isLoud = useSignal(false);
  const wanted = useSignal("");
  const options = (isLoud.value ? loudOptions : missingOptions)(current.value);
  const about = options.find(([value]) => value === wanted.value)?.[0] ?? options[0]?.[0];
  return (
    <>
      <Verdict tone="care" says="Who does not hear what?">
        The plan is looked through first. Then you are led to the fault by as few looks as possible.
      </Verdict>
      <ListenerPick label="Who" />
      {listener && hearsFoh(listener) ? (
        <p class="notice">The audience hears FOH, not a bus. Choose somebody with ear-worn monitors.</p>
      ) : (
        <>
          <Choice
            label={`What ${who} says`}
            value={isLoud.value ? "loud" : "missing"}
            options={[
              ["missing", "Not heard"],
              ["loud", "Too loud"],
            ]}
            onValue={(said) => {
              isLoud.value = said === "loud";
            }}
          />
          {about === undefined ? (
            <p class="notice">There are no channels. Add them in Channels.</p>
          ) : (
            <Pick
              label="What"
              value={about}
              options={options}
              onValue={(value) => {
                wanted.value = value;
              }}
            />
          )}
          <button
            type="button"
            class="main"
            disabled={!listener || about === undefined}
            onClick={() => {
              if (listener && about !== undefined) run(startTrace(listener.id, JSON.parse(about)));
            }}
          >
            Start the trace
          </button>
        </>
      )}
      <Fold title="Switch audit">{() => <SwitchAudit />}</Fold>
      <Explain about="Where it says to look, and why">
        <TraceHelp />
      </Explain>
    </>
  );
};
