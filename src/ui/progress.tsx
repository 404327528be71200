/** How far something has come, as a thread that grows. */
export const Progress = (props: {
  label: string;
  /** 0…1. */
  share: number;
}) => (
  <div
    class="progress"
    role="progressbar"
    aria-label={props.label}
    aria-valuemin={0}
    aria-valuemax={100}
    aria-valuenow={Math.round(100 * props.share)}
  >
    <i style={{ width: `${(100 * props.share).toFixed(1)}%` }} />
  </div>
);
