const LOOK = { plain: "small soft", notice: "notice small" } as const;

/** Sentences under each other, beside what they are about; nothing where there are none. */
export const Sentences = (props: { says: readonly string[]; look?: keyof typeof LOOK }) =>
  props.says.length === 0 ? null : (
    <ul class={LOOK[props.look ?? "plain"]}>
      {props.says.map((says) => (
        <li key={says}>{says}</li>
      ))}
    </ul>
  );
