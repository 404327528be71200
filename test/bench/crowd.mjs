const repeat = (list, count, change) =>
  Array.from({ length: count }, (_, at) => change(list[at % list.length], at));

/**
 * The worked example with more of everything: its sources and their pieces over and over, all in its first pair.
 * @param example the worked example, as a setup file
 * @param {number} count sources
 * @param {number} ears listeners, the audience among them
 */
export const crowded = (example, count, ears) => {
  const placed = example.sources.filter((source) => source.piece !== null);
  const pieceOf = (id) => example.kit.pieces.find((piece) => piece.id === id);
  const [pair] = example.sums;
  const audience = example.listeners.find(({ kind }) => kind === "audience");
  const heard = example.listeners.filter(({ kind }) => kind !== "audience");
  return {
    ...example,
    kit: {
      ...example.kit,
      pieces: repeat(placed, count, (source, at) => ({ ...pieceOf(source.piece), id: `p${at}` })),
    },
    sources: repeat(placed, count, (source, at) => ({ ...source, id: `s${at}`, piece: `p${at}` })),
    sums: [{ ...pair, sends: repeat(pair.sends, count, (send, at) => ({ ...send, source: `s${at}` })) }],
    listeners: [audience, ...repeat(heard, ears - 1, (one, at) => ({ ...one, id: `l${at}`, sum: pair.id }))],
    wishes: { ...example.wishes, first: "l0" },
    monitor: { ...example.monitor, slots: example.monitor.slots.filter((slot) => slot?.feed.kind === "leg") },
  };
};
