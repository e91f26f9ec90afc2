package panelbook.cli.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Basis;
import panelbook.wire.Metric;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.UsageMessageSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on tolerance sets. */
final class ToleranceSetCommands {

    private static final String SET = "Name or id of the tolerance set.";

    private ToleranceSetCommands() {}

    /** What a tolerance set is made of; each null when not given. */
    static final class Rules {
        @Option(names = "--description", paramLabel = "TEXT", description = "What it is for.")
        @Nullable
        String description;

        @Option(
                names = "--warm-up",
                paramLabel = "MIN",
                description = "A run taken sooner after power-on cannot become a baseline.")
        @Nullable
        Integer warmUpMinutes;

        @Option(
                names = "--recalibration-days",
                paramLabel = "D",
                description = "Days after which recalibration is due.")
        @Nullable
        Integer recalibrationDays;

        @Option(
                names = "--recalibration-hours",
                paramLabel = "H",
                description = "Panel hours after which recalibration is due.")
        @Nullable
        Integer recalibrationPanelHours;

        @Option(
                names = "--hysteresis",
                paramLabel = "X",
                description =
                        "0 to 1: an alert closes only at limit × (1 − X) or better. Too small and alerts flap; too large and they stay.")
        @Nullable
        String hysteresis;

        @Option(
                names = "--conformance",
                paramLabel = "P",
                description = "0.5 to 1: probability that a decision must have, which sets the guard band (JCGM 106). "
                        + "Too small and chance decides; too large and most is undecided.")
        @Nullable
        String conformance;

        @Option(
                names = "--limit",
                paramLabel = "METRIC=VALUE",
                description =
                        "A limit, in the metric's unit; may be given many times. --help of tolerance-set show lists the metrics.")
        List<String> limits = new ArrayList<>();

        @Option(
                names = "--basis",
                paramLabel = "BASIS",
                description =
                        "Where these limits come from: text, secondary, memory or \"house policy\" (default: house policy).")
        @Nullable
        String basis;

        @Option(names = "--document", paramLabel = "TEXT", description = "The document they come from.")
        @Nullable
        String document;

        @Option(names = "--clause", paramLabel = "TEXT", description = "The place in it.")
        @Nullable
        String clause;

        @Option(names = "--note", paramLabel = "TEXT", description = "A note on these limits.")
        @Nullable
        String note;

        /** Something that was given; null when nothing was. */
        @Nullable
        Object any() {
            return Action.first(
                    description,
                    warmUpMinutes,
                    recalibrationDays,
                    recalibrationPanelHours,
                    hysteresis,
                    conformance,
                    limits.isEmpty() ? null : limits,
                    basis,
                    document,
                    clause,
                    note);
        }

        @Nullable
        Double hysteresisValue() {
            return hysteresis == null ? null : Words.number("--hysteresis", hysteresis);
        }

        @Nullable
        Double conformanceValue() {
            return conformance == null ? null : Words.number("--conformance", conformance);
        }

        List<Tolerance> tolerances() {
            var from = basis == null ? Basis.HOUSE_POLICY : Words.one(Basis.class, "--basis", basis);
            if (from != Basis.HOUSE_POLICY && document == null) {
                throw Failure.usage("A limit whose basis is " + from + " needs --document.");
            }
            if (limits.isEmpty() && (basis != null || document != null || clause != null || note != null)) {
                throw Failure.usage(
                        "--basis, --document, --clause and --note say where limits come from: name those by --limit.");
            }
            return limits.stream().map(limit -> tolerance(limit, from)).toList();
        }

        private Tolerance tolerance(String limit, Basis from) {
            var equals = limit.indexOf('=');
            if (equals < 0) {
                throw Failure.usage("--limit \"" + limit + "\" is not METRIC=VALUE, such as own-drift-white=0.004.");
            }
            var metric = Words.one(Metric.class, "--limit", limit.substring(0, equals));
            var value = Words.number("--limit " + metric, limit.substring(equals + 1));
            return new Tolerance(metric, value, from, document, clause, note);
        }
    }

    private static List<Tolerance> merged(List<Tolerance> old, List<Tolerance> changed, List<Metric> removed) {
        Map<Metric, Tolerance> all = new LinkedHashMap<>();
        old.forEach(t -> all.put(t.metric(), t));
        changed.forEach(t -> all.put(t.metric(), t));
        removed.forEach(all::remove);
        return List.copyOf(all.values());
    }

    @Command(
            footer = {
                "  panelbook tolerance-set add House --description \"our own\" --limit own-drift-white=0.004 \\",
                "    --limit delta-e-itp-max=3"
            })
    static final class Add extends Action {
        @Parameters(paramLabel = "NAME", description = "Name; unique.")
        String name = "";

        @Mixin
        Rules rules = new Rules();

        @Option(names = "--like", paramLabel = "SET", description = "Start from this tolerance set.")
        @Nullable
        String like;

        @Override
        int work() {
            var tolerances = rules.tolerances();
            var base = like == null ? null : names().toleranceSet(like);
            if (base == null && tolerances.isEmpty()) {
                throw Failure.usage(
                        "A tolerance set needs limits: give --limit METRIC=VALUE, or start from another by --like.");
            }
            var added = addOnce(
                    idOf("tolerance-set", name),
                    id -> service().post(ToleranceSet.class, "/tolerance-sets", draft(id, base, tolerances)),
                    () -> exists(() -> names().toleranceSet(name)));
            return added(
                    Views.toleranceSets(),
                    added,
                    "tolerance set " + name,
                    "panelbook target edit TARGET --tolerance-set " + Words.quoted(name));
        }

