import { useSignal } from "@preact/signals";
import { routesOf, type TraceAbout } from "../../core/inputs/trace";
import { hearsFoh } from "../../core/model/kinds";
import type { Id, Setup } from "../../core/model/setup";
import { startTrace } from "../../document/commands/trace";
import { current, run } from "../../document/store";
import { listenerName } from "../../text/names";
import { formatAbout } from "../../text/trace";
import { formatChannelAt } from "../../text/trace-links";
import { capitalised } from "../../text/words";
import { Choice, Pick } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Fold } from "../../ui/fold";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { ListenerPick } from "../listener-pick";
import { busTitle } from "../shown-names";
import { chosenListener } from "../state";
import { TraceHelp } from "./help";

type Option = readonly [value: string, name: string];

const option = (about: TraceAbout, name: string): Option => [JSON.stringify(about), name];

const SwitchAudit = lazy(async () => (await import("./audit")).SwitchAudit);

const channelOptions = (setup: Setup): Option[] =>
  setup.channels.map(({ id }) =>
    option({ what: "channel", channel: id, bus: null }, formatChannelAt(setup, id)),
  );

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

/** The ways by which a channel is to arrive, asked of the chosen one alone; nothing where there is no choice. */
const RoutePick = (props: {
  routes: readonly (Id | null)[];
  bus: Id | null;
  onBus: (bus: Id | null) => void;
}) =>
  props.routes.length < 2 ? null : (
    <Pick
      label="Via"
      value={props.bus ?? ""}
      options={props.routes.map((bus) => [bus ?? "", bus === null ? "direct out" : busTitle(bus)] as const)}
      onValue={(bus) => props.onBus(bus || null)}
    />
  );

/** Before a trace: who, and what is missing or too loud. */
export const BeginTrace = () => {
  const setup = current.value;
  const listener = chosenListener.value;
  const who = capitalised(listenerName(listener));
  const isLoud = useSignal(false);
  const wanted = useSignal("");
  const by = useSignal<Id | null>(null);
  const options = (isLoud.value ? loudOptions : missingOptions)(setup);
  const chosen = options.find(([value]) => value === wanted.value)?.[0] ?? options[0]?.[0];
  const picked: TraceAbout | null = chosen === undefined ? null : JSON.parse(chosen);
  const routes = picked?.what === "channel" ? routesOf(setup, picked.channel) : [];
  const bus = routes.includes(by.value) ? by.value : (routes[0] ?? null);
  const about: TraceAbout | null = picked?.what === "channel" ? { ...picked, bus } : picked;
  return (
    <>
      <Verdict tone="care" says="Who can’t hear what?">
        The plan is checked first. Then each look brings you closer to the fault, with as little walking as
        possible.
      </Verdict>
      <ListenerPick label="Who" />
      {listener && hearsFoh(listener) ? (
        <p class="notice">The audience hears FOH, not a bus. Choose a musician.</p>
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
          {chosen === undefined ? (
            <p class="notice">There are no channels. Add them in Channels.</p>
          ) : (
            <Pick
              label="What"
              value={chosen}
              options={options}
              onValue={(value) => {
                wanted.value = value;
              }}
            />
          )}
          <RoutePick
            routes={routes}
            bus={bus}
            onBus={(to) => {
              by.value = to;
            }}
          />
          <button
            type="button"
            class="main"
            disabled={!listener || !about}
            onClick={() => {
              if (listener && about) run(startTrace(listener.id, about));
            }}
          >
            Start the trace
          </button>
        </>
      )}
      <Fold title="Switch audit">{() => <SwitchAudit />}</Fold>
      <Explain about="Where to look, and why">
        <TraceHelp />
      </Explain>
    </>
  );
};
