import type { Ceiling } from "../../core/headroom/ceilings";
import { EARPHONE_ERROR, EU_VALUES, type ExposureRule, NIOSH, OSHA } from "../../core/headroom/earphone";
import { levelOfPower } from "../../core/level/decibels";
import { formatEntry, formatNumber } from "../../core/lib/number";
import { LAWS } from "../../core/pan/laws";
import { CENTRE_DB } from "../../core/stereo/position";
import { current } from "../../document/store";
import { formatList } from "../../text/words";
import { time } from "./time";

/** A digital link has no dBu. */
const isDigital = (): boolean => current.value.monitor.link === "digital";

/** How headroom is counted, and by which rule. */
export const HeadroomHelp = ({ ceilings }: { ceilings: readonly Ceiling[] }) => (
  <>
    <p>
      Ceiling minus likely peak, on the side that comes closest. The bus clips at 0 dBFS before its trims, the
      output at 0 dBFS after them,{" "}
      {isDigital() ? "the monitor input at 0 dBFS" : "the monitor input at its max input level after the pad"}{" "}
      (here {formatNumber(ceilings.find((c) => c.place === "input")?.ceiling ?? 0, 1)} dBFS).
    </p>
    <p>
      Likely peak: the loudest contribution plus the root-sum-square of the rest. In takes mixed from recorded
      drum hits it lay about 3.5 dB above the real peak; in 1 or 2 of 100 it lay under it, by less than 1 dB.
    </p>
    <p>
      Source: {isDigital() ? "" : "EBU R 68 and SMPTE RP 155 for what 0 dBFS is in dBu, else as you set it; "}
      the likely peak is a working rule, no source.
    </p>
  </>
);

/** How the ways back to the target are found. */
export const RemedyHelp = () => (
  <>
    <p>
      Shortfall: target headroom minus headroom, at the limiting stage. The trim is the highest that gives
      output and monitor input their target; all sends lowered by the same amount give it to every stage. Both
      keep the balance.
    </p>
    <p>
      A single send is offered only where that source alone is the reason: by itself it is over the limit, the
      others fit without it, and lowered until all fit it is still the loudest. Never while a peak is not
      entered.
    </p>
    <p>
      Everything goes by the likely peak, in steps of {formatEntry(current.value.desk.levelStep)} dB as the
      desk has them, rounded so that the target is always reached.
    </p>
    <p>
      Source: level arithmetic; the likely peak is a working rule, no source; what makes one source the reason
      is a design choice.
    </p>
  </>
);

/** What a channel's two shares of a side are. */
export const SharesHelp = () => (
  <>
    <p>
      Share of RMS: its power over that of the whole side, as uncorrelated signals. Share of peak: its peak
      over the plain sum of all peaks. Both after send, pan, polarity and trims; what is not entered counts as
      nothing.
    </p>
    <p>Source: level arithmetic; that the share of peak says who is loudest is a design choice.</p>
  </>
);

/** What stands in the table of laws, and where each law is from. */
export const LawsHelp = () => (
  <>
    <p>
      Unity: the pan position at which a side passes the channel unchanged, hard-panned or at centre. L, R,
      Mono: likely peaks after the trims. Loss: likely peak before the trims minus the loudest single channel
      after its send, on the worse side; negative where the law lowers more than summing adds. Headroom:
      headroom at the limiting stage, which stands beside it.
    </p>
    <p>Assumed: every pan stays where it is. Stereo channels do not follow the law.</p>
    <p>
      Source: the likely peak is a working rule, no source. The laws:{" "}
      {Object.values(LAWS)
        .map(({ name, source }) => `${name}: ${source}`)
        .join(". ")}
      .
    </p>
  </>
);

/** What folding does to a channel, and what is left of it in one ear. */
export const MonoHelp = () => (
  <>
    <p>
      Fold: 20 log |L + R| of the gains of pan, polarity and the trims of the sides; send and trim of the bus
      are left out. The two sides of a stereo channel add as energies. A constant-power law brings the centre
      up by 10 log 2 = {formatNumber(levelOfPower(2), 2)} dB against a hard-panned channel, a constant-sum law
      by nothing.
    </p>
    <p>
      Drop: this ear against the other, for what is louder in the other ear by {formatNumber(CENTRE_DB, 0)} dB
      or more; as the bus is patched, with the trims and switches of its inputs, before the listener’s own
      mixer.
    </p>
    <p>Source: level arithmetic; Mills 1960 for the {formatNumber(CENTRE_DB, 0)} dB.</p>
  </>
);

const allowedBy = ({ time: reference, level, exchange }: ExposureRule): string =>
  `${time(reference)} / 2^((L − ${level}) / ${exchange})`;

/** How the level at the ear is estimated, and the time that each rule allows. */
export const EarHelp = () => (
  <>
    <p>
      Voltage at the earphone: amplifier output × Z / (Z + Z of the amplifier). From the earphone: dB/V + 20
      log of that voltage; dB/V is dB/mW + 10 log(1000 / Z). From the stage: its level minus the isolation. At
      the ear: the energy sum of both, 10 log Σ 10^(L/10).
    </p>
    <p>
      Time at that level L: {allowedBy(NIOSH)} by NIOSH, {allowedBy(OSHA)} by OSHA; under it the same for{" "}
      {EARPHONE_ERROR} dB more and {EARPHONE_ERROR} dB less. Peaks of the directive: 20 log(p / 20 µPa) of{" "}
      {formatList(EU_VALUES.map((v) => String(v.pascals)))} Pa.
    </p>
    <p>
      Assumed: the amplifier puts out this voltage all the time, Z and sensitivity are alike at every
      frequency, and the result counts as dBA.
    </p>
    <p>
      Source: level arithmetic; NIOSH 98-126, 1998 (formula in a secondary copy); OSHA, 29 CFR 1910.95;
      Directive 2003/10/EC, article 3. ±{EARPHONE_ERROR} dB is from memory, no source.
    </p>
  </>
);
