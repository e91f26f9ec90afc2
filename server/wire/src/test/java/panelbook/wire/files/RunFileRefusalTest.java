package panelbook.wire.files;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.wire.files.RunFiles.HEADER;
import static panelbook.wire.files.RunFiles.iso;
import static panelbook.wire.files.RunFiles.isoHead;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class RunFileRefusalTest {

    /** A bad file and what its reader must be told: the place, and what to do about it. */
    record Bad(String what, byte[] file, RunFileReason reason, String place, List<String> words, boolean alone) {
        @Override
        public String toString() {
            return what;
        }

        /** Other problems may stand beside this one. */
        Bad amongOthers() {
            return new Bad(what, file, reason, place, words, false);
        }
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("badFiles")
    void refusesABadFileWithThePlaceAndWhatToDo(Bad bad) {
        ReadOptions options = ReadOptions.defaults().withMaxReadings(5).withMaxBytes(1 << 20);
        RunFileResult result = RunFiles.read(bad.file, options);

        assertThat(result).as("a file with %s is refused", bad.what).isInstanceOf(RunFileResult.Refused.class);
        List<RunFileProblem> problems = ((RunFileResult.Refused) result).problems();
        List<RunFileProblem> found =
                problems.stream().filter(p -> p.reason() == bad.reason).toList();
        assertThat(found).as("problems: %s", problems).isNotEmpty();
        assertThat(found.get(0).text())
                .startsWith("run.file" + bad.place + ": ")
                .contains(bad.words)
                .doesNotContain("\n");
        if (bad.alone) {
            assertThat(problems).as("one flaw makes one problem").hasSize(1);
        }
    }

    @Test
    void hasATestForEveryReason() {
        Set<RunFileReason> shown = EnumSet.noneOf(RunFileReason.class);
        badFiles().forEach(bad -> shown.add(bad.reason));
        assertThat(shown).containsExactlyInAnyOrder(RunFileReason.values());
    }

    @Test
    void namesEverythingThatIsWrongAndNotTheFirstThingOnly() {
        RunFileResult.Refused refused = (RunFileResult.Refused) RunFiles.read("# preset: Room 4\n# panel-hours: -1\n"
                + HEADER + "0,0,0,1,1,1\n0.5,0,0,1,nan,-1\n0,0,0,2,2,2\n1,1,1,\"1,5\",1\n");
        assertThat(refused.problems())
                .extracting(RunFileProblem::line, RunFileProblem::reason)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(2L, RunFileReason.METADATA_MALFORMED),
                        org.assertj.core.groups.Tuple.tuple(5L, RunFileReason.CODE_NOT_WHOLE),
                        org.assertj.core.groups.Tuple.tuple(5L, RunFileReason.TRISTIMULUS_NOT_FINITE),
                        org.assertj.core.groups.Tuple.tuple(5L, RunFileReason.TRISTIMULUS_NEGATIVE),
                        org.assertj.core.groups.Tuple.tuple(6L, RunFileReason.PATCH_REPEATED),
                        org.assertj.core.groups.Tuple.tuple(7L, RunFileReason.FIELD_COUNT));
    }

    static Stream<Bad> badFiles() {
        List<Bad> all = new ArrayList<>();
        all.addAll(filesThatAreNoText());
        all.addAll(badHeaders());
        all.addAll(badRows());
        all.addAll(badMetadata());
        all.addAll(cutFiles());
        all.addAll(badIsoFiles());
        return all.stream();
    }

    private static List<Bad> filesThatAreNoText() {
        byte[] latin1 = ("# operator: Ren\u00E9\n" + HEADER + "1,2,3,4,5,6\n").getBytes(StandardCharsets.ISO_8859_1);
        return List.of(
                bad("nothing in it", "", RunFileReason.EMPTY_FILE, "", "is empty", "Export the run again"),
                bad("blank lines only", "\n \r\n\n", RunFileReason.EMPTY_FILE, "", "is empty"),
                bad("a NUL byte", HEADER + "1,2,\0", RunFileReason.NOT_TEXT, ", line 2", "NUL", "UTF-8"),
                bad("a picture's bytes", "\u0001\u0002GIF", RunFileReason.NOT_TEXT, ", line 1", "0x01", "plain text"),
                bad("UTF-16", utf16("red,green"), RunFileReason.NOT_TEXT, ", line 1", "UTF-16", "UTF-8"),
                bad("Latin 1 letters", latin1, RunFileReason.NOT_UTF8, ", line 1", "0xE9", "byte 16", "as UTF-8"),
                bad(
                        "a giant line",
                        HEADER + "1".repeat(9000),
                        RunFileReason.LINE_TOO_LONG,
                        ", line 2",
                        "8192 bytes",
                        "line ends"),
                bad(
                        "more bytes than a run can have",
                        HEADER + "# filler\n".repeat(200_000),
                        RunFileReason.FILE_TOO_LARGE,
                        ", line 116506",
                        "larger than 1 MiB",
                        "split it"),
                bad("XML", "<?xml version='1.0'?>", RunFileReason.FORMAT_UNKNOWN, ", line 1", "text form of ISO 28178"),
                bad("prose", "Dear colleague", RunFileReason.FORMAT_UNKNOWN, ", line 1", "red,green,blue", "ISO28178"),
                bad(
                        "ISO 28178 without its first line",
                        "ORIGINATOR \"Invented\"\n",
                        RunFileReason.FORMAT_UNKNOWN,
                        ", line 1",
                        "Put ISO28178 in the first line"));
    }

    private static List<Bad> badHeaders() {
        return List.of(
                bad(
                        "no header row",
                        "1,2,3,4,5,6\n",
                        RunFileReason.STRUCTURE,
                        ", line 1",
                        "no header row",
                        HEADER.strip()),
                bad("only metadata", "# preset: Room 4\n", RunFileReason.STRUCTURE, ", line 1", "header row", "again"),
                bad(
                        "remarks above an ISO 28178 file",
                        "# mine\n" + iso("1 0 0 0 1 1 1\n"),
                        RunFileReason.STRUCTURE,
                        ", line 2",
                        "Move the # lines"),
                bad(
                        "an unknown column",
                        "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2,temperature\n1,2,3,4,5,6,7\n",
                        RunFileReason.COLUMN_UNKNOWN,
                        ", line 1, temperature",
                        HEADER.strip(),
                        "delete"),
                bad(
                        "a misspelt column",
                        "red,grene,blue,X_cd_m2,Y_cd_m2,Z_cd_m2\n1,2,3,4,5,6\n",
                        RunFileReason.COLUMN_UNKNOWN,
                        ", line 1, grene",
                        "Did you mean green?"),
                bad(
                        "a column without a name",
                        "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2,\n1,2,3,4,5,6,\n",
                        RunFileReason.COLUMN_UNKNOWN,
                        ", line 1, column 7",
                        "no name",
                        "delete the separator"),
                bad(
                                "chromaticities",
                                "red,green,blue,x,y,Y_cd_m2\n1,2,3,.3,.3,6\n",
                                RunFileReason.COLUMN_UNKNOWN,
                                ", line 1, x",
                                "X = x·Y/y")
                        .amongOthers(),
                bad(
                        "a missing column",
                        "red,green,X_cd_m2,Y_cd_m2,Z_cd_m2\n1,2,4,5,6\n",
                        RunFileReason.COLUMN_MISSING,
                        ", line 1, blue",
                        "is missing",
                        "add it"),
                bad(
                        "a column twice",
                        "red,red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2\n1,1,2,3,4,5,6\n",
                        RunFileReason.COLUMN_REPEATED,
                        ", line 1, red",
                        "column 1 and 2",
                        "Keep one"),
                bad(
                        "no unit",
                        "red,green,blue,X_cd_m2,Y,Z_cd_m2\n1,2,3,4,5,6\n",
                        RunFileReason.UNIT_MISSING,
                        ", line 1, Y",
                        "Call it Y_cd_m2"),
                bad(
                        "foot-lamberts",
                        "red,green,blue,X_fL,Y_cd_m2,Z_cd_m2\n1,2,3,4,5,6\n",
                        RunFileReason.UNIT_WRONG,
                        ", line 1, X_fL",
                        "multiply each value by 3.426259",
                        "X_cd_m2"),
                bad(
                        "nits",
                        "red,green,blue,X_nit,Y_cd_m2,Z_cd_m2\n1,2,3,4,5,6\n",
                        RunFileReason.UNIT_WRONG,
                        ", line 1, X_nit",
                        "a nit is a cd/m²",
                        "X_cd_m2"),
                bad(
                        "relative values",
                        "red,green,blue,X_cd_m2,Y_rel,Z_cd_m2\n1,2,3,4,5,6\n",
                        RunFileReason.UNIT_WRONG,
                        ", line 1, Y_rel",
                        "measured luminance of white",
                        "Y_cd_m2"),
                bad(
                        "an unknown unit",
                        "red,green,blue,X_cd_m2,Y_cd_m2,Z (bogons)\n1,2,3,4,5,6\n",
                        RunFileReason.UNIT_WRONG,
                        ", line 1, Z (bogons)",
                        "in 'bogons'",
                        "convert the values to cd/m²"),
                bad(
                        "a slip in the unit",
                        "red,green,blue,X_cdm2,Y_cd_m2,Z_cd_m2\n1,2,3,4,5,6\n",
                        RunFileReason.COLUMN_UNKNOWN,
                        ", line 1, X_cdm2",
                        "Did you mean X_cd_m2?"));
    }

    private static List<Bad> badRows() {
        return List.of(
                row("a negative value", "1,2,3,4,-5,6", RunFileReason.TRISTIMULUS_NEGATIVE, "Y_cd_m2", "-5", "measure"),
                row("NaN", "1,2,3,NaN,5,6", RunFileReason.TRISTIMULUS_NOT_FINITE, "X_cd_m2", "'NaN'", "Measure the"),
                row("infinity", "1,2,3,4,5,-Inf", RunFileReason.TRISTIMULUS_NOT_FINITE, "Z_cd_m2", "'-Inf'", "delete"),
                row("an overflow", "1,2,3,4,1e999,6", RunFileReason.TRISTIMULUS_NOT_FINITE, "Y_cd_m2", "'1e999'"),
                row("a word", "1,2,3,4,bright,6", RunFileReason.NUMBER_UNREADABLE, "Y_cd_m2", "'bright'", "100.25"),
                row("a Java number", "1,2,3,4,0x1p3,6", RunFileReason.NUMBER_UNREADABLE, "Y_cd_m2", "'0x1p3'"),
                row("an empty value", "1,2,3,4,,6", RunFileReason.NUMBER_UNREADABLE, "Y_cd_m2", "is empty", "measure"),
                row(
                        "an empty code",
                        "1,,3,4,5,6",
                        RunFileReason.NUMBER_UNREADABLE,
                        "green",
                        "is empty",
                        "whole number"),
                row("a quoted comma", "1,2,3,4,\"5,5\",6", RunFileReason.DECIMAL_COMMA, "Y_cd_m2", "point (5.5)"),
                row("a code of 512.0", "512.0,2,3,4,5,6", RunFileReason.CODE_NOT_WHOLE, "red", "write 512"),
                row("a signal level", "1,0.5,3,4,5,6", RunFileReason.CODE_NOT_WHOLE, "green", "0.5", "1023", "round"),
                row("a broken code", "1,2,3.7,4,5,6", RunFileReason.CODE_NOT_WHOLE, "blue", "3.7", "really sent"),
                row(
                        "a large code",
                        "1,2,65536,4,5,6",
                        RunFileReason.CODE_OUT_OF_RANGE,
                        "blue",
                        "0 to 65535",
                        "bit depth"),
                row("a huge code", "1,2,99999999999,4,5,6", RunFileReason.CODE_OUT_OF_RANGE, "blue", "0 to 65535"),
                row("a negative code", "-1,2,3,4,5,6", RunFileReason.CODE_OUT_OF_RANGE, "red", "-1 lies outside"),
                row(
                        "too few values",
                        "1,2,3,4,5",
                        RunFileReason.FIELD_COUNT,
                        null,
                        "5 values",
                        "6 columns",
                        "Complete"),
                row("too many values", "1,2,3,4,5,6,7", RunFileReason.FIELD_COUNT, null, "7 values", "Delete"),
                row("decimal commas", "1,2,3,4,5,5,5,6,5", RunFileReason.FIELD_COUNT, null, "decimal commas", "points"),
                row("an open quotation mark", "1,2,\"3,4,5,6", RunFileReason.QUOTE_OPEN, "column 3", "not closed"),
                row("text behind a quotation mark", "1,\"2\"x,3,4,5,6", RunFileReason.QUOTE_OPEN, "column 2", "delete"),
                bad(
                        "decimal commas between semicolons",
                        "red;green;blue;X_cd_m2;Y_cd_m2;Z_cd_m2\n1;2;3;4;5,25;6\n",
                        RunFileReason.DECIMAL_COMMA,
                        ", line 2, Y_cd_m2",
                        "'5,25' has a decimal comma",
                        "Write a point (5.25)"),
                bad(
                        "the same patch twice",
                        HEADER + "1,2,3,4,5,6\n3,2,1,4,5,6\n1,2,3,4,5,6\n",
                        RunFileReason.PATCH_REPEATED,
                        ", line 4, red, green, blue",
                        "1, 2, 3 stands in line 2 and in line 4",
                        "delete one"),
                bad(
                        "more readings than a run may hold",
                        HEADER + "1,2,3,4,5,6\n2,2,3,4,5,6\n3,2,3,4,5,6\n4,2,3,4,5,6\n5,2,3,4,5,6\n6,2,3,4,5,6\n7\n",
                        RunFileReason.TOO_MANY_READINGS,
                        ", line 7",
                        "reading 6",
                        "at most 5",
                        "split the file"),
                bad("a header row only", HEADER, RunFileReason.NO_READINGS, ", line 1", "no reading", "Export"));
    }

    private static List<Bad> badMetadata() {
        return List.of(
                meta("# operater: A", RunFileReason.METADATA_UNKNOWN, "operater", "Did you mean operator?", "##"),
                meta("# cat: Tom", RunFileReason.METADATA_UNKNOWN, "cat", "Known are preset, instrument", "##"),
                meta("# preset: a\n# preset: b", RunFileReason.METADATA_REPEATED, "preset", "line 1", "Keep one"),
                meta("# preset:", RunFileReason.METADATA_MALFORMED, "preset", "is empty", "Leave the line out"),
                meta("# operator: " + "x".repeat(201), RunFileReason.METADATA_MALFORMED, "operator", "200 characters"),
                meta("# operator: a\u0085b", RunFileReason.METADATA_MALFORMED, "operator", "control character"),
                meta("# purpose: chek", RunFileReason.METADATA_MALFORMED, "purpose", "Did you mean check?", "as-found"),
                meta(
                        "# taken-at: 2026-11-25T09:30:00",
                        RunFileReason.METADATA_MALFORMED,
                        "taken-at",
                        "no time zone",
                        "2026-11-25T09:30:00+01:00",
                        "Z for UTC"),
                meta("# taken-at: yesterday", RunFileReason.METADATA_MALFORMED, "taken-at", "'yesterday'", "ISO 8601"),
                meta("# taken-at: 2026-02-30T09:30:00Z", RunFileReason.METADATA_MALFORMED, "taken-at", "is not a time"),
                meta("# taken-at: 0026-11-25T09:30:00Z", RunFileReason.METADATA_MALFORMED, "taken-at", "1990", "date"),
                meta("# panel-hours: -3", RunFileReason.METADATA_MALFORMED, "panel-hours", "-3 hours", "0 to 1000000"),
                meta("# panel-hours: 12 h", RunFileReason.METADATA_MALFORMED, "panel-hours", "'12 h'", "bare number"),
                meta("# panel-hours: 12,5", RunFileReason.METADATA_MALFORMED, "panel-hours", "point in place of"),
                meta(
                        "# minutes-since-power-on: 7.5",
                        RunFileReason.METADATA_MALFORMED,
                        "minutes-since-power-on",
                        "whole number of minutes",
                        "Write 7"),
                meta("# ambient-lux: bright", RunFileReason.METADATA_MALFORMED, "ambient-lux", "'bright'", "lux"),
                meta("# readings: many", RunFileReason.METADATA_MALFORMED, "readings", "'many'", "whole number"),
                bad(
                        "metadata below the header row",
                        HEADER + "1,2,3,4,5,6\n# operator: A\n",
                        RunFileReason.METADATA_MISPLACED,
                        ", line 3, operator",
                        "Move the line above",
                        "one by one"));
    }

    private static List<Bad> cutFiles() {
        return List.of(
                bad(
                        "a row that breaks off",
                        HEADER + "1,2,3,4,5,6\n2,2,3,4",
                        RunFileReason.CUT_SHORT,
                        ", line 3",
                        "4 of 6 values",
                        "Copy or export it again"),
                bad(
                        "a last number that may be cut",
                        "# readings: 1\n" + HEADER + "1,2,3,4,5,6",
                        RunFileReason.CUT_SHORT,
                        ", line 3",
                        "no line end",
                        "Copy the file again"),
                bad(
                        "fewer readings than announced",
                        "# readings: 3\n" + HEADER + "1,2,3,4,5,6\n",
                        RunFileReason.COUNT_DISAGREES,
                        ", line 1, readings",
                        "3 readings are announced and 1 are there",
                        "Copy or export it again"),
                bad(
                        "more readings than announced",
                        "# readings: 1\n" + HEADER + "1,2,3,4,5,6\n2,2,3,4,5,6\n",
                        RunFileReason.COUNT_DISAGREES,
                        ", line 1, readings",
                        "1 readings are announced and 2 are there",
                        "Correct the number"),
                bad(
                        "no END_DATA",
                        isoHead() + "NUMBER_OF_SETS 1\nBEGIN_DATA\n1 0 0 0 1 1 1\n",
                        RunFileReason.CUT_SHORT,
                        ", line 12, END_DATA",
                        "is missing",
                        "Copy or export it again"),
                bad("no BEGIN_DATA", isoHead(), RunFileReason.CUT_SHORT, ", line 9, BEGIN_DATA", "is missing"),
                bad(
                        "a list of fields that breaks off",
                        "ISO28178\nBEGIN_DATA_FORMAT\nRGB_R\n",
                        RunFileReason.CUT_SHORT,
                        ", line 3, END_DATA_FORMAT",
                        "is missing"));
    }

    private static List<Bad> badIsoFiles() {
        String good = iso("1 0 0 0 1 1 1\n");
        return List.of(
                bad(
                        "no unit in ISO 28178",
                        good.replace("PANELBOOK_LUMINANCE_UNIT \"cd/m2\"\n", ""),
                        RunFileReason.UNIT_MISSING,
                        ", line 10, PANELBOOK_LUMINANCE_UNIT",
                        "KEYWORD \"PANELBOOK_LUMINANCE_UNIT\"",
                        "PANELBOOK_LUMINANCE_UNIT \"cd/m2\""),
                bad(
                        "foot-lamberts in ISO 28178",
                        good.replace("cd/m2", "fL"),
                        RunFileReason.UNIT_WRONG,
                        ", line 3, PANELBOOK_LUMINANCE_UNIT",
                        "3.426259"),
                bad(
                        "relative values in ISO 28178",
                        good.replace("cd/m2", "relative"),
                        RunFileReason.UNIT_WRONG,
                        ", line 3, PANELBOOK_LUMINANCE_UNIT",
                        "measured luminance of white"),
                bad(
                        "an unknown field",
                        good.replace("XYZ_X XYZ_Y", "XYZ_X LAB_L XYZ_Y")
                                .replace("FIELDS 7", "FIELDS 8")
                                .replace("0 1 1 1", "0 1 9 1 1"),
                        RunFileReason.COLUMN_UNKNOWN,
                        ", line 7, LAB_L",
                        "SAMPLE_ID, RGB_R, RGB_G",
                        "without the others"),
                bad(
                        "a misspelt field",
                        good.replace("XYZ_X", "XZY_X"),
                        RunFileReason.COLUMN_UNKNOWN,
                        ", line 7, XZY_X",
                        "Did you mean XYZ_X?"),
                bad(
                        "a missing field",
                        good.replace(" XYZ_Z", "")
                                .replace("FIELDS 7", "FIELDS 6")
                                .replace("1 1 1", "1 1"),
                        RunFileReason.COLUMN_MISSING,
                        ", line 5, XYZ_Z",
                        "add it"),
                bad(
                        "a misspelt keyword of ours",
                        good.replace("ORIGINATOR", "PANELBOOK_OPERATR"),
                        RunFileReason.METADATA_UNKNOWN,
                        ", line 2, PANELBOOK_OPERATR",
                        "Did you mean PANELBOOK_OPERATOR?"),
                bad(
                        "an undeclared keyword",
                        good.replace("ORIGINATOR", "WEATHER"),
                        RunFileReason.METADATA_UNKNOWN,
                        ", line 2, WEATHER",
                        "KEYWORD \"WEATHER\""),
                bad(
                        "a misspelt keyword of the standard",
                        good.replace("ORIGINATOR", "ORIGINATR"),
                        RunFileReason.METADATA_UNKNOWN,
                        ", line 2, ORIGINATR",
                        "Did you mean ORIGINATOR?"),
                bad(
                        "a malformed time in ISO 28178",
                        good.replace("ORIGINATOR \"Invented data\"", "PANELBOOK_TAKEN_AT \"2026-11-25T09:30\""),
                        RunFileReason.METADATA_MALFORMED,
                        ", line 2, PANELBOOK_TAKEN_AT",
                        "no time zone"),
                bad(
                        "a wrong number of fields announced",
                        good.replace("FIELDS 7", "FIELDS 9"),
                        RunFileReason.COUNT_DISAGREES,
                        ", line 4, NUMBER_OF_FIELDS",
                        "9 fields are announced and 7 are named"),
                bad(
                        "a wrong number of sets announced",
                        good.replace("SETS 1", "SETS 3"),
                        RunFileReason.COUNT_DISAGREES,
                        ", line 10, NUMBER_OF_SETS",
                        "3 sets are announced and 1 are there",
                        "Copy or export"),
                bad(
                        "no number of sets",
                        good.replace("SETS 1", "SETS some"),
                        RunFileReason.METADATA_MALFORMED,
                        ", line 10, NUMBER_OF_SETS",
                        "'some'"),
                bad(
                        "an incomplete set",
                        iso("1 0 0 0 1 1\n"),
                        RunFileReason.FIELD_COUNT,
                        ", line 12",
                        "6 values",
                        "7 fields"),
                bad("no set", iso(""), RunFileReason.NO_READINGS, ", line 12", "no reading"),
                bad(
                        "data without names",
                        "ISO28178\nBEGIN_DATA\n1 2\nEND_DATA\n",
                        RunFileReason.STRUCTURE,
                        ", line 2",
                        "BEGIN_DATA_FORMAT",
                        "SAMPLE_ID RGB_R"),
                bad(
                        "a set behind BEGIN_DATA",
                        good.replace("BEGIN_DATA\n", "BEGIN_DATA 1 5 5 5 1 1 1\n"),
                        RunFileReason.STRUCTURE,
                        ", line 11, BEGIN_DATA",
                        "line of its own"),
                bad(
                        "a field behind END_DATA_FORMAT",
                        good.replace("END_DATA_FORMAT", "END_DATA_FORMAT LAB_L"),
                        RunFileReason.STRUCTURE,
                        ", line 8, END_DATA_FORMAT",
                        "'LAB_L'",
                        "line of its own"),
                bad(
                        "the number of sets twice",
                        good.replace("# remark", "NUMBER_OF_SETS 1"),
                        RunFileReason.METADATA_REPEATED,
                        ", line 10, NUMBER_OF_SETS",
                        "line 9",
                        "Keep one"),
                bad(
                        "a second table",
                        good + "BEGIN_DATA\n1 2\nEND_DATA\n",
                        RunFileReason.STRUCTURE,
                        ", line 14",
                        "END_DATA in line 13",
                        "split the file"),
                bad(
                        "an end without its beginning",
                        good.replace("# remark", "END_DATA"),
                        RunFileReason.STRUCTURE,
                        ", line 9, END_DATA",
                        "BEGIN_DATA"),
                bad(
                        "an open quotation mark in ISO 28178",
                        good.replace("data\"", "data"),
                        RunFileReason.QUOTE_OPEN,
                        ", line 2",
                        "Close it"),
                bad(
                        "a patch twice in ISO 28178",
                        iso("1 7 8 9 1 1 1\n2 7 8 9 1 1 1\n"),
                        RunFileReason.PATCH_REPEATED,
                        ", line 13, RGB_R, RGB_G, RGB_B",
                        "line 12 and in line 13"),
                bad(
                        "a negative value in ISO 28178",
                        iso("1 7 8 9 1 -0.25 1\n"),
                        RunFileReason.TRISTIMULUS_NEGATIVE,
                        ", line 12, XYZ_Y",
                        "-0.25 cd/m²"));
    }

    private static Bad row(String what, String row, RunFileReason reason, String field, String... words) {
        return bad(what, HEADER + row + "\n", reason, ", line 2" + (field == null ? "" : ", " + field), words);
    }

    private static Bad meta(String lines, RunFileReason reason, String key, String... words) {
        String place = ", line " + lines.lines().count() + ", " + key;
        return bad(lines, lines + "\n" + HEADER + "1,2,3,4,5,6\n", reason, place, words);
    }

    private static Bad bad(String what, String file, RunFileReason reason, String place, String... words) {
        return bad(what, file.getBytes(StandardCharsets.UTF_8), reason, place, words);
    }

    private static Bad bad(String what, byte[] file, RunFileReason reason, String place, String... words) {
        return new Bad(what, file, reason, place, Arrays.asList(words), true);
    }

    private static byte[] utf16(String text) {
        return text.getBytes(StandardCharsets.UTF_16);
    }
}
