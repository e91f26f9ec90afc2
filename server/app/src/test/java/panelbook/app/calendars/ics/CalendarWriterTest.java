package panelbook.app.calendars.ics;

import static org.assertj.core.api.Assertions.assertThat;

import biweekly.Biweekly;
import biweekly.ICalVersion;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.app.calendars.ics.CalendarWriter.Entry;
import panelbook.app.calendars.ics.CalendarWriter.Standing;

/** Written calendars, against RFC 5545 by hand and an independent reader (biweekly). */
class CalendarWriterTest {

    private static final Instant NINE = Instant.parse("2026-03-02T09:00:00Z");

    @Test
    void aCalendarReadsAsTheStandardWritesIt() {
        var text = new String(
                CalendarWriter.write(
                        "Visits: North/Suite 1",
                        List.of(entry(
                                "Hero, then follower; \\ both", "North/Suite 1", "One\nTwo", Standing.TENTATIVE))),
                StandardCharsets.UTF_8);

        // RFC 5545, 3.1 (line ends), 3.3.5 (UTC), 3.3.11 (escapes), 3.8.1.11 (status)
        assertThat(text.replace("\r\n", "\n")).isEqualTo("""
                BEGIN:VCALENDAR
                PRODID:-//Panelbook//Visits//EN
                VERSION:2.0
                CALSCALE:GREGORIAN
                NAME:Visits: North/Suite 1
                REFRESH-INTERVAL;VALUE=DURATION:PT1H
                BEGIN:VEVENT
                UID:visit@panelbook
                DTSTAMP:20260301T120000Z
                LAST-MODIFIED:20260301T120000Z
                SEQUENCE:3
                DTSTART:20260302T090000Z
                DTEND:20260302T103000Z
                SUMMARY:Hero\\, then follower\\; \\\\ both
                LOCATION:North/Suite 1
                DESCRIPTION:One\\nTwo
                STATUS:TENTATIVE
                END:VEVENT
                END:VCALENDAR
                """);
        assertThat(text.replace("\r\n", "")).as("lines end in CRLF only").doesNotContain("\n", "\r");
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void whateverIsWrittenComesBackFromAnIndependentReaderAndNoLineIsTooLong(long seed) {
        var random = new Random(seed);
        var entries = IntStream.range(0, 8)
                .mapToObj(i -> entry(text(random), text(random), text(random), Standing.values()[i % 3]))
                .toList();

        var written = CalendarWriter.write(text(random), entries);

        // RFC 5545, 3.1: at most 75 octets without the line end, and no fold within a character
        for (var line : new String(written, StandardCharsets.ISO_8859_1).split("\r\n", -1)) {
            assertThat(line.length()).as(line).isLessThanOrEqualTo(75);
            assertThat(new String(line.getBytes(StandardCharsets.ISO_8859_1), StandardCharsets.UTF_8))
                    .doesNotContain("\uFFFD");
        }
        var read = Biweekly.parse(new String(written, StandardCharsets.UTF_8)).first();
        assertThat(read.validate(ICalVersion.V2_0).isEmpty())
                .as(() -> read.validate(ICalVersion.V2_0).toString())
                .isTrue();
        assertThat(read.getEvents())
                .extracting(
                        event -> event.getSummary().getValue(),
                        event -> event.getLocation().getValue(),
                        event -> event.getDescription().getValue(),
                        event -> event.getStatus().getValue(),
                        event -> event.getDateStart().getValue().toInstant(),
                        event -> event.getDateEnd().getValue().toInstant())
                .containsExactlyElementsOf(entries.stream()
                        .map(entry -> org.assertj.core.groups.Tuple.tuple(
                                entry.summary(),
                                entry.location(),
                                entry.description(),
                                entry.standing().name(),
                                entry.startsAt(),
                                entry.endsAt()))
                        .toList());
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 40);
    }

    private static String text(Random random) {
        var pieces = List.of(
                "hero",
                ",",
                ";",
                "\\",
                "\n",
                ":",
                " ",
                "\"",
                "u\u2032v\u2032",
                "\u00e9",
                "\u6f22\u5b57",
                new String(Character.toChars(0x1F3A8)),
                "cd/m\u00b2",
                "=",
                "\\n");
        var text = new ArrayList<String>();
        for (var i = random.nextInt(60); i >= 0; i--) {
            text.add(pieces.get(random.nextInt(pieces.size())));
        }
        return "a" + text.stream().collect(Collectors.joining()) + "z";
    }

    private static Entry entry(String summary, String location, String description, Standing standing) {
        return new Entry(
                "visit@panelbook",
                3,
                Instant.parse("2026-03-01T12:00:00Z"),
                NINE,
                NINE.plus(Duration.ofMinutes(90)),
                summary,
                location,
                description,
                standing);
    }
}
