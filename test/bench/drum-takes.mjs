import { numbers } from "../tools/chance.mjs";
import { RATE } from "./drum-kits.mjs";

/** Speed of sound, m/s. */
const SOUND = 343;
/** Length of a take, s. */
export const SECONDS = 30;

/** How high over the floor what is struck lies, m. Common practice, no source. */
const HEIGHTS = { kick: 0.3, snare: 0.7, hat: 0.9, tom: 0.85, floor: 0.65, ride: 1, crash: 1.2 };
/** What of a song is struck on a kind of piece; of two toms the second is the lower one. */
const SOUNDS = {
  kick: ["kick"],
  snare: ["snare"],
  hat: ["hat", "open", "pedal"],
  floor: ["floor"],
  ride: ["ride"],
  crash: ["crash"],
};

const far = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** The pieces that each sound of a song is played on: two floor toms take turns. */
const piecesBySound = (pieces) => {
  const toms = pieces.filter(({ kind }) => kind === "tom");
  const of = new Map([
    ["tom1", toms.slice(0, 1)],
    ["tom2", toms.slice(-1)],
  ]);
  for (const [kind, sounds] of Object.entries(SOUNDS))
    for (const sound of sounds)
      of.set(
        sound,
        pieces.filter((piece) => piece.kind === kind),
      );
  return of;
};

/** A room with the kit in it: its walls mirror every sound once, and so many later reflections come from anywhere. */
const LATE = 10;
const roomOf = (between) => {
  const size = [between(4, 12), between(5, 15), between(2.6, 5)];
  const at = [between(1.5, size[0] - 1.5), between(1.2, 3)];
  const wall = between(0.35, 0.75);
  const decay = between(0.25, 0.9);
  const mirrored = ([x, y, z]) =>
    [0, 1, 2].flatMap((axis) => {
      const inRoom = [x + at[0], y + at[1], z];
      return [0, size[axis]].map((face) => {
        const image = [...inRoom];
        image[axis] = 2 * face - inRoom[axis];
        return [image[0] - at[0], image[1] - at[1], image[2]];
      });
    });
  return { mirrored, wall, decay };
};

/** What a microphone hears of a piece: gains and delays, the direct sound first. */
const pathsOf = (room, between, piece, microphone, own, aside) => {
  const direct = own ?? far(piece, microphone);
  const tap = (distance, gain) => ({ delay: Math.round((distance / SOUND) * RATE), gain: gain / distance });
  const late = Array.from({ length: LATE }, () => {
    const time = between(0.012, 0.15);
    const distance = direct + time * SOUND;
    return tap(distance, (between(0, 1) < 0.5 ? -1 : 1) * room.wall * 10 ** ((-3 * time) / room.decay));
  });
  return [
    tap(direct, own === undefined ? aside : 1),
    ...room.mirrored(piece).map((image) => tap(far(image, microphone), 0.7 * room.wall)),
    ...late,
  ];
};

const heard = (samples, paths) => {
  const out = new Float32Array(samples.length + Math.max(...paths.map((p) => p.delay)));
  for (const { delay, gain } of paths)
    for (let i = 0; i < samples.length; i += 1) out[delay + i] += gain * samples[i];
  return out;
};

/** The hits of a take: the song from somewhere on, again and again, as people play it. */
const hitsOf = ({ seconds, hits }, next) => {
  const from = next() * seconds;
  const rounds = Array.from({ length: Math.ceil(SECONDS / seconds) + 1 }, (_, n) =>
    hits.map((hit) => ({
      ...hit,
      at: hit.at + n * seconds - from + 0.008 * (next() - 0.5),
      strength: Math.min(1, hit.strength * (0.85 + 0.3 * next())),
    })),
  );
  return rounds.flat().filter(({ at }) => at >= 0 && at < SECONDS);
};

/**
 * What the microphones of a setup record of a song on a kit in a room by chance: distances and walls in level and time,
 * close microphones with spill, overheads that hear the whole kit. Every channel is then gained to a peak by chance.
 * @returns {{ tracks: Float32Array[], struck: Set<string> }} one track a channel, and the pieces that are struck in it
 */
export const takeOf = ({ kit: { pieces }, channels }, sounds, song, seed) => {
  const next = numbers(seed);
  for (let n = 0; n < 10; n += 1) next();
  const between = (least, most) => least + (most - least) * next();
  const room = roomOf(between);
  const pieceOf = (channel) => pieces.find(({ id }) => id === channel.piece);
  const placeOf = (piece) =>
    piece.kind === "overhead"
      ? [piece.x + between(-0.15, 0.15), piece.y + between(-0.2, 0.2), between(1.5, 2.1)]
      : [piece.x, piece.y, HEIGHTS[piece.kind]];
  const places = new Map(pieces.map((piece) => [piece.id, placeOf(piece)]));
  const microphones = channels.map((channel) => {
    const piece = pieceOf(channel);
    const isOverhead = piece.kind === "overhead";
    const own = /out$/.test(channel.name) ? between(0.3, 0.5) : between(0.05, 0.14);
    const paths = new Map(
      pieces
        .filter(({ kind }) => kind !== "overhead")
        .map((from) => [
          from.id,
          pathsOf(
            room,
            between,
            places.get(from.id),
            places.get(piece.id),
            from.id === piece.id ? own : undefined,
            isOverhead ? between(0.7, 1) : between(0.3, 0.7),
          ),
        ]),
    );
    // The other head of a drum moves the other way.
    return { paths, sign: /bottom$/.test(channel.name) ? -1 : 1, sounds: new Map() };
  });
  const tracks = channels.map(() => new Float32Array(SECONDS * RATE));
  const onPieces = piecesBySound(pieces);
  const struck = new Set();
  let count = 0;
  for (const { what, at, strength } of hitsOf(song, next)) {
    const among = onPieces.get(what) ?? [];
    if (among.length === 0) continue;
    count += 1;
    const { id } = among[count % among.length];
    struck.add(id);
    const layer = sounds[what].find(({ until }) => strength <= until) ?? sounds[what].at(-1);
    microphones.forEach((microphone, m) => {
      const key = `${id} ${what} ${layer.until}`;
      if (!microphone.sounds.has(key))
        microphone.sounds.set(key, heard(layer.samples(), microphone.paths.get(id)));
      const sound = microphone.sounds.get(key);
      const gain = microphone.sign * strength * layer.gain;
      const begin = Math.round(at * RATE);
      const track = tracks[m];
      const length = Math.min(sound.length, track.length - begin);
      for (let i = 0; i < length; i += 1) track[begin + i] += gain * sound[i];
    });
  }
  for (const track of tracks) {
    const peak = track.reduce((top, x) => Math.max(top, Math.abs(x)), 0);
    const gain = 10 ** (between(-18, -6) / 20) / peak;
    for (let i = 0; i < track.length; i += 1) track[i] *= gain;
  }
  return { tracks, struck };
};
