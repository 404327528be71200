import { rmsBy } from "../../core/level/analog";
import { LAWS } from "../../core/pan/laws";
import { current } from "../../document/store";

/** What a channel's figures mean, where they come from and how far off they may be. */
export const KitHelp = () => {
  const { law, rms } = current.value.desk;
  return (
    <>
      <p>
        L and R: what each side of the bus gets of the channel, in dB: send × pan law × trims as gains,
        printed as 20 log of the product. −∞ is silence.
      </p>
      <p>
        Gated RMS: level while it plays, pauses left out, dBFS rms; a full-scale sine reads {rmsBy(rms).sine}.
        Peak: its highest sample, dBFS. Activity: the share of the time it plays; left empty, as measured,
        else typical for its kind. Send: the send level to this bus, dB; left empty, off.
      </p>
      <p>
        Levels and peaks of the example and of templates are estimates. Replace them with what the desk’s
        meters show, or measure a recording under Headroom. If all of them are 1 dB off, so is every figure of
        the bus; if only the loudest is, almost as much. Headroom says how far its own figures can be off.
      </p>
      <p>
        Source: {LAWS[law].source}; RMS by {rmsBy(rms).by}; typical levels: common practice, no source.
      </p>
    </>
  );
};
