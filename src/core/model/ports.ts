import type { Desk } from "./setup";

type Ports = Pick<Desk, "firstPort" | "portCount">;

/** Number by which the desk names an output port: ports count from 1, the desk from its first. */
export const portNumber = ({ firstPort }: Pick<Desk, "firstPort">, port: number): number =>
  firstPort + port - 1;

/** The output port that the desk names by a number. */
export const portOf = ({ firstPort }: Pick<Desk, "firstPort">, number: number): number =>
  number - firstPort + 1;

/** First and last number that the desk has for its output ports. */
export const portRange = (desk: Ports): { readonly min: number; readonly max: number } => ({
  min: desk.firstPort,
  max: portNumber(desk, desk.portCount),
});
