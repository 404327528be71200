import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import type { LevelError, LevelErrors } from "../../core/headroom/level-errors";
import { BLOCK_STEPS, GATE, STEP } from "../../core/measure/gate";
import type { BusPredicted, Predicted, PredictedName } from "../../core/measure/predicted";
import type { Bus } from "../../core/model/setup";
import type { Outlet } from "../../core/model/units";
import { formatDb, formatHeadroom, STAGE_NAMES } from "../../text/headroom";
import { busName } from "../../text/names";
import { capitalised } from "../../text/words";
import { Choice } from "../../ui/choice";
import { Explain } from "../../ui/explain";
import { Sentences } from "../../ui/sentences";
import { Table } from "../../ui/table";
import { LevelErrorHelp, LevelErrorText } from "../level-error";
import { channelTitle } from "../shown-names";
import { measureThrough, running } from "./measuring";
import { level, signed } from "./words";

const FIGURE: { readonly [name in PredictedName]: string } = {
  average: "Average RMS",
  correlated: "Average RMS, correlated",
  level: "RMS when everybody plays",
  likely: "Likely peak",
  playable: "Loudest playable peak",
  allAtOnce: "All peaks aligned",
  truePeak: "True peak",
};
const MIX: { readonly [outlet in Outlet]: string } = {
  left: "L",
  right: "R",
  mono: "Mono",
};
/** Rows whose measurement is a level: it follows every change. */
const LEVELS: readonly PredictedName[] = ["average", "correlated", "level"];

const Row = (props: {
  name: string;
  of: Predicted;
  stale: boolean;
  over?: boolean;
  error?: LevelError | undefined;
}) => {
  const { estimate, measured, difference } = props.of;
  const soft = props.stale ? "soft" : "";
  return (
    <tr>
      <th scope="row">
        {props.name}
        {props.error ? <LevelErrorText error={props.error} /> : null}
        {props.stale ? <span class="small bad"> from before the change</span> : null}
      </th>
      <td class={props.over ? "bad" : soft}>{level(measured)}</td>
      <td>{level(estimate)}</td>
      <td class={soft}>{signed(difference)}</td>
    </tr>
  );
};

const errorOf = (name: PredictedName, errors: LevelErrors | null): LevelError | undefined =>
  name === "average" || name === "level" ? errors?.[name] : undefined;

const BesideColumns = (props: { caption: string; first: string; children: ComponentChildren }) => (
  <Table kind="figures" caption={props.caption} heads={[props.first, "Measured", "Estimate", "Diff."]}>
    <tbody>{props.children}</tbody>
  </Table>
);

/**
 * Which side is looked at.
 * @param errors of the estimated levels; null where the levels entered are others than measured
 */
const Sides = ({ bus, of, errors }: { bus: Bus; of: BusPredicted; errors: LevelErrors | null }) => {
  const wanted = useSignal<Outlet>("left");
  const mix = of.mixes.find((m) => m.mix === wanted.value) ?? of.mixes[0];
  if (!mix) return null;
  return (
    <div class="stack">
      {bus.stereo ? (
        <Choice
          label="Output"
          hideLabel
          value={mix.mix}
          options={of.mixes.map((m) => [m.mix, MIX[m.mix]] as const)}
          onValue={(name) => {
            wanted.value = name;
          }}
        />
      ) : null}
      <BesideColumns
        caption="dBFS, after send, pan, polarity and trims"
        first={bus.stereo ? MIX[mix.mix] : "Output"}
      >
        {mix.rows.map((row) => (
          <Row
            key={row.name}
            name={FIGURE[row.name]}
            of={row}
            stale={mix.stale && !LEVELS.includes(row.name)}
            error={errorOf(row.name, errors)}
          />
        ))}
      </BesideColumns>
    </div>
  );
};

const Headroom = ({ of }: { of: BusPredicted }) => (
  <BesideColumns caption="Headroom at every ceiling, dB" first="Ceiling">
    {of.ceilings.map((c) => (
      <Row
        key={c.place}
        name={capitalised(STAGE_NAMES[c.place])}
        of={c}
        stale={of.stale}
        over={c.state === "over"}
      />
    ))}
  </BesideColumns>
);

/** The one thing to know: what is really left, and how far the estimate was off. */
const inOneLine = (of: BusPredicted, name: string): string => {
  if (of.stale) return `Peaks of ${name} are from before the change: measure again`;
  const { lowest } = of;
  const room = lowest.measured ?? 0;
  if (!Number.isFinite(room)) return `Nothing in this recording reaches ${name}`;
  const off = lowest.difference === null ? "" : `, ${apart(-lowest.difference)} than estimated`;
  return `Measured: ${formatHeadroom(room, lowest.place, lowest.state)}${off}`;
};

const apart = (more: number): string => `${formatDb(Math.abs(more))} dB ${more < 0 ? "less" : "more"}`;

/**
 * Every estimate of the bus beside its measurement, following each change of pan, send and law.
 * @param apart the channels have other levels or peaks than were measured
 */
export const BesideTable = (props: {
  bus: Bus;
  of: BusPredicted;
  notes: readonly string[];
  apart: boolean;
}) => {
  const { bus, of, notes } = props;
  return (
    <section class="stack" aria-labelledby="beside">
      <div role="status">
        <h2 id="beside">{inOneLine(of, busName(bus))}</h2>
      </div>
      {of.stale ? (
        <div class="row">
          <button
            type="button"
            class="main"
            disabled={running.value !== null}
            onClick={() => void measureThrough(bus)}
          >
            Measure again for the peaks
          </button>
        </div>
      ) : null}
      <Sentences look="notice" says={notes} />
      {of.missing.length > 0 ? (
        <p class="soft small">
          Not in the recording, so left out of both columns: {of.missing.map(channelTitle).join(", ")}.
        </p>
      ) : null}
      {props.apart ? (
        <p class="soft small">
          The levels and peaks entered under Channels differ from this recording: copy the figures below to
          use them for the estimates.
        </p>
      ) : null}
      <div class="two">
        <Headroom of={of} />
        <Sides bus={bus} of={of} errors={props.apart ? null : of.levelErrors} />
      </div>
      <Explain about="How these compare">
        <p>The estimate uses the levels and peaks entered under Channels. Diff.: estimate minus measured.</p>
        <p>
          Average RMS is measured over the whole recording, RMS when everybody plays over the{" "}
          {1000 * STEP * BLOCK_STEPS} ms blocks in which every channel of the bus is within {GATE} dB of its
          loudest block. Both follow every change of pan, send, trim and law at once, from the products of
          each two tracks (ΣΣ gi·gj·Pij, exact). Peaks need the samples: after a change that is not the same
          for all tracks they are from before, until measured again.
        </p>
        <LevelErrorHelp />
        <p>
          The three estimated peaks stand beside the one highest sample. Measured headroom uses the true peak:
          that is what a converter puts out.
        </p>
        <p>Source: level arithmetic with measured correlations; ITU-R BS.1770 for the true peak.</p>
      </Explain>
    </section>
  );
};
