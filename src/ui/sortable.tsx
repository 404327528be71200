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
 * `onMove` is told the row's place now and the place wanted, and tells where the row has come to: it may have to
 * go further, past rows that keep together. The list follows what it is given.
 */
export const Sortable = (props: {
  label: string;
  items: readonly SortableItem[];
  row: (at: number) => ComponentChildren;
  onMove: (from: number, to: number) => number;
  onDone: () => void;
}) => {
  const list = useRef<HTMLOListElement>(null);
  /** Where the row under the finger is now, and whose finger; the list hears it, as a row on its way loses its handle. */
  const held = useRef<{ readonly at: number; readonly pointer: number } | null>(null);
  const rows = (): Element[] => [...(list.current?.children ?? [])];
  const rowAt = (y: number): number => {
    const at = rows().findIndex((r) => y < r.getBoundingClientRect().bottom);
    return at < 0 ? rows().length - 1 : at;
  };
  const start = (e: PointerEvent) => {
    const handle = e.target instanceof Element && e.target.closest("button.handle");
    if (!handle || held.current) return;
    list.current?.setPointerCapture(e.pointerId);
    held.current = { at: rows().findIndex((r) => r.contains(handle)), pointer: e.pointerId };
  };
  const move = (e: PointerEvent) => {
    const { at, pointer } = held.current ?? {};
    const to = rowAt(e.clientY);
    if (at === undefined || pointer !== e.pointerId || to === at) return;
    held.current = { at: props.onMove(at, to), pointer };
  };
  const end = (e: PointerEvent) => {
    if (held.current?.pointer !== e.pointerId) return;
    held.current = null;
    props.onDone();
  };
  return (
    <ol
      class="sortable"
      aria-label={props.label}
      ref={list}
      onPointerDown={start}
      onPointerMove={move}
      onPointerUp={end}
      onPointerCancel={end}
      onLostPointerCapture={end}
    >
      {props.items.map((item, at) => (
        <li key={item.key}>
          {item.fixed ? (
            <span class="handle" />
          ) : (
            <button
              type="button"
              class="bare handle"
              aria-label={`Move ${item.name}: drag, or arrow up and down`}
              onKeyDown={(e) => {
                const by = KEYS[e.key];
                const to = at + (by ?? 0);
                if (by === undefined || to < 0 || to >= props.items.length) return;
                e.preventDefault();
                const now = props.onMove(at, to);
                props.onDone();
                const next = rows()[now]?.querySelector<HTMLElement>(".handle");
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
