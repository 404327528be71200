import { formatNumber } from "../../core/lib/number";
import { FIRST_LEVEL } from "../../listen/output";

/** What the level is against, and how the three are made equally loud. */
export const ListenHelp = () => (
  <>
    <p>
      Level: how far everything is turned down, 20 log of one gain; {formatNumber(FIRST_LEVEL, 0)} dB at
      first, 0 dB turns nothing down. It says nothing about the level at the ear: that depends on the phone
      and the earphones.
    </p>
    <p>
      Same loudness: the energy of both ears together is the same. The louder two come down to the softest,
      none is raised; a silent one does not count.
    </p>
    <p>Source: level arithmetic; that energy stands for loudness, and the first level, is a design choice.</p>
  </>
);
