import type { Colour } from "../core/model/setup";

/** Colours of channels as they are called. */
export const COLOUR_NAMES: { readonly [colour in Colour]: string } = {
  red: "Red",
  orange: "Orange",
  yellow: "Yellow",
  green: "Green",
  teal: "Teal",
  blue: "Blue",
  violet: "Violet",
  grey: "Grey",
};
