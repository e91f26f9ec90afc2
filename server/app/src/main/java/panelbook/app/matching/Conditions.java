package panelbook.app.matching;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.instruments.InstrumentFactsBook;
import panelbook.app.rest.Days;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.PresetFacts;
import panelbook.app.signalpath.Diagnoses;
import panelbook.wire.Condition;
import panelbook.wire.Diagnosis;
import panelbook.wire.Holds;
import panelbook.wire.OpeningDraft;
import panelbook.wire.Requirement;

/** Looks whether what must be true before a match is true. Nothing of it keeps a match from being opened. */
@Component
class Conditions {

    private final CalibratedBook calibrated;
    private final Diagnoses diagnoses;
    private final Contrasts contrasts;
    private final InstrumentFactsBook instruments;
    private final JdbcClient jdbc;

    Conditions(
            CalibratedBook calibrated,
            Diagnoses diagnoses,
            Contrasts contrasts,
            InstrumentFactsBook instruments,
            JdbcClient jdbc) {
        this.calibrated = calibrated;
        this.diagnoses = diagnoses;
        this.contrasts = contrasts;
        this.instruments = instruments;
        this.jdbc = jdbc;
    }

    /**
     * The conditions of a match that is about to be opened.
     *
     * @param at when
     * @throws Refusal when there is no such instrument
     */
    List<Condition> of(OpeningDraft draft, Pair pair, Instant at) {
        var all = new ArrayList<Condition>();
        all.add(baseline(Requirement.FOLLOWER_BASELINE, pair.follower(), at));
        all.add(baseline(Requirement.HERO_BASELINE, pair.hero(), at));
        all.add(sameTarget(pair));
        all.add(signalPath(Requirement.FOLLOWER_SIGNAL_PATH, pair.follower()));
        all.add(signalPath(Requirement.HERO_SIGNAL_PATH, pair.hero()));
        all.add(contrasts.compared(pair));
        all.add(warmUp(Requirement.FOLLOWER_WARM_UP, pair.follower(), draft.followerMinutesSincePowerOn(), at));
        all.add(warmUp(Requirement.HERO_WARM_UP, pair.hero(), draft.heroMinutesSincePowerOn(), at));
        all.add(meter(draft.instrumentId(), at));
        all.add(viewingLight(draft.lightsAtViewingLevel()));
        return all;
    }

    /** Whether something points to a fault of a signal path. */
    static boolean suspectPath(List<Condition> conditions) {
        return conditions.stream()
                .anyMatch(condition -> condition.holds() == Holds.NO
                        && switch (condition.requirement()) {
                            case FOLLOWER_SIGNAL_PATH, HERO_SIGNAL_PATH, CONTRAST -> true;
                            default -> false;
                        });
    }

    private Condition baseline(Requirement requirement, PresetFacts preset, Instant at) {
        var found = calibrated.of(preset);
        if (found.isEmpty()) {
            return new Condition(
                    requirement,
                    Holds.NO,
                    preset.path() + " has no baseline: calibrate it to its target and upload the as-left run first.");
        }
        var baseline = found.get();
        var lasting = calibrated.lasting(preset);
        var days = Math.max(0, Duration.between(baseline.since(), at).toDays());
        var hours = hours(baseline);
        var age = "calibrated " + days + (days == 1 ? " day" : " days")
                + (hours == null ? "" : " and " + Math.round(hours) + " panel hours") + " ago";
        var stale = exceeds((double) days, lasting.days()) || exceeds(hours, lasting.panelHours());
        return stale
                ? new Condition(
                        requirement,
                        Holds.NO,
                        preset.path() + " was " + age + "; " + allowed(lasting)
                                + ": calibrate it anew before it is matched.")
                : new Condition(requirement, Holds.YES, preset.path() + " was " + age + ".");
    }

    /** Null when a counter was not read, or was reset since. */
    private static @Nullable Double hours(CalibratedBook.Calibrated baseline) {
        var then = baseline.hoursThen();
        var now = baseline.hoursNow();
        return then == null || now == null || now < then ? null : (Double) (now - then);
    }

    private static boolean exceeds(@Nullable Double age, @Nullable Integer limit) {
        return age != null && limit != null && age > limit;
    }

    private static String allowed(CalibratedBook.Lasting lasting) {
        var allowed = new ArrayList<String>();
        if (lasting.days() != null) {
            allowed.add(lasting.days() + " days");
        }
        if (lasting.panelHours() != null) {
            allowed.add(lasting.panelHours() + " panel hours");
        }
        return String.join(" and ", allowed) + " are allowed";
    }

