package panelbook.app.matching;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signalpath.Diagnosis;
import panelbook.colorimetry.signalpath.Explanation;
import panelbook.colorimetry.signalpath.FirstCheck;
import panelbook.colorimetry.signalpath.SignalPath;

/** Judges signal paths by the latest ramps there are. */
@Component
class SignalPaths {

    private static final int LEAST_LEVELS = 5;

    private final JdbcClient jdbc;
    private final MeasuredRuns runs;

    SignalPaths(JdbcClient jdbc, MeasuredRuns runs) {
        this.jdbc = jdbc;
        this.runs = runs;
    }

    /** The signal path of a preset by its latest ramp; empty when it has no run with five greys and more that tell of it. */
    Optional<PathFinding> of(PresetFacts preset) {
        return latestRamp(preset).flatMap(id -> finding(preset, runs.whole(preset, id)));
    }

    private Optional<UUID> latestRamp(PresetFacts preset) {
        return jdbc.sql("""
                        select r.id from counted_run r
                        where r.preset_id = :preset
                          and (select count(*) from reading g where g.run_id = r.id and g.red = g.green and g.green = g.blue
                                 and g.red between :black and :white) >= :levels
                        order by r.taken_at desc, r.received_at desc limit 1
                        """)
                .param("preset", preset.presetId())
                .param("black", preset.target().codes().black())
                .param("white", preset.target().codes().white())
                .param("levels", LEAST_LEVELS)
                .query(UUID.class)
                .optional();
    }

    private static Optional<PathFinding> finding(PresetFacts preset, RunMeasured run) {
        List<Reading> greys = run.readings().greys();
        try {
            var diagnosis = SignalPath.diagnose(preset.target(), greys);
            return Optional.of(new PathFinding(run.run().takenAt(), diagnosis.suspect(), words(diagnosis)));
        } catch (IllegalArgumentException noLight) {
            return Optional.empty();
        }
    }

    private static String words(Diagnosis diagnosis) {
        var likeliest = diagnosis.likeliest().explanation();
        if (!diagnosis.explained()) {
            return "is explained by nothing known; closest comes: " + words(likeliest) + ". "
                    + firstCheck(likeliest.firstCheck());
        }
        return "looks like this: " + words(likeliest) + ". " + firstCheck(likeliest.firstCheck());
    }

    private static String words(Explanation explanation) {
        return switch (explanation.kind()) {
            case AS_INTENDED -> "as intended";
            case FULL_SQUEEZED_TO_NARROW -> "a full range signal squeezed to narrow";
            case NARROW_EXPANDED_AS_FULL -> "a narrow range signal expanded as full";
            case WRONG_EOTF ->
                "the wrong EOTF, "
                        + explanation
                                .eotf()
                                .map(eotf ->
                                        eotf.name().toLowerCase(Locale.ROOT).replace('_', ' '))
                                .orElse("unknown");
            case PEAK_LIMITED -> "a limited peak";
        };
    }

    private static String firstCheck(FirstCheck check) {
        return switch (check) {
            case NOTHING -> "";
            case OUTPUT_RANGE_OF_SOURCE -> "Check first the range that the source puts out.";
            case CONVERTER_OR_INPUT_RANGE_OF_DISPLAY ->
                "Check first for a converter in the feed, and the input range of the display.";
            case EOTF_OF_PRESET -> "Check first which preset is on, its EOTF, and signalling that switches it.";
            case LUMINANCE_LIMITER_OF_PRESET ->
                "Check first for a luminance limiter, power saving or tone mapping in the preset.";
        };
    }
}
