import fc from "fast-check";
import { expect, it } from "vitest";
import { busesFed, channelsInBuses, passingIn } from "../../../src/core/inputs/usage";
import { mixedChannelsOf } from "../../../src/core/mix/bus";
import { inputsOfAll, inputsOfBus, inputsOfChannel } from "../../../src/core/model/inputs";
import { anySetup } from "./setups";

it("what passes into a bus is what is mixed in it, gains aside", () => {
  fc.assert(
    fc.property(anySetup(8, 10), (setup) => {
      const passes = passingIn(setup);
      for (const bus of setup.buses)
        expect(bus.sends.filter(passes).map((send) => send.channel)).toEqual(
          mixedChannelsOf(setup, bus).map((part) => part.channel.id),
        );
      const mixed = busesFed(setup).flatMap((bus) => mixedChannelsOf(setup, bus));
      expect(channelsInBuses(setup)).toEqual(new Set(mixed.map((part) => part.channel.id)));
    }),
  );
});

it("inputs looked up in one go are those of each channel and bus by itself", () => {
  fc.assert(
    fc.property(anySetup(8, 10), (setup) => {
      const inputs = inputsOfAll(setup.monitor);
      for (const { id } of setup.channels)
        expect(inputs.channel.get(id) ?? []).toEqual(inputsOfChannel(setup.monitor, id));
      for (const { id } of setup.buses)
        expect(inputs.bus.get(id) ?? []).toEqual(inputsOfBus(setup.monitor, id));
    }),
  );
});
