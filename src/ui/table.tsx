import type { ComponentChildren } from "preact";
import { useId, useLayoutEffect, useRef, useState } from "preact/hooks";

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
  // Before it is painted: from then on the keyboard must reach it.
  useLayoutEffect(() => {
    const frame = box.current;
    const table = frame?.firstElementChild;
    if (!frame || !table) return;
    const look = () => setWide(frame.scrollWidth > frame.clientWidth);
    look();
    const watch = new ResizeObserver(look);
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
