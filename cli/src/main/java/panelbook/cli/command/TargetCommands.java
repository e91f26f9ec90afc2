package panelbook.cli.command;

import java.util.Arrays;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;
import panelbook.wire.EotfKind;
import panelbook.wire.Primaries;
import panelbook.wire.SignalRange;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on targets. */
final class TargetCommands {

    private static final String TARGET = "Name or id of the target.";

    private TargetCommands() {}

    /** What a target is made of; each null when not given. */
    static final class Aim {
        @Option(
                names = "--primaries",
                paramLabel = "SET",
                description =
                        "bt709, bt2020 or p3-d65 (ITU-R BT.709, BT.2020; SMPTE EG 432-1), or eight CIE xy: Rx,Ry,Gx,Gy,Bx,By,Wx,Wy.")
        @Nullable
        String primaries;

        @Option(names = "--eotf", paramLabel = "EOTF", description = "pq, hlg, bt1886 or power.")
        @Nullable
        String eotf;

        @Option(names = "--gamma", paramLabel = "X", description = "Exponent; only for power.")
        @Nullable
        String gamma;

        @Option(names = "--range", paramLabel = "RANGE", description = "full or narrow.")
        @Nullable
        String range;

        @Option(names = "--bits", paramLabel = "N", description = "Bit depth, 8 to 16.")
        @Nullable
        Integer bits;

        @Option(names = "--peak", paramLabel = "CD/M2", description = "Peak luminance aim, cd/m².")
        @Nullable
        String peak;

        @Option(names = "--black", paramLabel = "CD/M2", description = "Black luminance aim, cd/m².")
        @Nullable
        String black;

        @Option(names = "--tolerance-set", paramLabel = "SET", description = "Name or id of its tolerance set.")
        @Nullable
        String toleranceSet;

        /** Something that was given; null when nothing was. */
        @Nullable
        Object any() {
            return Action.first(primaries, eotf, gamma, range, bits, peak, black, toleranceSet);
        }

        private static <T> T given(@Nullable T value, String option) {
            if (value == null) {
                throw Failure.usage("A target needs " + option + ".");
            }
            return value;
        }

        TargetDraft draft(UUID id, String name, UUID set) {
            return new TargetDraft(
                    id,
                    name,
                    primaries(given(primaries, "--primaries")),
                    Words.one(EotfKind.class, "--eotf", given(eotf, "--eotf")),
                    gamma == null ? null : Words.number("--gamma", gamma),
                    Words.one(SignalRange.class, "--range", given(range, "--range")),
                    given(bits, "--bits"),
                    Words.number("--peak", given(peak, "--peak")),
                    Words.number("--black", given(black, "--black")),
                    set);
        }

        TargetDraft draft(Target old, String name, UUID set) {
            var newEotf = eotf == null ? old.eotf() : Words.one(EotfKind.class, "--eotf", eotf);
            return new TargetDraft(
                    old.id(),
                    name,
                    primaries == null ? old.primaries() : primaries(primaries),
                    newEotf,
                    gamma(old, newEotf),
                    range == null ? old.signalRange() : Words.one(SignalRange.class, "--range", range),
                    Action.or(bits, old.bitDepth()),
                    peak == null ? old.peakLuminance() : Words.number("--peak", peak),
                    black == null ? old.blackLuminance() : Words.number("--black", black),
                    set);
        }

        private @Nullable Double gamma(Target old, EotfKind newEotf) {
            if (gamma != null) {
                return Words.number("--gamma", gamma);
            }
            return newEotf == EotfKind.POWER ? old.gamma() : null;
        }
    }

