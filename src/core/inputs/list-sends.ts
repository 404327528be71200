import { BLANK_BUS, BLANK_SEND } from "../model/defaults";
import { nextId } from "../model/ids";
import type { Bus, Channel, Id, Send, Setup } from "../model/setup";

/** A bus as a list names it. */
export type ListBus = Pick<Bus, "name" | "numbers" | "stereo">;

/** A channel's way into a bus, as a list has it. */
export interface ListSend extends Omit<Send, "channel"> {
  readonly bus: ListBus;
}

/** A way that a list names; what it does not say is not there. "out" takes the channel out of the bus. */
export type NamedSend = Partial<Omit<ListSend, "bus">> & { readonly bus: ListBus; readonly out?: true };

/** A bus by what a list says of it. */
export const listBusOf = ({ name, numbers, stereo }: Bus): ListBus => ({ name, numbers, stereo });

/** The ways of a channel into the buses, in the order of the buses. */
export const listSendsOf = ({ buses }: Pick<Setup, "buses">, { id }: Pick<Channel, "id">): ListSend[] =>
  buses.flatMap((bus) => {
    const send = bus.sends.find((s) => s.channel === id);
    if (!send) return [];
    const { channel: _, ...way } = send;
    return [{ bus: listBusOf(bus), ...way }];
  });

/** Whether two buses of lists are the same column. */
const isSame = (a: ListBus, b: ListBus): boolean =>
  a.name === b.name && a.stereo === b.stereo && a.numbers.join() === b.numbers.join();

/** Every bus that lines name, each once, in the order in which they come. */
export const busesNamed = (all: readonly (readonly { readonly bus: ListBus }[])[]): readonly ListBus[] => {
  const found: ListBus[] = [];
  for (const { bus } of all.flat()) if (!found.some((b) => isSame(b, bus))) found.push(bus);
  return found;
};

/** A head is one line: blanks in a name are one there, line ends too. */
const bare = (name: string): string =>
  name
    .replace(/[\s\p{Cc}]+/gu, " ")
    .trim()
    .toLowerCase();

/** The bus of the setup that each named bus is: of its name and numbers, else the first of its name that is left; else a new one. */
const matchedBuses = (buses: readonly Bus[], named: readonly ListBus[]) => {
  const left = new Set(buses);
  const all = [...buses];
  const take = (bus: Bus | undefined): Bus | undefined => {
    if (bus) left.delete(bus);
    return bus;
  };
  const exact = named.map((n) => take([...left].find((bus) => isSame(listBusOf(bus), n))));
  const ids = named.map((n, at): Id => {
    const known = exact[at] ?? take([...left].find((bus) => bare(bus.name) === bare(n.name)));
    if (known) return known.id;
    const fresh: Bus = { ...BLANK_BUS, ...n, id: nextId("m", all) };
    all.push(fresh);
    return fresh.id;
  });
  return { all, ids };
};

/**
 * Buses with the ways that a list names: a bus that is not there is built, one that is there stays as it is; a send that is
 * there is changed in what is said of it.
 */
export const withListSends = (
  buses: readonly Bus[],
  named: readonly { readonly channel: Id; readonly sends: readonly NamedSend[] }[],
): readonly Bus[] => {
  const heads = busesNamed(named.map((n) => n.sends));
  if (heads.length === 0) return buses;
  const { all, ids } = matchedBuses(buses, heads);
  return all.map((bus) => {
    const at = ids.indexOf(bus.id);
    const head = heads[at];
    if (!head) return bus;
    let { sends } = bus;
    for (const { channel, sends: its } of named) {
      const way = its.find((s) => isSame(s.bus, head));
      if (!way) continue;
      const { bus: _, out, ...says } = way;
      if (out) sends = sends.filter((s) => s.channel !== channel);
      else if (sends.some((s) => s.channel === channel))
        sends = sends.map((s) => (s.channel === channel ? { ...s, ...says } : s));
      else sends = [...sends, { ...BLANK_SEND, channel, ...says }];
    }
    return { ...bus, sends };
  });
};