        private ToleranceSetDraft draft(UUID id, @Nullable ToleranceSet base, List<Tolerance> tolerances) {
            // without a base: half an hour of warm-up, a tenth of hysteresis and 95 % are this command's own defaults
            var from =
                    base != null ? base : new ToleranceSet(id, name, "", 30, null, null, 0.1, 0.95, List.of(), null, 0);
            return edited(from, id, name, rules, merged(from.tolerances(), tolerances, List.of()));
        }
    }

    private static ToleranceSetDraft edited(
            ToleranceSet from, UUID id, String name, Rules given, List<Tolerance> tolerances) {
        return new ToleranceSetDraft(
                id,
                name,
                Action.or(given.description, from.description()),
                Action.or(given.warmUpMinutes, from.warmUpMinutes()),
                given.recalibrationDays == null ? from.recalibrationDays() : given.recalibrationDays,
                given.recalibrationPanelHours == null ? from.recalibrationPanelHours() : given.recalibrationPanelHours,
                Action.or(given.hysteresisValue(), from.hysteresis()),
                Action.or(given.conformanceValue(), from.conformanceProbability()),
                tolerances);
    }

    @Command(footer = "  panelbook tolerance-set list")
    static final class ListAll extends ListingOfKept<ToleranceSet> {
        @Override
        View<ToleranceSet> view() {
            return Views.toleranceSets();
        }

        @Override
        String path() {
            return kept("/tolerance-sets");
        }

        @Override
        String none() {
            return "There is no tolerance set. Next: panelbook tolerance-set add --help";
        }
    }

    @Command(
            footer = "  panelbook tolerance-set show House",
            description = {"", "Each limit is shown with where it comes from."})
    static final class Show extends Action {
        @Parameters(paramLabel = "SET", description = SET)
        String set = "";

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        void describe(UsageMessageSpec usage) {
            var metrics =
                    Arrays.stream(Metric.values()).map(m -> m + " (" + m.unit().replace("%", "%%") + ")");
            usage.description(
                    "",
                    "Each limit is shown with where it comes from.",
                    "",
                    "Metrics and their units: " + metrics.collect(Collectors.joining(", ")) + ".");
        }

        @Override
        int work() {
            printer().checkFields(ToleranceSet.class);
            var shown = names().toleranceSet(set);
            if (asOf != null) {
                shown = service().get(ToleranceSet.class, Past.of("/tolerance-sets/" + shown.id(), asOf));
            }
            printer().one(ToleranceSet.class, shown, Views.toleranceSets().fields());
            if (!printer().isJson()) {
                printer()
                        .list(
                                Tolerance.class,
                                shown.tolerances(),
                                Views.tolerances().columns());
            }
            return 0;
        }
    }

    @Command(
            footer = {
                "  panelbook tolerance-set edit House --limit own-drift-white=0.004",
                "  panelbook tolerance-set edit House --limit white-luminance-error=5 --basis text \\",
                "    --document \"EBU Tech 3320\" --clause 5.1",
                "  panelbook tolerance-set edit House --no-limit contrast"
            },
            description = {
                "",
                "A limit that is given without --basis counts as house policy, whatever it was before: it is your figure, "
                        + "not the document's. Later findings are judged by the new limits and name the version."
            })
    static final class Edit extends Action {
        @Parameters(paramLabel = "SET", description = SET)
        String set = "";

        @Option(names = "--name", paramLabel = "NAME", description = "New name.")
        @Nullable
        String name;

        @Mixin
        Rules rules = new Rules();

        @Option(
                names = "--no-limit",
                paramLabel = "METRIC",
                description = "Stop judging this metric; may be given many times.")
        List<String> noLimits = new ArrayList<>();

        @Override
        int work() {
            requireAny(name, rules.any(), noLimits.isEmpty() ? null : noLimits);
            var tolerances = rules.tolerances();
            var removed = noLimits.stream()
                    .map(m -> Words.one(Metric.class, "--no-limit", m))
                    .toList();
            var old = names().toleranceSet(set);
            var draft = ToleranceSetCommands.edited(
                    old, old.id(), or(name, old.name()), rules, merged(old.tolerances(), tolerances, removed));
            var edited = service().put(ToleranceSet.class, "/tolerance-sets/" + old.id(), draft, old.version());
            return changed(
                    Views.toleranceSets(),
                    edited,
                    "Changed tolerance set " + edited.name() + ", now version " + edited.version(),
                    "panelbook tolerance-set show " + Words.quoted(edited.name()));
        }
    }

    @Command(footer = "  panelbook tolerance-set retire House")
    static final class Retire extends Retiring<ToleranceSet> {
        @Parameters(paramLabel = "SET", description = SET)
        String set = "";

        @Override
        View<ToleranceSet> view() {
            return Views.toleranceSets();
        }

        @Override
        String collection() {
            return "/tolerance-sets";
        }

        @Override
        UUID thingId() {
            return names().toleranceSet(set).id();
        }

        @Override
        String name() {
            return "tolerance set " + set;
        }
    }
}
