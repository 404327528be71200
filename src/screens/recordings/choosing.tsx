import type { ComponentChildren } from "preact";
import { formatClock } from "../../core/lib/number";
import type { TrackPlace } from "../../core/measure/bus-gains";
import { current } from "../../document/store";
import { ACCEPTED } from "../../measure/kinds";
import { describeSoundFile } from "../../text/sound-files";
import { formatCount } from "../../text/words";
import { Choice, Pick } from "../../ui/choice";
import { Table } from "../../ui/table";
import { FileButton } from "../file-button";
import { dropResult, result, running } from "./measuring";
import {
  addFiles,
  align,
  dropFiles,
  hasTimes,
  hindrances,
  isReading,
  notTaken,
  type Track,
  take,
  together,
  tracks,
} from "./session";
import { placeName } from "./words";

const LEFT_OUT = "left out";

const keyOf = (place: TrackPlace | null): string => (place ? `${place.line} ${place.channel}` : "");

const placeFrom = (value: string): TrackPlace | null =>
  value === "" ? null : { line: value.startsWith("1") ? 1 : 0, channel: value.slice(2) };

const places = (): (readonly [value: string, name: string])[] =>
  current.value.channels.flatMap((channel) =>
    Array.from({ length: channel.lines }, (_, at) => {
      const line = at === 0 ? 0 : 1;
      return [keyOf({ channel: channel.id, line }), placeName(channel, line)] as const;
    }),
  );

const trackName = ({ name, channel: line, of }: Track): string =>
  of === 1 ? name : `${name}, track ${line + 1}`;

const Matches = () => {
  const options = [["", LEFT_OUT] as const, ...places()];
  return (
    <Table
      kind="matches"
      caption="Which channel each file is; correct any that are wrong"
      heads={["File", "Channel"]}
    >
      <tbody>
        {tracks.value.map((track) => {
          const { rate, frames } = track.chosen.facts;
          return (
            <tr key={track.key}>
              <th scope="row">
                {trackName(track)}
                <br />
                <span class="soft small">
                  {formatClock(frames / rate)}, {rate / 1000} kHz
                </span>
              </th>
              <td>
                <Pick
                  label={`Channel for ${trackName(track)}`}
                  hideLabel
                  value={keyOf(track.place)}
                  options={options}
                  onValue={(value) => take(track.key, placeFrom(value))}
                />
              </td>
            </tr>
          );
        })}
      </tbody>
    </Table>
  );
};

const Sentences = ({ says, bad }: { says: readonly string[]; bad?: boolean }) =>
  says.length === 0 ? null : (
    <ul class={bad ? "stack" : "soft small"}>
      {says.map((line) => (
        <li key={line} class={bad ? "notice bad" : ""}>
          {line}
        </li>
      ))}
    </ul>
  );

/** Open until something was measured; what is in it need not be made anew then. */
const OutOfTheWay = ({ children }: { children: ComponentChildren }) => (
  <details open={result.value === null}>{children}</details>
);

/** The files: chosen, matched, put on one time. */
export const Choosing = () => {
  const all = tracks.value;
  const out = all.filter((t) => t.place === null).length;
  const line = together.value;
  const some = all.length > 0;
  return (
    <>
      <p class="soft">
        A multitrack recording gives measured levels and peaks: one file per channel, or one file with many
        tracks. WAV is exact. It is read on this device; nothing is uploaded and no audio is kept.
      </p>
      <div class="row">
        <FileButton
          label={some ? "Choose more files" : "Choose recordings"}
          accept={ACCEPTED.join()}
          several
          main={!some}
          onFiles={(files) => void addFiles(files)}
        />
        {some ? (
          <button
            type="button"
            disabled={running.value !== null}
            onClick={() => {
              dropFiles();
              dropResult();
            }}
          >
            Remove recordings
          </button>
        ) : null}
      </div>
      <div role="status">{isReading.value ? <p class="soft">Reading the files …</p> : null}</div>
      <div role="alert">
        <Sentences says={notTaken.value.map(describeSoundFile)} bad />
        <Sentences says={hindrances.value.map(describeSoundFile)} bad />
      </div>
      {some ? (
        <OutOfTheWay>
          <summary>
            {all.length - out} of {formatCount(all.length, "track")} matched to a channel
          </summary>
          <Matches />
        </OutOfTheWay>
      ) : null}
      {out > 0 ? (
        <p class="soft small">
          {formatCount(out, "track")} left out: no channel with that name, or left out by you.
        </p>
      ) : null}
      {hasTimes.value ? (
        <Choice
          label="Files start"
          value={align.value}
          options={[
            ["time", "at the times in their headers"],
            ["start", "together"],
          ]}
          onValue={(v) => {
            align.value = v;
          }}
        />
      ) : null}
      {line?.ok ? <Sentences says={line.notes.map(describeSoundFile)} /> : null}
    </>
  );
};
