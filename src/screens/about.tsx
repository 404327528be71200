import { Verdict } from "../pieces/verdict";

/** Every standard and text that a figure rests on, and what of it is used. */
const SOURCES: readonly (readonly [text: string, used: string])[] = [
  ["W3C Web Audio API 1.1, StereoPannerNode", "sin/cos pan law, pan of two-channel sources"],
  ["MMA/AMEI RP-036, default pan formula", "pan in 0–127: 64 is the centre, the mirror is 128 − n"],
  ["Pulkki, JAES 45(6) 1997", "tangent law and vector base panning, for loudspeakers"],
  ["Mills, JASA 32, 1960 (abstract)", "level differences under about 1 dB are heard in the middle"],
  [
    "IEC 61672-1:2013, tables 3 and 4 (as transcribed in open libraries)",
    "F and S time weighting, A and C weighting",
  ],
  ["ITU-R BS.1770 (as quoted in open texts)", "true peak by four times oversampling"],
  ["EBU Tech 3341 (as quoted in open test suites)", "check signals for true peak"],
  ["AES17 / IEC 61606 (as quoted in glossaries)", "0 dBFS rms as a full-scale sine"],
  ["EBU R 68-2000, SMPTE RP 155 (secondary texts)", "what 0 dBFS is in dBu"],
  ["NIOSH 98-126, 1998 (formula in a secondary copy)", "time at a level: 85 dBA for 8 h, halved every 3 dB"],
  ["29 CFR 1910.95, table G-16", "the contrast: 90 dBA for 8 h, halved every 5 dB"],
  ["Directive 2003/10/EC, article 3", "European action and limit values"],
];

/** What this app is, what it rests on, and what it cannot do. */
export const AboutScreen = () => (
  <>
    <Verdict tone="fine" says="Hatside: which side is your hat on?">
      Version {__VERSION__}. MIT licence. Nothing you enter leaves this device unless you share it.
    </Verdict>
    <section class="stack" aria-labelledby="cautions">
      <h2 id="cautions">Cautions</h2>
      <ul class="stack">
        <li class="notice warn">
          Levels at the ear are estimates from data sheets, not measurements, and this is no dosimeter. Seal,
          fit and frequency move them by 5 dB or more.
        </li>
        <li class="notice warn">
          Hearing damage is permanent. Start low, use both ears, rest. Limits differ by country: follow local
          rules and the advice of qualified people.
        </li>
        <li class="notice warn">
          Taking an earpiece out or turning up to hear over the stage are the usual ways to get hurt; ear-worn
          monitors do not protect by themselves.
        </li>
        <li class="notice warn">
          Headroom figures are for planning. Check with the meters of the desk before you trust a whole show
          to them.
        </li>
      </ul>
    </section>
    <section class="stack" aria-labelledby="sources">
      <h2 id="sources">What the figures rest on</h2>
      <dl class="stack">
        {SOURCES.map(([text, used]) => (
          <div key={text}>
            <dt>{text}</dt>
            <dd class="soft small">{used}</dd>
          </div>
        ))}
      </dl>
      <p class="soft small">
        Places of the pieces, what fits which tap point, balance laws and the −4.5 dB laws are common practice
        without a source; where a figure is a model, the screen says so.
      </p>
    </section>
  </>
);
