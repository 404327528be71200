import { current } from "../../document/store";
import { lazy } from "../../ui/lazy";
import { BeginCheck } from "./begin";

const Running = lazy(async () => (await import("./running")).Running, "h1");
const LineCheck = lazy(async () => (await import("./line-check")).LineCheck);

/** The place at the kit: what is wrong between the bus and the ears, in a handful of hits. */
export const CheckScreen = () => {
  if (current.value.check) return <Running />;
  return (
    <>
      <BeginCheck />
      <LineCheck />
    </>
  );
};
