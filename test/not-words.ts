/**
 * Words that nobody may read: of an older language of this app, and such as make a native English-speaking sound
 * engineer stop, the trade having its own. One list for what stands in the source, on the screens and in the snapshots.
 */
const NOT: readonly RegExp[] = [
  // Buses, inputs and feeds.
  /slots?|legs?|several sums|feeds? fit|direct feeds?|send into|two-channel|patched straight|both (legs|sides) in one/,
  /before filter|after fader|house pan|follows? the house|house notices|reversed/,
  // The image and what to do about it.
  /unplaceable|keeps? its sides|mend(s|ed|ing)?|repairs?|put (it )?(in|into) the (plan|setup)|put right|show afterwards|look here,/,
  // Levels.
  /level while playing|a drummer can play|all at once|wanted margin|between the samples|of the energy|whose send costs/,
  /centre attenuation|which end is 0 dB|largest level of the receiving|nothing sounds|as if no/,
  // The check, files, people.
  /(take|takes|taken|took) (back|away|off|out)|slips|put (it |them )?away|as understood|lead voice|the console|reckon(s|ed)?/,
  // Not English as it is spoken.
  /ear-worn|in force|says nothing of|read are|(is|are) no numbers?|(is|are) taken to|one’s own|one input less|mostly at once/,
  /commonest|before (two )?loudspeakers|by every (pan )?law|only looks on|mix(es|ed)?( [^.]+)? apart|(is|are) not apart|\d+ lg/,
];

/** Any of them, as whole words. */
export const NOT_WORDS = new RegExp(
  `(?<![\\w-])(${NOT.map(({ source }) => source).join("|")})(?![\\w-])`,
  "i",
);
