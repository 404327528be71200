import type { ComponentChildren } from "preact";
import { useEffect, useId, useRef, useState } from "preact/hooks";

/** A table under its caption and the names of its columns. */
export interface TableProps {
  readonly caption: ComponentChildren;
  readonly heads: readonly string[];
  readonly kind?: string;
  /** Its bodies. */
  readonly children: ComponentChildren;
}

/** Where the page is too narrow for it, it scrolls in itself, by keyboard too. */
export const Table = (props: TableProps) => {
  const box = useRef<HTMLDivElement>(null);
  const [wide, setWide] = useState(false);
  const name = useId();
  useEffect(() => {
    const frame = box.current;
    const table = frame?.firstElementChild;
    if (!frame || !table) return;
    const watch = new ResizeObserver(() => setWide(frame.scrollWidth > frame.clientWidth));
    watch.observe(frame);
    watch.observe(table);
    return () => watch.disconnect();
  }, []);
  return (
    <div
      ref={box}
      class="scroll-x"
      {...(wide ? { tabIndex: 0, role: "group", "aria-labelledby": name } : {})}
    >
      <table class={props.kind}>
        <caption id={name}>{props.caption}</caption>
        <thead>
          <tr>
            {props.heads.map((head) => (
              <th scope="col" key={head}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        {props.children}
      </table>
    </div>
  );
};
