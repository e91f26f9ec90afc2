package panelbook.cli.command;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Certificate;
import panelbook.wire.CertificateDraft;
import panelbook.wire.Instrument;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on instruments and their certificates. */
final class InstrumentCommands {

    private static final String INSTRUMENT = "Name or id of the instrument.";

    private InstrumentCommands() {}

    /** What is known of an instrument; each null when not given. */
    static final class Data {
        @Option(names = "--kind", paramLabel = "KIND", description = "colorimeter or spectroradiometer.")
        @Nullable
        String kind;

        @Option(names = "--serial-number", paramLabel = "NUMBER", description = "Serial number.")
        @Nullable
        String serialNumber;

        @Option(
                names = "--luminance-uncertainty",
                paramLabel = "%",
                description = "Of luminance, expanded (k = 2), %%.")
        @Nullable
        String luminanceUncertainty;

        @Option(
                names = "--luminance-repeatability",
                paramLabel = "%",
                description = "Of luminance, standard deviation, %%.")
        @Nullable
        String luminanceRepeatability;

        @Option(
                names = "--chromaticity-uncertainty",
                paramLabel = "X",
                description = "In each of u′ and v′, expanded (k = 2).")
        @Nullable
        String chromaticityUncertainty;

        @Option(
                names = "--chromaticity-repeatability",
                paramLabel = "X",
                description = "In each of u′ and v′, standard deviation.")
        @Nullable
        String chromaticityRepeatability;

        @Option(names = "--luminance-floor", paramLabel = "CD/M2", description = "Standard deviation on black, cd/m².")
        @Nullable
        String luminanceFloor;

        /** Something that was given; null when nothing was. */
        @Nullable
        Object any() {
            return Action.first(
                    kind,
                    serialNumber,
                    luminanceUncertainty,
                    luminanceRepeatability,
                    chromaticityUncertainty,
                    chromaticityRepeatability,
                    luminanceFloor);
        }

        InstrumentDraft draft(UUID id, String name) {
            return new InstrumentDraft(
                    id,
                    name,
                    Words.one(InstrumentKind.class, "--kind", needed(kind, "--kind")),
                    serialNumber,
                    number("--luminance-uncertainty", luminanceUncertainty),
                    number("--luminance-repeatability", luminanceRepeatability),
                    number("--chromaticity-uncertainty", chromaticityUncertainty),
                    number("--chromaticity-repeatability", chromaticityRepeatability),
                    number("--luminance-floor", luminanceFloor));
        }

        private static String needed(@Nullable String value, String option) {
            if (value == null) {
                throw Failure.usage("An instrument needs " + option + "; its certificate or data sheet gives it.");
            }
            return value;
        }

        private static double number(String option, @Nullable String value) {
            return Words.number(option, needed(value, option));
        }

        private static double number(String option, @Nullable String value, double old) {
            return value == null ? old : Words.number(option, value);
        }

        InstrumentDraft draft(Instrument old, String name) {
            return new InstrumentDraft(
                    old.id(),
                    name,
                    kind == null ? old.kind() : Words.one(InstrumentKind.class, "--kind", kind),
                    serialNumber == null ? old.serialNumber() : serialNumber,
                    number("--luminance-uncertainty", luminanceUncertainty, old.luminanceUncertaintyPercent()),
                    number("--luminance-repeatability", luminanceRepeatability, old.luminanceRepeatabilityPercent()),
                    number("--chromaticity-uncertainty", chromaticityUncertainty, old.chromaticityUncertainty()),
                    number("--chromaticity-repeatability", chromaticityRepeatability, old.chromaticityRepeatability()),
                    number("--luminance-floor", luminanceFloor, old.luminanceFloor()));
        }
    }

    @Command(
            footer = {
                "  panelbook instrument add \"Meter 1\" --kind colorimeter --luminance-uncertainty 2 \\",
                "    --luminance-repeatability 0.1 --chromaticity-uncertainty 0.002 \\",
                "    --chromaticity-repeatability 0.0001 --luminance-floor 0.0005"
            })
    static final class Add extends Action {
        @Parameters(paramLabel = "NAME", description = "Name; unique.")
        String name = "";

        @Mixin
        Data data = new Data();

