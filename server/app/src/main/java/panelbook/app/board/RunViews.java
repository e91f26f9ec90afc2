package panelbook.app.board;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.assessment.FindingBook;
import panelbook.app.assessment.Verified;
import panelbook.app.assessment.Verified.VerifiedPatch;
import panelbook.app.corrections.CorrectionBook;
import panelbook.app.fleet.Directory;
import panelbook.app.instruments.Instruments;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Patch;
import panelbook.wire.Certificate;
import panelbook.wire.Correction;
import panelbook.wire.Finding;
import panelbook.wire.Instrument;
import panelbook.wire.ReadingRef;
import panelbook.wire.Run;

/** Gathers what the page of a run shows: all that its figures rest on. */
@Component
class RunViews {

    /** More would make a page that no browser scrolls well; the contract gives them all. Our choice. */
    private static final int MOST_READINGS = 1_000;

    private final RunBook runs;
    private final PresetFactsBook presets;
    private final MeasuredRuns measured;
    private final Instruments instruments;
    private final CorrectionBook corrections;
    private final FindingBook findings;
    private final Directory directory;
    private final Clock clock;

    RunViews(
            RunBook runs,
            PresetFactsBook presets,
            MeasuredRuns measured,
            Instruments instruments,
            CorrectionBook corrections,
            FindingBook findings,
            Directory directory,
            Clock clock) {
        this.runs = runs;
        this.presets = presets;
        this.measured = measured;
        this.instruments = instruments;
        this.corrections = corrections;
        this.findings = findings;
        this.directory = directory;
        this.clock = clock;
    }

    /**
     * What the page shows.
     *
     * @param zone of the room that the display stands in, else of its facility
     * @param certificates of the instrument, the one that expires last first
     * @param correction that the readings are corrected with; null when they stand as they were taken
     * @param readings in the order taken, at most {@value #MOST_READINGS}
     * @param findings that the run brought, the gravest first
     * @param others runs that these rest on, too
     */
    record RunView(
            Run run,
            PresetFacts preset,
            ZoneId zone,
            Instant at,
            Instrument instrument,
            List<Certificate> certificates,
            @Nullable Correction correction,
            List<ReadingLine> readings,
            List<Finding> findings,
            Map<UUID, Run> others) {

        /** The certificates that held on the day on which the run was taken. */
        public List<Certificate> valid() {
            return certificates.stream()
                    .filter(certificate -> holds(certificate, taken()))
                    .toList();
        }

        /** The others. */
        public List<Certificate> notValid() {
            return certificates.stream()
                    .filter(certificate -> !holds(certificate, taken()))
                    .toList();
        }

        private LocalDate taken() {
            return run.takenAt().atOffset(ZoneOffset.UTC).toLocalDate();
        }

        private static boolean holds(Certificate certificate, LocalDate day) {
            return !certificate.issuedOn().isAfter(day)
                    && !certificate.expiresOn().isBefore(day);
        }

        public int left() {
            return run.readingCount() - readings.size();
        }

        /** The nine numbers of the correction's matrix, row by row. */
        public List<List<Double>> matrix() {
            return correction == null
                    ? List.of()
                    : List.of(
                            correction.matrix().subList(0, 3),
                            correction.matrix().subList(3, 6),
                            correction.matrix().subList(6, 9));
        }

        /** The readings that a finding rests on, each with where it stands. */
        public List<Rest> rests(Finding finding) {
            return finding.readings().stream().map(this::rest).toList();
        }

        private Rest rest(ReadingRef reading) {
            var own = reading.runId().equals(run.id());
            var other = others.get(reading.runId());
            var what = reading.red() == null
                    ? "all readings"
                    : reading.red() + " " + reading.green() + " " + reading.blue();
            return new Rest(
                    what,
                    other == null || own ? null : other.takenAt(),
                    other == null || own || other.presetId().equals(run.presetId()) ? "" : here(other.preset()),
                    (own ? "" : "/board/runs/" + reading.runId())
                            + (reading.red() == null
                                    ? own ? "#readings" : ""
                                    : "#r-" + reading.red() + "-" + reading.green() + "-" + reading.blue()));
        }

        /** A path without the room, where it is the run's own preset. */
        public String here(String path) {
            return path.equals(run.preset()) ? path.substring(path.lastIndexOf('/') + 1) : path;
        }
    }

    /**
     * A reading that a finding rests on.
     *
     * @param at when it was taken; null when it is one of the page's own
     * @param preset empty when it is the page's own
     */
    record Rest(String what, @Nullable Instant at, String preset, String href) {}

    /**
     * A reading beside its aim.
     *
     * @param taken as the meter gave it
     * @param verified as it is read, with what the target asks for
     * @param xy null when it is too dark to have a chromaticity
     * @param uv null likewise
     */
    record ReadingLine(
            Patch patch,
            XYZ taken,
            VerifiedPatch verified,
            @Nullable Chromaticity xy,
            @Nullable UV1976 uv) {

        public XYZ read() {
            return verified.patch().reading().xyz();
        }
    }

    /**
     * A run, withdrawn or not.
     *
     * @throws Refusal when there is no such run
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    RunView of(UUID runId) {
        var run = runs.shown(List.of(runId)).get(runId);
        if (run == null) {
            throw Refusal.notFound("run", runId);
        }
        var preset = presets.find(run.presetId()).orElseThrow();
        var whole = measured.whole(preset, runId);
        var correction = whole.correction() == null
                ? null
                : corrections.find(whole.correction().id()).orElseThrow();
        var found = new MeasuredWords().gravestFirst(findings.ofRun(runId));
        return new RunView(
                run,
                preset,
                zone(preset),
                clock.instant(),
                instruments.get(run.instrumentId()),
                instruments.certificates(run.instrumentId()),
                correction,
                lines(runId, Verified.of(preset.target(), whole)),
                found,
                runs.shown(found.stream()
                        .flatMap(finding -> finding.readings().stream())
                        .map(ReadingRef::runId)
                        .distinct()
                        .toList()));
    }

    private List<ReadingLine> lines(UUID runId, Verified verified) {
        Map<Patch, XYZ> taken = new HashMap<>();
        measured.taken(runId).forEach(reading -> taken.put(reading.patch(), reading.xyz()));
        return verified.patches().stream()
                .limit(MOST_READINGS)
                .map(one -> line(taken, one))
                .toList();
    }

    private static ReadingLine line(Map<Patch, XYZ> taken, VerifiedPatch verified) {
        var read = verified.patch().reading();
        return new ReadingLine(
                read.patch(),
                taken.getOrDefault(read.patch(), read.xyz()),
                verified,
                read.xyz().chromaticity().orElse(null),
                read.xyz().uv1976().orElse(null));
    }

    private ZoneId zone(PresetFacts preset) {
        return ZoneId.of(
                preset.roomId() == null
                        ? directory.facility(preset.facilityId()).timeZone()
                        : directory.room(preset.roomId()).timeZone());
    }
}
