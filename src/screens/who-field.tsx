import { LIMITS } from "../document/limits";
import { TextField } from "../ui/text-field";
import { setWho, who } from "./who";

/** Whom the ticks of this device are by. */
export const WhoField = () => (
  <TextField
    label="Your name, for ticks on this device"
    value={who.value}
    most={LIMITS.name}
    onValue={setWho}
  />
);
