import { musiciansOf } from "../../core/allocate/people";
import { RULE_VALUES, type RuleOfValue } from "../../core/model/rule-values";
import type { ChannelRule, Id } from "../../core/model/setup";
import { editRules } from "../../document/commands/rules";
import { current, run } from "../../document/store";
import { formatRuleValue, RULE_NAMES } from "../../text/rules";
import { capitalised } from "../../text/words";
import { Pick, Tick } from "../../ui/choice";
import { listenerTitle } from "../shown-names";
import { type Changed, changedOf, common, concerns, type Ruled } from "./ruled";

const idsOf = (some: readonly Ruled[]): Id[] => some.map(({ channel }) => channel.id);

/** The default of some channels in words; without a value where each has its own. */
const defaultName = <K extends keyof ChannelRule>(some: readonly Ruled[], key: K): string => {
  const all = common(some.map(({ byKind }) => byKind[key]));
  if (!all) return "Default of each";
  const value = all.value as NonNullable<ChannelRule[K]>;
  return `Default: ${formatRuleValue(key, value, current.value.listeners)}`;
};

const labelOf = (key: keyof ChannelRule, { is }: Changed<typeof key>): string =>
  `${capitalised(RULE_NAMES[key])}${is === "default" ? "" : " · changed"}`;

const NOT_A_VALUE = { default: "default", different: "different" } as const;

/** One rule of some channels: as by default, or what all of them are changed to. */
const RuleField = <K extends RuleOfValue>(props: { some: readonly Ruled[]; rule: K }) => {
  const key = props.rule;
  const some = props.some.filter((ruled) => concerns(key, ruled));
  if (some.length === 0) return null;
  const changed = changedOf(some, key);
  const values: readonly NonNullable<ChannelRule[K]>[] = RULE_VALUES[key];
  return (
    <Pick
      label={labelOf(key, changed)}
      value={changed.is === "changed" ? String(changed.to) : changed.is}
      options={[
        ...(changed.is === "different" ? [[NOT_A_VALUE.different, "Different"] as const] : []),
        [NOT_A_VALUE.default, defaultName(some, key)],
        ...values.map(
          (value) =>
            [String(value), capitalised(formatRuleValue(key, value, current.value.listeners))] as const,
        ),
      ]}
      onValue={(chosen) => {
        const value = values.find((v) => String(v) === chosen) ?? null;
        if (chosen !== NOT_A_VALUE.different) run(editRules(idsOf(some), { [key]: value }));
      }}
    />
  );
};

/** Whom a channel reaches where only some are meant: those of the default, and where that is everybody, everybody. */
const namedBy = (some: readonly Ruled[]): Id[] => {
  const all = common(some.map(({ byKind }) => byKind.reach));
  return all && all.value !== "all" ? [...all.value] : musiciansOf(current.value).map(({ id }) => id);
};

/** Who must hear some channels: as by default, everybody, or those who are ticked. */
const ReachField = ({ some }: { some: readonly Ruled[] }) => {
  const changed = changedOf(some, "reach");
  const ids = idsOf(some);
  const named = changed.is === "changed" && changed.to !== "all" ? changed.to : null;
  const musicians = musiciansOf(current.value);
  return (
    <>
      <Pick
        label={labelOf("reach", changed)}
        value={changed.is === "changed" ? (named ? "named" : "all") : changed.is}
        options={[
          ...(changed.is === "different" ? [[NOT_A_VALUE.different, "Different"] as const] : []),
          [NOT_A_VALUE.default, defaultName(some, "reach")],
          ["all", "Everybody"],
          ["named", "Only those ticked"],
        ]}
        onValue={(chosen) => {
          if (chosen === NOT_A_VALUE.different) return;
          const reach = chosen === "all" ? "all" : chosen === "named" ? namedBy(some) : null;
          run(editRules(ids, { reach }));
        }}
      />
      {named ? (
        <fieldset class="field">
          <legend class="soft small">Must reach</legend>
          {musicians.map(({ id }) => (
            <Tick
              key={id}
              label={listenerTitle(id)}
              value={named.includes(id)}
              onValue={(must) =>
                run(editRules(ids, { reach: must ? [...named, id] : named.filter((other) => other !== id) }))
              }
            />
          ))}
        </fieldset>
      ) : null}
    </>
  );
};

/** The rules of some channels, each changed for all of them at once. */
export const RuleFields = ({ some }: { some: readonly Ruled[] }) => (
  <div class="fields">
    <RuleField some={some} rule="own" />
    <RuleField some={some} rule="stereo" />
    <RuleField some={some} rule="shares" />
    <ReachField some={some} />
    <RuleField some={some} rule="mayLeaveOut" />
    <RuleField some={some} rule="tap" />
    <RuleField some={some} rule="send" />
  </div>
);
