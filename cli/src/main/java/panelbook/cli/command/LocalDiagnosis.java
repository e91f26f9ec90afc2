package panelbook.cli.command;

import java.util.List;
import java.util.stream.Collectors;
import panelbook.cli.terminal.Failure;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.signalpath.Diagnosis;
import panelbook.colorimetry.signalpath.DiagnosisText;
import panelbook.colorimetry.signalpath.Ranked;
import panelbook.colorimetry.signalpath.SignalPath;
import panelbook.wire.DiagnosedExplanation;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Target;

/** The diagnosis of a grey ramp that the service does not have. Loaded only when one is asked for. */
final class LocalDiagnosis {

    private LocalDiagnosis() {}

    static RunDiagnosing.Diagnosed of(String file, Target target, List<ReadingEntry> entries) {
        var aim = LocalCheck.target(target);
        var greys = Readings.of(aim.codes(), LocalCheck.readings(entries)).greys();
        try {
            return diagnosed(file, SignalPath.diagnose(aim, greys));
        } catch (IllegalArgumentException e) {
            throw Failure.failed(file + ": " + e.getMessage() + ".", e);
        }
    }

    private static RunDiagnosing.Diagnosed diagnosed(String file, Diagnosis found) {
        return new RunDiagnosing.Diagnosed(
                file,
                DiagnosisText.summary(found),
                DiagnosisText.word(found.likeliest().explanation()),
                DiagnosisText.word(found.runnerUp().explanation()),
                found.margin(),
                found.notToldApart().stream().map(DiagnosisText::word).collect(Collectors.toList()),
                found.suspect(),
                DiagnosisText.firstCheck(found),
                found.levels().size(),
                List.of(),
                found.ranking().stream().map(LocalDiagnosis::explanation).collect(Collectors.toList()));
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
