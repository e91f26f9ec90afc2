package panelbook.app.board;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.assessment.FindingBook;
import panelbook.app.assessment.FindingBook.Standing;
import panelbook.app.drawing.Drawings;
import panelbook.app.fleet.Directory;
import panelbook.app.fleet.DisplayContents;
import panelbook.app.pictures.DrawingTable;
import panelbook.app.pictures.Pictures;
import panelbook.app.rest.Refusal;
import panelbook.wire.Decision;
import panelbook.wire.Display;
import panelbook.wire.Drawing;
import panelbook.wire.Finding;
import panelbook.wire.PanelHoursQuestion;
import panelbook.wire.Paper;
import panelbook.wire.Preset;
import panelbook.wire.Quirk;

/** Gathers what the page of a display shows. */
@Component
class DisplayViews {

    private final DisplayContents contents;
    private final Directory directory;
    private final FindingBook findings;
    private final Pictures pictures;
    private final Clock clock;

    DisplayViews(DisplayContents contents, Directory directory, FindingBook findings, Pictures pictures, Clock clock) {
        this.contents = contents;
        this.directory = directory;
        this.findings = findings;
        this.pictures = pictures;
        this.clock = clock;
    }

    /**
     * What the page shows.
     *
     * @param zone of the room that it stands in, else of its facility
     * @param shown the preset whose figures are shown; null when the display has none in use
     */
    record DisplayView(
            Display display,
            ZoneId zone,
            Instant at,
            List<Quirk> quirks,
            List<PanelHoursQuestion> questions,
            List<PresetState> presets,
            @Nullable PresetState shown,
            List<Picture> pictures) {

        public List<Quirk> openQuirks() {
            return quirks.stream().filter(quirk -> quirk.settlement() == null).toList();
        }

        public List<Quirk> settledQuirks() {
            return quirks.stream().filter(quirk -> quirk.settlement() != null).toList();
        }

        /** A path without what the page is about. */
        public String here(String path) {
            return path.substring(path.lastIndexOf('/') + 1);
        }
    }

    /** A preset with its findings, the gravest first; those set aside apart. */
    record PresetState(Preset preset, List<Finding> findings, List<Finding> setAside) {

        public List<Finding> notWithin() {
            return findings.stream()
                    .filter(finding -> finding.decision() != Decision.WITHIN)
                    .toList();
        }

        public List<Finding> within() {
            return findings.stream()
                    .filter(finding -> finding.decision() == Decision.WITHIN)
                    .toList();
        }

        /** The gravest decision; null when nothing was judged. */
        public @Nullable Decision gravest() {
            return findings.isEmpty() ? null : findings.get(0).decision();
        }

        /** How many figures stand how. */
        public String inWords() {
            if (findings.isEmpty()) {
                return "No figure of it was judged yet.";
            }
            var beyond = count(Decision.BEYOND);
            var undecided = count(Decision.UNDECIDED);
            return (beyond == 0 ? "No figure is" : beyond == 1 ? "1 figure is" : beyond + " figures are")
                    + " beyond the limit, " + undecided + (undecided == 1 ? " is" : " are") + " undecided, "
                    + count(Decision.WITHIN) + " within.";
        }

        private long count(Decision decision) {
            return findings.stream()
                    .filter(finding -> finding.decision() == decision)
                    .count();
        }
    }

    /** A chart with the same as a table. */
    record Picture(Drawing drawing, String svg, DrawingTable table) {}

    /**
     * A display as it stands, or as it stood where the book is asked as of a moment.
     *
     * @param presetId whose figures are wanted; null for the first
     * @throws Refusal when there is no such display, or it has no such preset in use
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    DisplayView of(UUID displayId, @Nullable UUID presetId) {
        var display = contents.display(displayId);
        var presets = contents.presets(displayId).stream().map(this::state).toList();
        var shown = presetId == null
                ? presets.stream().findFirst().orElse(null)
                : presets.stream()
                        .filter(state -> state.preset().id().equals(presetId))
                        .findFirst()
                        .orElseThrow(() -> Refusal.notFound("preset in use on this display", presetId));
        return new DisplayView(
                display,
                zone(display),
                clock.instant(),
                contents.quirks(displayId),
                contents.openQuestions(displayId),
                presets,
                shown,
                shown == null
                        ? List.of()
                        : pictures.of(shown.preset().id()).stream()
                                .map(drawing -> new Picture(
                                        drawing, Drawings.svg(drawing, Paper.DARK), DrawingTable.of(drawing)))
                                .toList());
    }

    private PresetState state(Preset preset) {
        var standing = findings.standingOf(List.of(preset.id()));
        return new PresetState(preset, gravestFirst(standing, false), gravestFirst(standing, true));
    }

    private static List<Finding> gravestFirst(List<Standing> standing, boolean setAside) {
        return new MeasuredWords()
                .gravestFirst(standing.stream()
                        .filter(one -> one.setAside() == setAside)
                        .map(Standing::finding)
                        .toList());
    }

    private ZoneId zone(Display display) {
        return ZoneId.of(
                display.roomId() == null
                        ? directory.facility(display.facilityId()).timeZone()
                        : directory.room(display.roomId()).timeZone());
    }
}