    private static Condition sameTarget(Pair pair) {
        var same = pair.follower().targetId().equals(pair.hero().targetId());
        return same
                ? new Condition(
                        Requirement.SAME_TARGET,
                        Holds.YES,
                        "Both aim at one target, " + pair.hero().target().codes() + ".")
                : new Condition(
                        Requirement.SAME_TARGET,
                        Holds.NO,
                        pair.follower().path() + " aims at "
                                + pair.follower().target().codes() + " and "
                                + pair.hero().path() + " at "
                                + pair.hero().target().codes()
                                + ", by different targets: match presets of one target.");
    }

    private Condition signalPath(Requirement requirement, PresetFacts preset) {
        return diagnoses
                .latestOf(preset)
                .map(diagnosis -> new Condition(
                        requirement, diagnosis.suspect() ? Holds.NO : Holds.YES, words(preset, diagnosis)))
                .orElseGet(() -> new Condition(
                        requirement,
                        Holds.UNKNOWN,
                        "There is no ramp of " + preset.path() + ": measure five greys or more from black to white."));
    }

    private static String words(PresetFacts preset, Diagnosis diagnosis) {
        var readWith =
                diagnosis.corrections().isEmpty() ? "" : ", read with " + String.join(" and ", diagnosis.corrections());
        return "The ramp of " + preset.path() + " of " + Days.of(diagnosis.takenAt()) + readWith + ": "
                + diagnosis.summary();
    }

    private Condition warmUp(Requirement requirement, PresetFacts preset, @Nullable Integer minutes, Instant at) {
        var asked = preset.warmUpMinutes();
        if (minutes != null) {
            return minutes >= asked
                    ? new Condition(requirement, Holds.YES, preset.path() + " has been on for " + minutes + " minutes.")
                    : new Condition(
                            requirement,
                            Holds.NO,
                            preset.path() + " has been on for " + minutes + " minutes: wait " + (asked - minutes)
                                    + " more.");
        }
        var warmedUp = warmedUpOn(preset, Days.of(at));
        if (warmedUp == null) {
            return new Condition(
                    requirement,
                    Holds.UNKNOWN,
                    "Nobody said how long " + preset.path() + " has been on: it takes " + asked + " minutes.");
        }
        return warmedUp
                ? new Condition(requirement, Holds.YES, preset.path() + " had warmed up for its last run of the day.")
                : new Condition(
                        requirement,
                        Holds.NO,
                        preset.path() + " had not warmed up for its last run of the day: it takes " + asked
                                + " minutes.");
    }

    /** Whether the last run of a day, UTC, that says so was taken on a warm display. */
    private @Nullable Boolean warmedUpOn(PresetFacts preset, LocalDate day) {
        return jdbc.sql("""
                        select warmed_up from counted_run
                        where preset_id = :preset and warmed_up is not null and taken_at >= :from and taken_at < :to
                        order by taken_at desc, received_at desc limit 1
                        """)
                .param("preset", preset.presetId())
                .param("from", Rows.at(day.atStartOfDay(ZoneOffset.UTC).toInstant()))
                .param(
                        "to",
                        Rows.at(day.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant()))
                .query(Boolean.class)
                .optional()
                .orElse(null);
    }

    private Condition meter(@Nullable UUID instrumentId, Instant at) {
        if (instrumentId == null) {
            return new Condition(
                    Requirement.METER,
                    Holds.UNKNOWN,
                    "No meter was named: without closing runs the match stays unmeasured.");
        }
        var meter = instruments.findAll(List.of(instrumentId)).get(instrumentId);
        if (meter == null) {
            throw Refusal.invalid("/instrumentId", "there is no instrument " + instrumentId);
        }
        return certificate(meter, Days.of(at));
    }

    private static Condition certificate(InstrumentFacts meter, LocalDate day) {
        var until = meter.certifiedUntil(day);
        if (until.isEmpty()) {
            return new Condition(
                    Requirement.METER,
                    Holds.NO,
                    "There is no certificate of " + meter.name() + " on file: enter it, or take a meter that has one.");
        }
        return until.get().isBefore(day)
                ? new Condition(
                        Requirement.METER,
                        Holds.NO,
                        "The certificate of " + meter.name() + " expired on " + until.get() + ": take another meter.")
                : new Condition(
                        Requirement.METER,
                        Holds.YES,
                        "The certificate of " + meter.name() + " holds until " + until.get() + ".");
    }

    private static Condition viewingLight(@Nullable Boolean atLevel) {
        if (atLevel == null) {
            return new Condition(
                    Requirement.VIEWING_LIGHT,
                    Holds.UNKNOWN,
                    "Nobody said how the room is lit: set the lights to the level that the operator works at.");
        }
        return atLevel
                ? new Condition(Requirement.VIEWING_LIGHT, Holds.YES, "The lights are at viewing level.")
                : new Condition(
                        Requirement.VIEWING_LIGHT,
                        Holds.NO,
                        "The lights are not at viewing level: set them to the level that the operator works at.");
    }
}
