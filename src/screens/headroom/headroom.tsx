import { openDirectOuts } from "../../core/headroom/open-direct-outs";
import { current, figures } from "../../document/store";
import { describeOpenDirectOuts } from "../../text/direct-outs";
import { describeFit } from "../../text/fit";
import { tickUnless } from "../../text/statement";
import { lazy } from "../../ui/lazy";
import { Verdict } from "../../ui/verdict";
import { BusPick } from "../bus-pick";
import { chosenBus } from "../state";
import { Chain } from "./chain";
import { RemedyCard } from "./remedy";

const AddBuses = lazy(async () => (await import("./add-buses")).AddBuses);
const DirectOuts = lazy(async () => (await import("./direct-outs")).DirectOuts);
const Inside = lazy(async () => (await import("./inside")).Inside);
const More = lazy(async () => (await import("./more")).More);
const Recordings = lazy(async () => (await import("../recordings/recordings")).Recordings);

/** The place for level: will it fit, where does it break first, what did summing cost, what to lower. */
export const HeadroomScreen = () => {
  const bus = chosenBus.value;
  const busFigures = bus && figures.value.buses.get(bus.id);
  const directOuts = describeOpenDirectOuts(openDirectOuts(figures.value.directOuts));
  if (!bus || !busFigures) {
    return (
      <>
        <Verdict tone="care" says="No bus yet">
          A bus mixes several channels to one or two outputs, so that they take one or two monitor inputs.{" "}
          {directOuts}
        </Verdict>
        <AddBuses />
        <DirectOuts />
        <Recordings bus={null} />
      </>
    );
  }
  const { tone, says, more } = describeFit(current.value, bus, busFigures);
  return (
    <>
      <Verdict tone={tickUnless(directOuts !== "", tone)} says={says}>
        {more} {directOuts}
      </Verdict>
      <BusPick label="Bus" />
      <div class="two">
        <div class="stack">
          {bus.sends.length === 0 ? null : (
            <Chain
              ceilings={busFigures.ceilings}
              lowest={busFigures.lowest}
              missing={busFigures.unknown.peak.length}
            />
          )}
          <RemedyCard bus={bus} remedy={busFigures.remedy} missing={busFigures.unknown.peak.length} />
        </div>
        <div class="stack">
          <Inside bus={bus} figures={busFigures} />
        </div>
      </div>
      <Recordings bus={bus} />
      <DirectOuts />
      <More bus={bus} figures={busFigures} />
      <AddBuses />
    </>
  );
};
