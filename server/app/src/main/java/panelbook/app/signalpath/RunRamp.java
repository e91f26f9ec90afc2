package panelbook.app.signalpath;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.signalpath.DiagnosisText;
import panelbook.colorimetry.signalpath.RampNoise;
import panelbook.colorimetry.signalpath.Ranked;
import panelbook.colorimetry.signalpath.SignalPath;
import panelbook.wire.DiagnosedExplanation;
import panelbook.wire.Diagnosis;

/** The grey ramp of a run. */
record RunRamp(RunMeasured run, Target target, List<Reading> greys, RampNoise noise) {

    /** More levels tell no more of these few curves, and take longer. House rule. */
    private static final int MOST_LEVELS = 33;

    /** The brightest grey of a ramp reads at least so many times the floor. As {@link SignalPath} asks. */
    private static final double LEAST_LIGHT = 10;

    /** Empty when there are too few levels, or next to no light. */
    static Optional<RunRamp> of(PresetFacts preset, RunMeasured run) {
        var target = preset.target();
        var greys = run.readings().greys().stream()
                .filter(grey -> grey.patch().red() >= target.codes().black()
                        && grey.patch().red() <= target.codes().white())
                .sorted(Comparator.comparingInt(grey -> grey.patch().red()))
                .toList();
        var noise = new RampNoise(
                RampNoise.DEFAULT.relative(),
                Math.max(RampNoise.DEFAULT.floor(), run.instrument().luminanceFloor()));
        var lit = greys.stream().anyMatch(grey -> grey.luminance() > LEAST_LIGHT * noise.floor());
        return greys.size() < SignalPath.LEAST_LEVELS || !lit
                ? Optional.empty()
                : Optional.of(new RunRamp(run, target, thinned(greys), noise));
    }

    /** Those nearest to even steps of signal, black and white among them. */
    private static List<Reading> thinned(List<Reading> greys) {
        if (greys.size() <= MOST_LEVELS) {
            return greys;
        }
        var first = greys.get(0).patch().red();
        var last = greys.get(greys.size() - 1).patch().red();
        var chosen = new LinkedHashSet<Reading>();
        for (var step = 0; step < MOST_LEVELS; step++) {
            var wanted = first + (last - first) * step / (MOST_LEVELS - 1.0);
            greys.stream()
                    .min(Comparator.comparingDouble(
                            grey -> Math.abs(grey.patch().red() - wanted)))
                    .ifPresent(chosen::add);
        }
        return new ArrayList<>(chosen);
    }

    Diagnosis quickDiagnosis() {
        return SignalPath.plainlyAsIntended(target, greys, noise)
                .map(this::plain)
                .orElseGet(this::diagnosis);
    }

    private Diagnosis plain(Ranked intended) {
        return new Diagnosis(
                run.id(),
                run.run().takenAt(),
                greys.size(),
                DiagnosisText.word(intended.explanation()),
                null,
                null,
                List.of(),
                false,
                true,
                "nothing",
                "Signal path as intended, so plainly that no fault was weighed.",
                RunMeasured.correctionNames(run),
                List.of(explanation(intended)));
    }

    Diagnosis diagnosis() {
        var found = SignalPath.diagnose(target, greys, noise);
        return new Diagnosis(
                run.id(),
                run.run().takenAt(),
                greys.size(),
                DiagnosisText.word(found.likeliest().explanation()),
                DiagnosisText.word(found.runnerUp().explanation()),
                found.margin(),
                found.notToldApart().stream().map(DiagnosisText::word).toList(),
                found.suspect(),
                found.explained(),
                DiagnosisText.firstCheck(found),
                DiagnosisText.summary(found),
                RunMeasured.correctionNames(run),
                found.ranking().stream().map(RunRamp::explanation).toList());
    }

    private static DiagnosedExplanation explanation(Ranked ranked) {
        return new DiagnosedExplanation(
                DiagnosisText.word(ranked.explanation()),
                100 * ranked.rmsLogResidual(),
                ranked.score(),
                ranked.white(),
                ranked.black());
    }
}
