package panelbook.app.instruments;

import java.time.LocalDate;
import panelbook.app.rest.Checks;
import panelbook.wire.InstrumentDraft;

/** Whether the figures of a meter and of its certificates can be right. */
final class InstrumentChecks {

    private InstrumentChecks() {}

    /** Notes what is wrong with {@code draft}, which {@code at} points to. */
    static Checks of(Checks checks, String at, InstrumentDraft draft) {
        checks.name(at + "/name", draft.name()).optionalLine(at + "/serialNumber", draft.serialNumber(), 200);
        below(checks, at + "/luminanceUncertaintyPercent", draft.luminanceUncertaintyPercent(), 100, "per cent");
        below(checks, at + "/luminanceRepeatabilityPercent", draft.luminanceRepeatabilityPercent(), 100, "per cent");
        below(checks, at + "/chromaticityUncertainty", draft.chromaticityUncertainty(), 1, "in u'v'");
        below(checks, at + "/chromaticityRepeatability", draft.chromaticityRepeatability(), 1, "in u'v'");
        below(checks, at + "/luminanceFloor", draft.luminanceFloor(), 100, "cd/m2");
        return checks;
    }

    /** Notes what is wrong with a certificate, which {@code at} points to. */
    static Checks certificate(Checks checks, String at, String number, LocalDate issuedOn, LocalDate expiresOn) {
        return checks.line(at + "/number", number, 200)
                .that(
                        !expiresOn.isBefore(issuedOn),
                        at + "/expiresOn",
                        "Must not be before the day of issue, " + issuedOn + ".")
                .that(
                        issuedOn.getYear() >= 1970 && expiresOn.getYear() < 10_000,
                        at + "/issuedOn",
                        "Must be a date of this age.");
    }

    private static void below(Checks checks, String at, double value, double mostExclusive, String unit) {
        checks.that(
                value >= 0 && value < mostExclusive,
                at,
                "Must be at least 0 and less than " + (int) mostExclusive + " " + unit + ", but is " + value + ".");
    }
}
