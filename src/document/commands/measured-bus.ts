import type { BusMeasurement, Id } from "../../core/model/setup";
import { amend, mapped } from "../amend";
import { type Command, step } from "../command";
import type { SetupFile } from "../schema";

const withMeasured =
  (id: Id, measured: BusMeasurement | null) =>
  (file: SetupFile): SetupFile => {
    const buses = mapped(file.buses, (bus) => {
      if (bus.id !== id) return bus;
      const { measured: was, ...rest } = bus;
      return measured ? { ...rest, measured } : was ? rest : bus;
    });
    return amend(file, { buses });
  };

/** Keeps what an audio input measured of a bus, in the place of what it had. */
export const keepMeasuredBus = (id: Id, measured: BusMeasurement): Command =>
  step("save as measured", withMeasured(id, measured));

/** Forgets it. */
export const forgetMeasuredBus = (id: Id): Command => step("remove measured levels", withMeasured(id, null));
