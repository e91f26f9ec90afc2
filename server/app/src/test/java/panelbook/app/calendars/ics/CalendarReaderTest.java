package panelbook.app.calendars.ics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static panelbook.app.calendars.ics.CalendarText.event;

import biweekly.Biweekly;
import biweekly.component.VEvent;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.TimeZone;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a calendar says, against the examples of RFC 5545 and an independent reader. */
class CalendarReaderTest {

    private static final ZoneId NEW_YORK = ZoneId.of("America/New_York");
    private static final ZoneId LISBON = ZoneId.of("Europe/Lisbon");
    private static final Instant FROM = Instant.parse("2026-01-01T00:00:00Z");
    private static final Instant UNTIL = Instant.parse("2027-03-01T00:00:00Z");
    private static final DateTimeFormatter WRITTEN = DateTimeFormatter.ofPattern("yyyyMMdd'T'HHmmss");

    /** Examples of RFC 5545, 3.8.5.3, all at 9:00 in New York; days as yyMMdd. */
    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            970902 | FREQ=DAILY;COUNT=10 | 970902 970903 970904 970905 970906 970907 970908 970909 970910 970911
            970902 | FREQ=DAILY;INTERVAL=10;COUNT=5 | 970902 970912 970922 971002 971012
            970902 | FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH | 970902 970904 970909 970911 970916 970918 970923 970925 970930 971002
            970901 | FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR | 970901 970903 970905 970915 970917 970919 970929 971001 971003 971013 971015 971017 971027 971029 971031 971110 971112 971114 971124 971126 971128 971208 971210 971212 971222
            970905 | FREQ=MONTHLY;COUNT=10;BYDAY=1FR | 970905 971003 971107 971205 980102 980206 980306 980403 980501 980605
            970907 | FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU | 970907 970928 971102 971130 980104 980125 980301 980329 980503 980531
            970922 | FREQ=MONTHLY;COUNT=6;BYDAY=-2MO | 970922 971020 971117 971222 980119 980216
            970928 | FREQ=MONTHLY;COUNT=6;BYMONTHDAY=-3 | 970928 971029 971128 971229 980129 980226
            970930 | FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1 | 970930 971001 971031 971101 971130 971201 971231 980101 980131 980201
            970610 | FREQ=YEARLY;COUNT=10;BYMONTH=6,7 | 970610 970710 980610 980710 990610 990710 000610 000710 010610 010710
            970101 | FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200 | 970101 970410 970719 000101 000409 000718 030101 030410 030719 060101
            970512 | FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO;COUNT=3 | 970512 980511 990517
            970904 | FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3 | 970904 971007 971106
            970929 | FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2;COUNT=7 | 970929 971030 971127 971230 980129 980226 980330
            970805 | FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO | 970805 970810 970819 970824
            970805 | FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU | 970805 970817 970819 970831
            070115 | FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5 | 070115 070130 070215 070315 070330
            961105 | FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8;COUNT=3 | 961105 001107 041102
            """)
    void recurrencesFallOnTheDaysThatTheStandardNames(String first, String rule, String days) throws Exception {
        var read = read(
                NEW_YORK,
                Instant.parse("1996-01-01T00:00:00Z"),
                Instant.parse("2008-01-01T00:00:00Z"),
                event(
                        "a",
                        "DTSTART;TZID=America/New_York:" + day(first).format(DateTimeFormatter.BASIC_ISO_DATE)
                                + "T090000",
                        "DURATION:PT1H",
                        "RRULE:" + rule));

        assertThat(read.stream().map(Occurrence::startsAt))
                .containsExactlyElementsOf(Arrays.stream(days.split(" "))
                        .map(day -> day(day).atTime(9, 0).atZone(NEW_YORK).toInstant())
                        .toList());
    }

    /** RFC 5545, 3.8.5.3: every Friday the 13th, the first date left out. */
    @Test
    void aDateThatIsLeftOutIsNotBookedEvenWhenItIsTheFirst() throws Exception {
        var read = read(
                NEW_YORK,
                Instant.parse("1997-01-01T00:00:00Z"),
                Instant.parse("2001-01-01T00:00:00Z"),
                event(
                        "a",
                        "DTSTART;TZID=America/New_York:19970902T090000",
                        "DURATION:PT1H",
                        "EXDATE;TZID=America/New_York:19970902T090000",
                        "RRULE:FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13"));

        assertThat(read.stream().map(one -> LocalDate.ofInstant(one.startsAt(), NEW_YORK)))
                .containsExactly(
                        LocalDate.of(1998, 2, 13),
                        LocalDate.of(1998, 3, 13),
                        LocalDate.of(1998, 11, 13),
                        LocalDate.of(1999, 8, 13),
                        LocalDate.of(2000, 10, 13));
    }

    /** The time zone that RFC 5545, 3.6.5, describes is that of the IANA database, gaps and doubled hours included. */
    @ParameterizedTest
    @MethodSource("seeds")
    void aZoneThatTheCalendarDescribesIsTheOneThatIsMeant(long seed) throws Exception {
        var random = new Random(seed);
        for (var i = 0; i < 40; i++) {
            var time = LocalDateTime.of(1968, 1, 1, 0, 0).plusMinutes(random.nextInt(65 * 366 * 24 * 60));
            if (i % 2 == 0) { // half of them round a change
                var change =
                        NEW_YORK.getRules().nextTransition(time.atZone(NEW_YORK).toInstant());
                time = change.getDateTimeBefore().plusMinutes(random.nextInt(240) - 120L);
            }
            var expected = time.atZone(NEW_YORK).toInstant();
            var read = CalendarReader.read(
                    CalendarText.of(
                            NEW_YORK_DESCRIBED,
                            event("a", "DTSTART;TZID=Coast:" + time.format(WRITTEN), "DURATION:PT1M")),
                    LISBON,
                    Instant.parse("1960-01-01T00:00:00Z"),
                    Instant.parse("2040-01-01T00:00:00Z"));
            assertThat(read.get(0).startsAt()).as("%s in New York", time).isEqualTo(expected);
        }
    }

    /** An independent reader (biweekly) lays the same calendars out to the same times. */
    @ParameterizedTest
    @MethodSource("seeds")
    void anIndependentReaderFindsTheSameBookings(long seed) throws Exception {
        var random = new Random(seed);
        for (var i = 0; i < 25; i++) {
            var text = CalendarText.of(randomEvent(random));
            var read = CalendarReader.read(text, LISBON, FROM, UNTIL).stream()
                    .map(Occurrence::startsAt)
                    .toList();
            assertThat(read)
                    .as(() -> new String(text, StandardCharsets.UTF_8))
                    .containsExactlyElementsOf(independent(text));
        }
    }

    private static String randomEvent(Random random) {
        var zone = ZoneId.of(List.of("Europe/Lisbon", "America/New_York", "Asia/Kathmandu", "UTC")
                .get(random.nextInt(4)));
        var start = LocalDate.of(2025, 6, 1)
                .plusDays(random.nextInt(400))
                .atTime(LocalTime.of(6 + random.nextInt(14), 15 * random.nextInt(4)));
        var day = List.of("MO", "TU", "WE", "TH", "FR", "SA", "SU")
                .get(start.getDayOfWeek().getValue() - 1);
        var rule = List.of(
                        "FREQ=DAILY;INTERVAL=" + (1 + random.nextInt(9)),
                        "FREQ=WEEKLY;INTERVAL=" + (1 + random.nextInt(3)) + ";BYDAY=WE," + day,
                        "FREQ=MONTHLY;BYMONTHDAY=" + start.getDayOfMonth(),
                        "FREQ=MONTHLY;BYDAY=" + (1 + (start.getDayOfMonth() - 1) / 7) + day,
                        "FREQ=YEARLY")
                .get(random.nextInt(5));
        var end = List.of(
                        "",
                        ";COUNT=" + (1 + random.nextInt(60)),
                        ";UNTIL=" + start.plusDays(random.nextInt(500)).format(WRITTEN) + "Z")
                .get(random.nextInt(3));
        var lines = new ArrayList<String>();
        lines.add("DTSTART;TZID=" + zone + ":" + start.format(WRITTEN));
        lines.add("DURATION:PT" + (1 + random.nextInt(5)) + "H");
        lines.add("RRULE:" + rule + end);
        if (random.nextBoolean()) {
            lines.add("EXDATE;TZID=" + zone + ":"
                    + start.plusWeeks(random.nextInt(20)).format(WRITTEN));
        }
        if (random.nextBoolean()) {
            lines.add("RDATE;TZID=" + zone + ":"
                    + start.plusDays(random.nextInt(300)).plusHours(1).format(WRITTEN));
        }
        return event("a", lines.toArray(String[]::new));
    }

    private static TreeSet<Instant> independent(byte[] text) {
        var calendar = Biweekly.parse(new String(text, StandardCharsets.UTF_8)).first();
        VEvent event = calendar.getEvents().get(0);
        var zone = calendar.getTimezoneInfo().getTimezone(event.getDateStart());
        var dates = event.getDateIterator(zone == null ? TimeZone.getTimeZone("UTC") : zone.getTimeZone());
        var length = Duration.ofMillis(event.getDuration().getValue().toMillis());
        var found = new TreeSet<Instant>();
        while (dates.hasNext()) {
            var start = dates.next().toInstant();
            if (!start.isBefore(UNTIL)) {
                break;
            }
            if (start.plus(length).isAfter(FROM)) {
                found.add(start);
            }
        }
        return found;
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 12);
    }

    @Test
    void timesWithoutAZoneAndWholeDaysAreThoseOfTheRoom() throws Exception {
        assertThat(read(
                        event("floating", "DTSTART:20260715T090000", "DTEND:20260715T100000"),
                        event("day", "DTSTART;VALUE=DATE:20260716", "DTEND;VALUE=DATE:20260718"),
                        event("one-day", "DTSTART;VALUE=DATE:20260720")))
                .extracting(Occurrence::startsAt, Occurrence::endsAt)
                .containsExactly(
                        span("2026-07-15T08:00:00Z", "2026-07-15T09:00:00Z"),
                        span("2026-07-15T23:00:00Z", "2026-07-17T23:00:00Z"),
                        span("2026-07-19T23:00:00Z", "2026-07-20T23:00:00Z"));
    }

    /** RFC 5545, 3.8.5.3: a duration is by the clock, the time to an end is exact; Lisbon goes forward on 2026-03-29. */
    @Test
    void aNightWhenTheClocksChangeIsAsLongAsItIsWritten() throws Exception {
        assertThat(read(event("nominal", "DTSTART;TZID=Europe/Lisbon:20260328T200000", "DURATION:P1D")))
                .extracting(Occurrence::endsAt)
                .containsExactly(Instant.parse("2026-03-29T19:00:00Z"));
        assertThat(read(event("exact", "DTSTART;TZID=Europe/Lisbon:20260328T200000", "DURATION:PT24H")))
                .extracting(Occurrence::endsAt)
                .containsExactly(Instant.parse("2026-03-29T20:00:00Z"));
    }

    @Test
    void whatIsCancelledTransparentOrFreeTakesNoTime() throws Exception {
        assertThat(read(
                        event("a", "DTSTART:20260302T090000Z", "DTEND:20260302T100000Z", "STATUS:CANCELLED"),
                        event("b", "DTSTART:20260302T090000Z", "DTEND:20260302T100000Z", "TRANSP:TRANSPARENT"),
                        event("c", "DTSTART:20260302T090000Z"),
                        "BEGIN:VTODO\nUID:d\nDTSTART:20260302T090000Z\nEND:VTODO",
                        "BEGIN:VFREEBUSY\nUID:e\nFREEBUSY;FBTYPE=FREE:20260302T090000Z/PT1H\nEND:VFREEBUSY"))
                .isEmpty();
    }

    @Test
    void aCalendarOfBusyTimesOnlyIsRead() throws Exception {
        assertThat(
                        read(
                                "BEGIN:VFREEBUSY\nUID:e\n"
                                        + "FREEBUSY;FBTYPE=BUSY:20260302T090000Z/PT1H,20260302T120000Z/20260302T133000Z\nEND:VFREEBUSY"))
                .extracting(Occurrence::startsAt, Occurrence::endsAt)
                .containsExactly(
                        span("2026-03-02T09:00:00Z", "2026-03-02T10:00:00Z"),
                        span("2026-03-02T12:00:00Z", "2026-03-02T13:30:00Z"));
    }

    @Test
    void anOccurrenceThatWasMovedOrCancelledIsBookedWhereItStandsNow() throws Exception {
        assertThat(read(
                        event("a", "DTSTART:20260302T090000Z", "DURATION:PT1H", "RRULE:FREQ=DAILY;COUNT=4"),
                        event("a", "RECURRENCE-ID:20260303T090000Z", "DTSTART:20260303T150000Z", "DURATION:PT2H"),
                        event(
                                "a",
                                "RECURRENCE-ID:20260304T090000Z",
                                "DTSTART:20260304T090000Z",
                                "DURATION:PT1H",
                                "STATUS:CANCELLED")))
                .extracting(Occurrence::startsAt, Occurrence::endsAt)
                .containsExactly(
                        span("2026-03-02T09:00:00Z", "2026-03-02T10:00:00Z"),
                        span("2026-03-03T15:00:00Z", "2026-03-03T17:00:00Z"),
                        span("2026-03-05T09:00:00Z", "2026-03-05T10:00:00Z"));
    }

    @Test
    void ofSeveralRevisionsOfAnEventTheLatestCounts() throws Exception {
        assertThat(read(
                        event("a", "SEQUENCE:2", "DTSTART:20260302T120000Z", "DURATION:PT1H"),
                        event("a", "SEQUENCE:1", "DTSTART:20260302T090000Z", "DURATION:PT1H")))
                .extracting(Occurrence::startsAt)
                .containsExactly(Instant.parse("2026-03-02T12:00:00Z"));
    }

    @Test
    void foldedAndEscapedTitlesAreReadAsTheyAreMeantEvenWhenAFoldPartsACharacter() throws Exception {
        // RFC 5545, 3.1: a fold is made by octets and may stand between those of one character
        var whole = "SUMMARY:Colour\\, light\\; and \\\\ shade \u00e9t\u00e9";
        var octets = whole.getBytes(StandardCharsets.UTF_8);
        var cut = octets.length - 3;
        var text = new java.io.ByteArrayOutputStream();
        text.writeBytes("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nUID:a\r\nDTSTART:20260302T090000Z\r\nDURATION:PT1H\r\n"
                .getBytes(StandardCharsets.UTF_8));
        text.write(octets, 0, cut + 2);
        text.writeBytes("\r\n ".getBytes(StandardCharsets.UTF_8));
        text.write(octets, cut + 2, octets.length - cut - 2);
        text.writeBytes("\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n".getBytes(StandardCharsets.UTF_8));

        assertThat(CalendarReader.read(text.toByteArray(), LISBON, FROM, UNTIL))
                .extracting(Occurrence::title)
                .containsExactly("Colour, light; and \\ shade \u00e9t\u00e9");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            DTSTART:20260231T090000Z | 7 | a day or time that does not exist
            DTSTART:tomorrow | 7 | 20260302T090000Z
            DTSTART;TZID=Nowhere/Town:20260302T090000 | 7 | neither described by a VTIMEZONE
            DTSTART | 7 | ":" is missing
            SUMMARY:without a start | 4 | no DTSTART
            DTSTART:20260302T090000Z~DTEND:20260302T080000Z | 8 | ends before it starts
            DTSTART:20260302T090000Z~DURATION:-PT1H | 8 | less than no time
            DTSTART:20260302T090000Z~DURATION:1 hour | 8 | PT1H30M
            DTSTART:20260302T090000Z~RRULE:FREQ=SOMETIMES | 8 | cannot be read
            DTSTART:20260302T090000Z~RRULE:FREQ=SECONDLY | 8 | by the second
            DTSTART:20260302T090000Z~RRULE:FREQ=DAILY;BYMONTHDAY=77 | 8 | cannot be read
            DTSTART:20260302T090000Z~RECURRENCE-ID;RANGE=THISANDFUTURE:20260302T090000Z | 8 | RANGE
            """)
    void aBadCalendarIsRefusedWithItsLineAndWithoutAWordOfIt(String lines, int line, String says) {
        var text = CalendarText.of(event("secret-project", lines.split("~")));
        assertThatThrownBy(() -> CalendarReader.read(text, LISBON, FROM, UNTIL))
                .isInstanceOfSatisfying(
                        UnreadableCalendarException.class,
                        unreadable -> assertThat(unreadable.faults().get(0).line())
                                .as(unreadable.getMessage())
                                .isEqualTo(line))
                .hasMessageContaining(says)
                .hasMessageNotContaining("secret-project")
                .hasMessageNotContaining("tomorrow");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "<html><body>Please log in</body></html>",
                "BEGIN:VCARD\nEND:VCARD\n",
                "BEGIN:VCALENDAR\nBEGIN:VEVENT\nUID:a\n",
                "BEGIN:VCALENDAR\nBEGIN:VEVENT\nEND:VCALENDAR\n"
            })
    void whatIsNoWholeCalendarIsRefused(String text) {
        assertThatThrownBy(() -> CalendarReader.read(CalendarText.lines(text), LISBON, FROM, UNTIL))
                .isInstanceOf(UnreadableCalendarException.class)
                .hasMessageContaining("line ");
    }

    @Test
    void everyFaultyEventIsNamedAtOnce() {
        var text = CalendarText.of(
                event("a", "DTSTART:x"), event("b", "DTSTART:20260302T090000Z"), event("c", "DTSTART:y"));
        assertThatThrownBy(() -> CalendarReader.read(text, LISBON, FROM, UNTIL))
                .isInstanceOfSatisfying(
                        UnreadableCalendarException.class,
                        unreadable -> assertThat(unreadable.faults())
                                .extracting(UnreadableCalendarException.Fault::line)
                                .containsExactly(7, 17));
    }

    @Test
    void aCalendarWithMoreBookingsThanARoomCanHaveIsRefused() {
        var events = IntStream.range(0, 3)
                .mapToObj(i -> event("a" + i, "DTSTART:20250101T00000" + i + "Z", "DURATION:PT1S", "RRULE:FREQ=HOURLY"))
                .toArray(String[]::new);
        assertThatThrownBy(() -> CalendarReader.read(CalendarText.of(events), LISBON, FROM, UNTIL))
                .hasMessageContaining("more than 20000 bookings");
    }

    @Test
    void aRuleThatNeverFallsOnADayEndsAndOneForLeapDaysGoesOn() throws Exception {
        assertThat(read(
                        LISBON,
                        Instant.parse("2028-01-01T00:00:00Z"),
                        Instant.parse("2033-01-01T00:00:00Z"),
                        event(
                                "never",
                                "DTSTART:20240301T090000Z",
                                "DURATION:PT1H",
                                "RRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30"),
                        event(
                                "leap",
                                "DTSTART:20240229T090000Z",
                                "DURATION:PT1H",
                                "RRULE:FREQ=DAILY;BYMONTH=2;BYMONTHDAY=29")))
                .extracting(Occurrence::startsAt)
                .containsExactly(Instant.parse("2028-02-29T09:00:00Z"), Instant.parse("2032-02-29T09:00:00Z"));
    }

    private static List<Occurrence> read(String... parts) throws UnreadableCalendarException {
        return read(LISBON, FROM, UNTIL, parts);
    }

    private static List<Occurrence> read(ZoneId room, Instant from, Instant until, String... parts)
            throws UnreadableCalendarException {
        return CalendarReader.read(CalendarText.of(parts), room, from, until);
    }

    private static LocalDate day(String day) {
        return LocalDate.parse((day.startsWith("9") ? "19" : "20") + day, DateTimeFormatter.BASIC_ISO_DATE);
    }

    private static org.assertj.core.groups.Tuple span(String from, String until) {
        return org.assertj.core.groups.Tuple.tuple(Instant.parse(from), Instant.parse(until));
    }

    /** As in RFC 5545, 3.6.5, under a name that no database knows. */
    private static final String NEW_YORK_DESCRIBED = """
            BEGIN:VTIMEZONE
            TZID:Coast
            BEGIN:DAYLIGHT
            DTSTART:19670430T020000
            RRULE:FREQ=YEARLY;BYMONTH=4;BYDAY=-1SU;UNTIL=19730429T070000Z
            TZOFFSETFROM:-0500
            TZOFFSETTO:-0400
            END:DAYLIGHT
            BEGIN:STANDARD
            DTSTART:19671029T020000
            RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU;UNTIL=20061029T060000Z
            TZOFFSETFROM:-0400
            TZOFFSETTO:-0500
            END:STANDARD
            BEGIN:DAYLIGHT
            DTSTART:19740106T020000
            RDATE:19750223T020000
            TZOFFSETFROM:-0500
            TZOFFSETTO:-0400
            END:DAYLIGHT
            BEGIN:DAYLIGHT
            DTSTART:19760425T020000
            RRULE:FREQ=YEARLY;BYMONTH=4;BYDAY=-1SU;UNTIL=19860427T070000Z
            TZOFFSETFROM:-0500
            TZOFFSETTO:-0400
            END:DAYLIGHT
            BEGIN:DAYLIGHT
            DTSTART:19870405T020000
            RRULE:FREQ=YEARLY;BYMONTH=4;BYDAY=1SU;UNTIL=20060402T070000Z
            TZOFFSETFROM:-0500
            TZOFFSETTO:-0400
            END:DAYLIGHT
            BEGIN:DAYLIGHT
            DTSTART:20070311T020000
            RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU
            TZOFFSETFROM:-0500
            TZOFFSETTO:-0400
            END:DAYLIGHT
            BEGIN:STANDARD
            DTSTART:20071104T020000
            RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU
            TZOFFSETFROM:-0400
            TZOFFSETTO:-0500
            END:STANDARD
            END:VTIMEZONE""";
}
