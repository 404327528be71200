/** How far something has come, as a thread that grows. */
export const Progress = (props: {
  label: string;
  /** 0…1; null where that is not known. */
  share: number | null;
}) => (
  <div
    class={props.share === null ? "progress unknown" : "progress"}
    role="progressbar"
    aria-label={props.label}
    aria-valuemin={0}
    aria-valuemax={100}
    {...(props.share === null ? {} : { "aria-valuenow": Math.round(100 * props.share) })}
  >
    <i style={{ width: `${(100 * (props.share ?? 0.3)).toFixed(1)}%` }} />
  </div>
);
