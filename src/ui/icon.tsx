/** Drawings of this app's own, 24 × 24, stroked in the text's colour. */
const PATHS = {
  channels: "M4 15a8 4 0 0 0 16 0v-3M4 12v3M12 8a8 4 0 1 0 .01 0M9 3l3 8M20 3l-6 8",
  image: "M3 5h18M3 19h18M7 5c0 7 10 7 10 14M17 5c0 7-10 7-10 14",
  headroom: "M3 21h18M6 21v-5M11 21v-9M16 21V9M3 4h18",
  patch: "M4 4h5v5H4zM15 15h5v5h-5zM9 6.5h4c4 0 4.5 3 4.5 8.5",
  check: "M12 3v4M12 17v4M3 12h4M17 12h4M8.5 12.5l2.5 2.5 4.5-5.500",
  undo: "M8 5L4 9l4 4M4 9h10a5 5 0 0 1 0 10h-3",
  redo: "M16 5l4 4-4 4M20 9H10a5 5 0 0 0 0 10h3",
  more: "M5 7h14M5 12h14M5 17h14",
  plus: "M12 5v14M5 12h14",
  minus: "M5 12h14",
  up: "M6 15l6-6 6 6",
  down: "M6 9l6 6 6-6",
  close: "M6 6l12 12M18 6L6 18",
  swap: "M4 8h15l-4-4M20 16H5l4 4",
  fine: "M5 12.5l5 5 9-11",
  care: "M12 4v10M12 19v.5",
  wrong: "M5 5l14 14M19 5L5 19",
  hush: "M4 10v4h4l5 4V6L8 10zM17 9l4 6M21 9l-4 6",
  sound: "M4 10v4h4l5 4V6L8 10zM17 8.5a5 5 0 0 1 0 7",
} as const;

/** Name of a drawing. */
export type IconName = keyof typeof PATHS;

/** One drawing; silent to a screen reader, since words always stand beside it. */
export const Icon = ({ name, size = 24 }: { name: IconName; size?: number }) => (
  <svg
    width={size}
    height={size}
    viewBox="0 0 24 24"
    fill="none"
    stroke="currentColor"
    stroke-width="2"
    stroke-linecap="round"
    stroke-linejoin="round"
    aria-hidden="true"
    focusable="false"
  >
    <path d={PATHS[name]} />
  </svg>
);
