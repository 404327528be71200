/** Modules of white round a code. ISO/IEC 18004. */
const QUIET = 4;

/** The dark modules as one path of lines, a run at a time. */
const drawn = (modules: readonly (readonly boolean[])[]): string =>
  modules
    .flatMap((row, y) =>
      [
        ...row
          .map((dark) => (dark ? "1" : "0"))
          .join("")
          .matchAll(/1+/g),
      ].map((run) => `M${run.index + QUIET} ${y + QUIET}h${run[0].length}v1h-${run[0].length}z`),
    )
    .join("");

/** A QR code, black on white whatever the theme. */
export const QrPicture = ({
  modules,
  title,
}: {
  modules: readonly (readonly boolean[])[];
  title: string;
}) => {
  const size = modules.length + 2 * QUIET;
  return (
    <svg class="qr" viewBox={`0 0 ${size} ${size}`} role="img" shape-rendering="crispEdges">
      <title>{title}</title>
      <rect width={size} height={size} fill="#fff" />
      <path d={drawn(modules)} fill="#000" />
    </svg>
  );
};