        @Override
        int work() {
            var checked = data.draft(idOf("instrument", name), name);
            var added = addOnce(
                    checked.id(),
                    id -> service().post(Instrument.class, "/instruments", data.draft(id, name)),
                    () -> exists(() -> names().instrument(name)));
            return added(
                    Views.instruments(),
                    added,
                    "instrument " + name,
                    "panelbook instrument certificate add " + Words.quoted(name)
                            + " NUMBER --issued DATE --until DATE");
        }
    }

    @Command(footer = "  panelbook instrument list")
    static final class ListAll extends ListingOfKept<Instrument> {
        @Override
        View<Instrument> view() {
            return Views.instruments();
        }

        @Override
        String path() {
            return kept("/instruments");
        }

        @Override
        String none() {
            return "There is no instrument. Next: panelbook instrument add --help";
        }
    }

    @Command(footer = "  panelbook instrument show \"Meter 1\"")
    static final class Show extends Showing<Instrument> {
        @Parameters(paramLabel = "INSTRUMENT", description = INSTRUMENT)
        String instrument = "";

        @Override
        View<Instrument> view() {
            return Views.instruments();
        }

        @Override
        Instrument thing() {
            return names().instrument(instrument);
        }
    }

    @Command(footer = "  panelbook instrument edit \"Meter 1\" --luminance-uncertainty 1.8")
    static final class Edit extends Action {
        @Parameters(paramLabel = "INSTRUMENT", description = INSTRUMENT)
        String instrument = "";

        @Option(names = "--name", paramLabel = "NAME", description = "New name.")
        @Nullable
        String name;

        @Mixin
        Data data = new Data();

        @Override
        int work() {
            requireAny(name, data.any());
            var old = names().instrument(instrument);
            var draft = data.draft(old, or(name, old.name()));
            var edited = service().put(Instrument.class, "/instruments/" + old.id(), draft, old.version());
            return changed(Views.instruments(), edited, "Changed instrument " + edited.name(), "");
        }
    }

    @Command(footer = "  panelbook instrument retire \"Meter 1\" --reason \"sold\"")
    static final class Retire extends Retiring<Instrument> {
        @Parameters(paramLabel = "INSTRUMENT", description = INSTRUMENT)
        String instrument = "";

        @Override
        View<Instrument> view() {
            return Views.instruments();
        }

        @Override
        String collection() {
            return "/instruments";
        }

        @Override
        UUID thingId() {
            return names().instrument(instrument).id();
        }

        @Override
        String name() {
            return "instrument " + instrument;
        }
    }

    @Command(
            footer = "  panelbook instrument certificate add \"Meter 1\" K-2291 --issued 2026-02-10 --until 2027-02-09")
    static final class CertificateAdd extends Action {
        @Parameters(index = "0", paramLabel = "INSTRUMENT", description = INSTRUMENT)
        String instrument = "";

        @Parameters(index = "1", paramLabel = "NUMBER", description = "Number of the certificate.")
        String number = "";

        @Option(
                names = "--issued",
                required = true,
                paramLabel = "DATE",
                description = "Day of issue, such as 2026-02-10.")
        String issued = "";

        @Option(names = "--until", required = true, paramLabel = "DATE", description = "Last day on which it holds.")
        String until = "";

        @Override
        int work() {
            var from = Words.date("--issued", issued);
            var to = Words.date("--until", until);
            if (to.isBefore(from)) {
                throw Failure.usage("--until " + to + " lies before --issued " + from + ".");
            }
            var of = names().instrument(instrument);
            var draft = new CertificateDraft(idOf("certificate", of.id(), number), number, from, to);
            var added = service().post(Certificate.class, "/instruments/" + of.id() + "/certificates", draft);
            return added(Views.certificates(), added, "certificate " + number + " of " + of.name(), "");
        }
    }

    @Command(footer = "  panelbook instrument certificate list \"Meter 1\"")
    static final class CertificateList extends Action {
        @Parameters(paramLabel = "INSTRUMENT", description = INSTRUMENT)
        String instrument = "";

        @Override
        int work() {
            printer().checkFields(Certificate.class);
            var path = "/instruments/" + names().instrument(instrument).id() + "/certificates";
            printer()
                    .list(
                            Certificate.class,
                            service().list(Certificate.class, path),
                            Views.certificates().columns());
            return 0;
        }
    }
}
