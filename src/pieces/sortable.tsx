import type { ComponentChildren } from "preact";
import { useRef } from "preact/hooks";

/** One row of a list that the user orders. */
export interface SortableItem {
  readonly key: string;
  /** Said with its handle. */
  readonly name: string;
  /** Has no handle. */
  readonly fixed?: boolean;
}

const KEYS: { readonly [key: string]: number } = { ArrowUp: -1, ArrowDown: 1 };

/**
 * A list in an order of the user's: a handle at each row is dragged, or moved by the arrow keys.
 * `onMove` is told the row's place now and the place wanted; the list follows what it is given.
 */
export const Sortable = (props: {
  label: string;
  items: readonly SortableItem[];
  row: (at: number) => ComponentChildren;
  onMove: (from: number, to: number) => void;
  onDone: () => void;
}) => {
  const list = useRef<HTMLOListElement>(null);
  const held = useRef<number | null>(null);
  const rowAt = (y: number): number => {
    const rows = [...(list.current?.children ?? [])];
    const at = rows.findIndex((r) => y < r.getBoundingClientRect().bottom);
    return at < 0 ? rows.length - 1 : at;
  };
  const end = () => {
    if (held.current === null) return;
    held.current = null;
    props.onDone();
  };
  return (
    <ol class="sortable" aria-label={props.label} ref={list}>
      {props.items.map((item, at) => (
        <li key={item.key}>
          {item.fixed ? (
            <span class="handle" />
          ) : (
            <button
              type="button"
              class="bare handle"
              aria-label={`Move ${item.name}: drag, or arrow up and down`}
              onPointerDown={(e) => {
                e.currentTarget.setPointerCapture(e.pointerId);
                held.current = at;
              }}
              onPointerMove={(e) => {
                const from = held.current;
                if (from === null) return;
                const to = rowAt(e.clientY);
                if (to === from) return;
                props.onMove(from, to);
                held.current = to;
              }}
              onPointerUp={end}
              onPointerCancel={end}
              onKeyDown={(e) => {
                const by = KEYS[e.key];
                const to = at + (by ?? 0);
                if (by === undefined || to < 0 || to >= props.items.length) return;
                e.preventDefault();
                props.onMove(at, to);
                props.onDone();
                const next = list.current?.children[to]?.querySelector<HTMLElement>(".handle");
                next?.focus();
              }}
            >
              <svg width="16" height="24" viewBox="0 0 16 24" aria-hidden="true">
                <path d="M2 7h12M2 12h12M2 17h12" stroke="currentColor" stroke-width="2" />
              </svg>
            </button>
          )}
          {props.row(at)}
        </li>
      ))}
    </ol>
  );
};
