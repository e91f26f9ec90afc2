package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.cli.json.Records;
import panelbook.wire.Correction;
import panelbook.wire.CorrectionPreview;
import panelbook.wire.Decision;
import panelbook.wire.FindingChange;
import panelbook.wire.Metric;
import panelbook.wire.PatchMoves;
import panelbook.wire.ReReadPreset;
import panelbook.wire.WhiteMove;

/** A correction is shown before it is made, and made only when a person or a script says so. */
class CorrectionCommandTest extends CommandTest {

    private static final String REFERENCE = "4f1c9a52-0000-4000-8000-3d1f5a2b7c10";
    private static final String FIELD = "7d7f2b0c-0000-4000-8000-55aa10f0c3e1";
    private static final String NAME = "Meter 1 on M-31 (model), version 1";

    @BeforeEach
    void theServicesAnswers() {
        stub.previewOfCorrections = Records.deepTree(preview());
        stub.madeCorrection = Records.deepTree(correction());
    }

    private static String[] make(String... more) {
        var words = new ArrayList<>(List.of(
                "instrument",
                "correction",
                "make",
                "Meter 1",
                "--reference",
                REFERENCE,
                "--field",
                FIELD,
                "--model",
                "M-31"));
        words.addAll(List.of(more));
        return words.toArray(String[]::new);
    }

    private long made() {
        return stub.seen.stream()
                .filter(seen -> seen.method().equals("POST") && seen.path().endsWith("/corrections"))
                .count();
    }

    @Test
    void aDryRunShowsWhatItWouldChangeAndMakesNothing() {
        done(make("--dry-run"));
        assertThat(desk.lines())
                .containsExactly(
                        "correction\t" + NAME + "\tuntil now as taken",
                        "field run\t\tΔE ITP mean 3.10, largest 8.20 at 1023/0/0, largest Δu′v′ 0.0210; white from 98.2 to 100.1 cd/m² (+1.9 %), Δu′v′ 0.0123",
                        "off the reference\tnow\tΔE ITP mean 3.10, largest 8.20 at 1023/0/0, largest Δu′v′ 0.0210",
                        "off the reference\tthen\tΔE ITP mean 0.10, largest 0.20 at 0/0/1023, largest Δu′v′ 0.0002",
                        "latest run\tNorth/Suite 1/Main/HDR\twhite from 98.2 to 100.1 cd/m² (+1.9 %), Δu′v′ 0.0123",
                        "finding\tNorth/Suite 1/Main/HDR\twhite-chromaticity-error: beyond (0.0123 u′v′) becomes within (0.0001 u′v′)");
        assertThat(made()).isZero();
    }

    @Test
    void aPipeWithoutYesOnlyShowsAndSaysWhatToAdd() {
        fails(2, "Nothing was changed. To make it, add --yes", make());
        assertThat(desk.out).contains("becomes within");
        assertThat(made()).isZero();
        done(make("--yes"));
        assertThat(desk.err).startsWith("Made " + NAME);
        assertThat(made()).isEqualTo(1);
    }

    @Test
    void aPersonIsAskedAndNoMakesNothing() {
        desk.terminal = true;
        desk.typing = true;
        for (var no : List.of("n\n", "\n", "")) {
            desk.typed = no;
            assertThat(desk.type(make())).isEqualTo(1);
            assertThat(desk.err).contains("Make it? y or n: ", "Nothing was changed.");
        }
        assertThat(made()).isZero();
        desk.typed = "y\n";
        done(make());
        assertThat(desk.out).contains("becomes within");
        assertThat(made()).isEqualTo(1);
    }

    @Test
    void theSameCommandAgainIsTheSameCorrection() {
        done(make("--yes"));
        done(make("--yes"));
        var ids = stub.seen.stream()
                .filter(seen -> seen.method().equals("POST") && seen.path().endsWith("/corrections"))
                .map(seen -> ((java.util.Map<?, ?>) seen.body()).get("id"))
                .toList();
        assertThat(ids).hasSize(2);
        assertThat(ids.get(0)).isEqualTo(ids.get(1));
    }

    @Test
    void whatItIsForMustBeSaidOnce() {
        fails(2, "either --display or --model", make("--display", "Suite 1/Main"));
        fails(
                2,
                "either --display or --model",
                "instrument",
                "correction",
                "make",
                "Meter 1",
                "--reference",
                REFERENCE,
                "--field",
                FIELD);
        fails(
                2,
                "not the id of a run",
                "instrument",
                "correction",
                "make",
                "Meter 1",
                "--reference",
                "7",
                "--field",
                FIELD,
                "--model",
                "M");
    }

    private static CorrectionPreview preview() {
        var white = new WhiteMove(98.2, 0.2, 0.46, 100.1, 0.1978, 0.4683, 1.9, 0.0123);
        var before = new PatchMoves(9, 3.1, 8.2, "1023/0/0", 0.021);
        return new CorrectionPreview(
                correction(),
                null,
                NAME,
                before,
                white,
                before,
                new PatchMoves(9, 0.1, 0.2, "0/0/1023", 2e-4),
                List.of(new ReReadPreset(
                        UUID.randomUUID(),
                        "North/Suite 1/Main/HDR",
                        white,
                        null,
                        List.of(new FindingChange(
                                Metric.WHITE_CHROMATICITY_ERROR,
                                "u′v′",
                                Decision.BEYOND,
                                0.0123,
                                Decision.WITHIN,
                                1e-4)))));
    }

    private static Correction correction() {
        return new Correction(
                UUID.randomUUID(),
                NAME,
                UUID.randomUUID(),
                "Meter 1",
                null,
                null,
                "M-31",
                1,
                UUID.fromString(REFERENCE),
                "Reference",
                UUID.fromString(FIELD),
                false,
                List.of(1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0),
                1.02,
                null,
                null,
                true,
                null,
                Instant.parse("2026-03-31T10:00:00Z"),
                "Mara",
                null);
    }
}
