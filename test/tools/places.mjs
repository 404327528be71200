/** Every screen, by its address. */
export const PLACES = [
  "channels",
  "image",
  "headroom",
  "patch",
  "decide",
  "desk",
  "trace",
  "check",
  "setups",
  "about",
];
