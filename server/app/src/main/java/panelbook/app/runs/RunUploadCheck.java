package panelbook.app.runs;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.app.rest.Refusal;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Target;
import panelbook.wire.FieldProblem;
import panelbook.wire.ReadingEntry;
import panelbook.wire.RunUpload;

/** What an upload must hold. Every fault is listed with its place, up to a bound. */
final class RunUploadCheck {

    /** More than a cube of 64 steps a side. */
    static final int MOST_READINGS = 300_000;

    private static final int MOST_PROBLEMS = 100;
    private static final Duration CLOCK_SKEW = Duration.ofMinutes(10);

    /** A clock that has lost its battery starts in 1970 or 1980: a run of then would be taken for an old one for ever. */
    private static final Instant LONG_PAST = Instant.parse("1990-01-01T00:00:00Z");

    private RunUploadCheck() {}

    /** Refuses what is wrong in any run, whatever the preset. */
    static void form(RunUpload upload, Instant now) {
        if (upload.readings().size() > MOST_READINGS) {
            throw Refusal.of(
                    Refusal.Kind.TOO_LARGE,
                    "A run holds at most " + MOST_READINGS + " readings, this one has "
                            + upload.readings().size() + ": split it.");
        }
        var problems = new ArrayList<FieldProblem>();
        text(problems, "/operator", upload.operator(), 1, 200);
        text(problems, "/fileName", upload.fileName(), 0, 1000);
        text(problems, "/remarks", upload.remarks(), 0, 10_000);
        text(problems, "/baselineReason", upload.baselineReason(), 1, 10_000);
        if (upload.takenAt().isAfter(now.plus(CLOCK_SKEW))) {
            problems.add(new FieldProblem(
                    "/takenAt", upload.takenAt() + " is in the future: check the clock and the time zone"));
        }
        if (upload.takenAt().isBefore(LONG_PAST)) {
            problems.add(new FieldProblem(
                    "/takenAt", upload.takenAt() + " lies too far in the past: check the clock of whatever measured"));
        }
        amount(problems, "/panelHours", upload.panelHours());
        amount(problems, "/ambientIlluminanceLux", upload.ambientIlluminanceLux());
        if (upload.minutesSincePowerOn() != null && upload.minutesSincePowerOn() < 0) {
            problems.add(new FieldProblem("/minutesSincePowerOn", "is negative"));
        }
        if (upload.readings().isEmpty()) {
            problems.add(new FieldProblem("/readings", "is empty: a run has at least one reading"));
        }
        readings(problems, upload.readings());
        refuse(problems);
    }

    /** Refuses code values that the target's signal does not have. */
    static void codes(RunUpload upload, Target target) {
        var problems = new ArrayList<FieldProblem>();
        for (var i = 0; i < upload.readings().size() && problems.size() < MOST_PROBLEMS; i++) {
            var r = upload.readings().get(i);
            code(problems, i, "red", r.red(), target.codes());
            code(problems, i, "green", r.green(), target.codes());
            code(problems, i, "blue", r.blue(), target.codes());
        }
        refuse(problems);
    }

    private static void code(List<FieldProblem> problems, int i, String channel, int value, CodeValues codes) {
        if (value < codes.least() || value > codes.greatest()) {
            problems.add(new FieldProblem(
                    "/readings/" + i + "/" + channel,
                    "code value " + value + " is outside " + codes.least() + " to " + codes.greatest()
                            + ", the codes of the target: " + codes));
        }
    }

    private static void readings(List<FieldProblem> problems, List<ReadingEntry> readings) {
        var seen = new HashMap<Long, Integer>(readings.size() * 2);
        for (var i = 0; i < readings.size() && problems.size() < MOST_PROBLEMS; i++) {
            var r = readings.get(i);
            tristimulus(problems, i, "x", r.x());
            tristimulus(problems, i, "y", r.y());
            tristimulus(problems, i, "z", r.z());
            var earlier = seen.putIfAbsent(((long) r.red() << 40) ^ ((long) r.green() << 20) ^ r.blue(), i);
            if (earlier != null) {
                problems.add(new FieldProblem(
                        "/readings/" + i,
                        "patch " + r.red() + " " + r.green() + " " + r.blue() + " stands at /readings/" + earlier
                                + " already: a run holds each patch once"));
            }
        }
    }

    private static void tristimulus(List<FieldProblem> problems, int i, String component, double value) {
        if (!(value >= 0) || Double.isInfinite(value)) {
            problems.add(new FieldProblem(
                    "/readings/" + i + "/" + component,
                    value + " is not a tristimulus value: cd/m², 0 or more, finite"));
        }
    }

    private static void amount(List<FieldProblem> problems, String pointer, @Nullable Double value) {
        if (value != null && (!(value >= 0) || Double.isInfinite(value))) {
            problems.add(new FieldProblem(pointer, value + " is not an amount: 0 or more, finite"));
        }
    }

    private static void text(List<FieldProblem> problems, String pointer, @Nullable String value, int least, int most) {
        if (value != null && (value.strip().length() < least || value.length() > most || value.indexOf('\0') >= 0)) {
            problems.add(new FieldProblem(pointer, "takes " + least + " to " + most + " characters"));
        }
    }

    private static void refuse(List<FieldProblem> problems) {
        if (!problems.isEmpty()) {
            throw Refusal.invalid(problems);
        }
    }
}
