/*
 * Cost of the recommendation, of what would change it, and of the images, as listeners and channels grow, up to the
 * slowest setups that the app accepts; and of everything the Image screen shows.
 * Fails where a recommendation that the page works out at once takes more than 50 ms, or the Image screen more than 16.
 * Processor time, so that what else runs on the machine counts little; the fastest of some rounds counts.
 * Run: node test/bench/recommend.mjs
 */
import { bundle } from "../tools/bundle.mjs";
import { fastest, held } from "./clock.mjs";

const {
  LIMITS,
  compareLaws,
  describeAdvice,
  describeFohPan,
  describeImage,
  describeOverheads,
  fohPanIssues,
  imageSetup,
  imagesOf,
  isRecommendationShort,
  overheadIssues,
  reasonsFor,
  recommend,
  whatIfs,
} = await bundle("test/bench/core.ts");

const ROUNDS = 12;
/** Most that the page may be held up, ms. */
const MOST = 50;
/** Most that everything the Image screen shows may take for 64 channels and 8 listeners, ms. */
const MOST_SHOWN = 16;

/** What the Image screen works out before it is first drawn. */
const shown = (setup) => {
  const [bus] = setup.buses;
  const images = imagesOf(setup);
  const ranked = recommend(setup, bus);
  return [
    images.map((image, at) => describeImage(setup, setup.listeners[at], image)),
    overheadIssues(setup).map((issue) => describeOverheads(setup, issue)),
    fohPanIssues(setup, images, []).map((issue) => describeFohPan(setup, issue)),
    describeAdvice(setup, bus, ranked, reasonsFor(setup, bus, ranked)),
    compareLaws(setup.desk, setup.channels[0].pan),
  ];
};

const KINDS = ["usual", "hard", "FOH free", "a bus each"];
const SIZES = [
  [8, 3],
  [16, 6],
  [64, 8],
  [64, 32],
  [128, 32],
  [512, 3],
  [LIMITS.channels, LIMITS.listeners],
];

const rows = SIZES.flatMap(([channels, listeners]) =>
  KINDS.map((kind) => {
    const setup = imageSetup(channels, listeners, kind);
    const [bus] = setup.buses;
    const name = `${channels} channels, ${listeners} listeners, ${kind}`;
    let facts = 0;
    const all = fastest(() => {
      facts = [...whatIfs(setup, bus)].length;
    }, 1);
    return {
      setup: name,
      "recommendation ms": held(
        `recommendation, ${name}`,
        fastest(() => recommend(setup, bus), ROUNDS),
        isRecommendationShort(setup, bus) ? MOST : Number.POSITIVE_INFINITY,
      ),
      ways: recommend(setup, bus).length,
      "images ms": fastest(() => imagesOf(setup)).toFixed(1),
      "what would change it, in a worker, ms": all.toFixed(0),
      facts,
      ...(channels === 64 && listeners === 8 && (kind === "usual" || kind === "hard")
        ? {
            "Image screen ms": held(
              `Image screen, ${name}`,
              fastest(() => shown(setup), ROUNDS),
              MOST_SHOWN,
            ),
          }
        : {}),
    };
  }),
);
console.table(rows);
