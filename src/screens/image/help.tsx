import { formatNumber } from "../../core/lib/number";
import { OFF_CENTRE_DB } from "../../core/stereo/placement";
import { CENTRE_DB, SIDE_DB } from "../../core/stereo/position";

/** What decides whether a side is right, and from which difference on something is at a side. */
export const ImageHelp = () => (
  <>
    <p>
      Stands: how far the piece is to the listener’s left or right. Heard: right ear over left, 20 log(R / L).
      Under {formatNumber(CENTRE_DB, 0)} dB is the centre; from {formatNumber(SIDE_DB, 0)} dB on it is hard
      left or right. At FOH the lower line is the pan instead.
    </p>
    <p>
      Right side: heard on the side where it stands. Wrong side: on the other. Centred: it stands to one side
      but is heard in the centre, or it stands in the centre and is more than {formatNumber(OFF_CENTRE_DB, 0)}{" "}
      dB off.
    </p>
    <p>
      Assumed: only levels count, both earpieces are alike, and the pieces stand as in the plan: typical
      places until you drag them.
    </p>
    <p>
      Source: Mills 1960 for the centre; a secondary text for {formatNumber(SIDE_DB, 0)} dB;{" "}
      {formatNumber(OFF_CENTRE_DB, 0)} dB is a design choice.
    </p>
  </>
);

/** By what recommendations are ranked. */
export const RankHelp = () => (
  <>
    <p>
      Every combination is tried: leaving the bus, swapping its L/R, re-panning in it, setting channel pans
      where FOH may change, flipping at a mixer, a bus of their own, mono. For each, the pans to mirror are
      those that are best for who matters most, then for the others. What breaks a rule below, or is beaten by
      another in everything, is left out.
    </p>
    <p>
      The rest are ranked in this order: the listener who matters most, then the others, then fewer monitor
      inputs, fewer changes, and the more exact mirror. For a listener, channels on the wrong side count
      first, then centred ones, then the score: the mean over the pieces of side × heard, outer pieces more,
      from −1 all wrong to +1 all right, in tenths.
    </p>
    <p>Source: none; the order is a design choice.</p>
  </>
);