    // ITU-R BT.709-6 item 1, BT.2020-2 table 3, SMPTE EG 432-1:2010 (P3 primaries with the white of D65)
    static Primaries primaries(String text) {
        return switch (text.toLowerCase(Locale.ROOT)) {
            case "bt709" -> new Primaries(0.640, 0.330, 0.300, 0.600, 0.150, 0.060, 0.3127, 0.3290);
            case "bt2020" -> new Primaries(0.708, 0.292, 0.170, 0.797, 0.131, 0.046, 0.3127, 0.3290);
            case "p3-d65" -> new Primaries(0.680, 0.320, 0.265, 0.690, 0.150, 0.060, 0.3127, 0.3290);
            default -> eight(text);
        };
    }

    private static Primaries eight(String text) {
        var parts = text.split(",", -1);
        if (parts.length != 8) {
            throw Failure.usage("--primaries \"" + text
                    + "\" is none of bt709, bt2020, p3-d65 and not eight numbers Rx,Ry,Gx,Gy,Bx,By,Wx,Wy.");
        }
        var v = Arrays.stream(parts)
                .mapToDouble(p -> Words.number("--primaries", p))
                .toArray();
        return new Primaries(v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7]);
    }

    @Command(
            footer = {
                "  panelbook target add \"HDR 1000\" --primaries p3-d65 --eotf pq --range full --bits 10 \\",
                "    --peak 1000 --black 0.005 --tolerance-set House"
            })
    static final class Add extends Action {
        @Parameters(paramLabel = "NAME", description = "Name; unique.")
        String name = "";

        @Mixin
        Aim aim = new Aim();

        @Override
        int work() {
            var set = names().toleranceSet(Aim.given(aim.toleranceSet, "--tolerance-set"));
            var added = addOnce(
                    idOf("target", name),
                    id -> service().post(Target.class, "/targets", aim.draft(id, name, set.id())),
                    () -> exists(() -> names().target(name)));
            return added(
                    Views.targets(),
                    added,
                    "target " + name,
                    "panelbook preset add NAME --display DISPLAY --target " + Words.quoted(name));
        }
    }

    @Command(footer = {"  panelbook target list", "  panelbook target list --json=name,peakLuminance"})
    static final class ListAll extends ListingOfKept<Target> {
        @Override
        View<Target> view() {
            return Views.targets();
        }

        @Override
        String path() {
            return kept("/targets");
        }

        @Override
        String none() {
            return "There is no target. Next: panelbook target add --help";
        }
    }

    @Command(footer = "  panelbook target show \"HDR 1000\"")
    static final class Show extends Showing<Target> {
        @Parameters(paramLabel = "TARGET", description = TARGET)
        String target = "";

        @Override
        View<Target> view() {
            return Views.targets();
        }

        @Override
        Target thing() {
            return names().target(target);
        }
    }

    @Command(
            footer = "  panelbook target edit \"HDR 1000\" --black 0.003",
            description = {"", "Later runs are judged by the new aims; findings name the version that judged them."})
    static final class Edit extends Action {
        @Parameters(paramLabel = "TARGET", description = TARGET)
        String target = "";

        @Option(names = "--name", paramLabel = "NAME", description = "New name.")
        @Nullable
        String name;

        @Mixin
        Aim aim = new Aim();

        @Override
        int work() {
            requireAny(name, aim.any());
            var old = names().target(target);
            var set = aim.toleranceSet == null
                    ? old.toleranceSetId()
                    : names().toleranceSet(aim.toleranceSet).id();
            var draft = aim.draft(old, or(name, old.name()), set);
            var edited = service().put(Target.class, "/targets/" + old.id(), draft, old.version());
            return changed(
                    Views.targets(),
                    edited,
                    "Changed target " + edited.name() + ", now version " + edited.version(),
                    "");
        }
    }

    @Command(footer = "  panelbook target retire \"HDR 1000\"")
    static final class Retire extends Retiring<Target> {
        @Parameters(paramLabel = "TARGET", description = TARGET)
        String target = "";

        @Override
        View<Target> view() {
            return Views.targets();
        }

        @Override
        String collection() {
            return "/targets";
        }

        @Override
        UUID thingId() {
            return names().target(target).id();
        }

        @Override
        String name() {
            return "target " + target;
        }
    }
}
