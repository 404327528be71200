import { hearsFoh } from "../../core/model/kinds";
import { current } from "../../document/store";
import { lazy } from "../../ui/lazy";
import { chosenListener } from "../state";
import { BeginCheck } from "./begin";
import { checkWay, isHearing } from "./way";

const Running = lazy(async () => (await import("./running")).Running, "h1");
const ByInput = lazy(async () => (await import("../hear/by-input")).ByInput);
const LineCheck = lazy(async () => (await import("./line-check")).LineCheck);
const TestSignal = lazy(async () => (await import("../hear/test-signal")).TestSignal);

/** The place at the kit: what is wrong between the bus and the ears, in a handful of hits. */
export const CheckScreen = () => {
  if (current.value.check) return <Running />;
  const listener = chosenListener.value;
  const byInput = checkWay.value === "input" && listener && !hearsFoh(listener);
  const isWhole = byInput && isHearing.value;
  return (
    <>
      {isWhole ? null : <BeginCheck />}
      {/* In one place before and after the first hit: where it is left, the input closes. */}
      {byInput ? <ByInput listener={listener} /> : null}
      {isWhole ? null : <LineCheck />}
      {isWhole ? null : <TestSignal />}
    </>
  );
};
