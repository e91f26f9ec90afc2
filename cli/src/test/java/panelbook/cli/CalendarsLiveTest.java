package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.HttpURLConnection;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Bookings read, visits published and panel hours entered, at the prompt against the real service, in order. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
@Timeout(value = 300, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class CalendarsLiveTest {

    @TempDir
    static Path home;

    private static LiveService service;
    private static Desk desk;

    @BeforeAll
    static void start() {
        service = new LiveService(home);
        service.startAndWait();
        desk = new Desk(home);
        gives(
                0,
                "log-in",
                service.address(),
                "--token-file",
                service.tokenFile().toString());
        Suite.book(desk);
        gives(0, "facility", "enter", "north.yaml");
    }

    @AfterAll
    static void stop() throws Exception {
        service.close();
        assertThat(service.strays()).as("processes left behind").isEmpty();
    }

    private static void gives(int code, String... command) {
        assertThat(desk.type(command))
                .as("%s said: %s%s", List.of(command), desk.out, desk.err)
                .isEqualTo(code);
        assertThat(desk.err).doesNotContain("\tat ", "should not have happened");
    }

    private static String calendar(String... lines) {
        return "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Quillwater//EN\r\nBEGIN:VEVENT\r\nUID:a\r\n"
                + "DTSTAMP:20260301T000000Z\r\n" + String.join("\r\n", lines) + "\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n";
    }

    @Test
    @Order(1)
    void aCalendarFileIsReadAndTheSameAgainChangesNothing() {
        desk.write(
                "desk.ics",
                calendar("DTSTART:20260105T090000", "DURATION:PT2H", "RRULE:FREQ=WEEKLY", "SUMMARY:Grading\\, reel 2"));
        gives(0, "booking", "read", "Suite 1", "desk.ics");
        var first = desk.out;
        assertThat(desk.err).contains("Read ", " bookings of North/Suite 1");
        gives(0, "booking", "read", "Suite 1", "desk.ics", "--json=name,bookings,version");
        gives(0, "booking", "sources", "--room", "Suite 1");
        assertThat(desk.out.replaceAll("\\d\\d:\\S+", "")).isEqualTo(first.replaceAll("\\d\\d:\\S+", ""));
        gives(0, "booking", "list", "Suite 1");
        assertThat(desk.lines()).hasSize(4);
        assertThat(desk.out).contains("Grading, reel 2");
    }

    @Test
    @Order(2)
    void aFileThatCannotBeReadIsAnsweredWithFileAndLine() {
        desk.write("bad.ics", calendar("DTSTART:20260231T090000Z"));
        gives(1, "booking", "read", "Suite 1", "bad.ics", "--name", "desk");
        assertThat(desk.err).contains("bad.ics, line 7: DTSTART").contains("stay as they were");
        gives(1, "booking", "read", "Suite 1", "none.ics");
        assertThat(desk.err).contains("none.ics: there is no such file");
        gives(0, "booking", "list", "Suite 1");
        assertThat(desk.lines()).hasSize(4);
    }

    @Test
    @Order(3)
    void anAddressThatDoesNotAnswerIsFollowedAndSaidSo() {
        desk.write("address.txt", service.address() + "/calendars/s3cret.ics");
        gives(1, "booking", "follow", "Suite 1", "--address-file", "address.txt");
        assertThat(desk.err)
                .contains("Added the calendar \"calendar\"", "The server answered 404")
                .doesNotContain("s3cret");
        gives(0, "booking", "sources");
        assertThat(desk.out).contains("fetched", "404").doesNotContain("s3cret");
        gives(2, "booking", "follow", "Suite 1");
        gives(0, "booking", "forget", "Suite 1", "calendar");
        gives(1, "booking", "forget", "Suite 1", "calendar");
        assertThat(desk.err).contains("has no calendar \"calendar\" in use");
        gives(1, "booking", "follow", "Suite 1", "--address-file", "address.txt");
        assertThat(desk.err).contains("Added the calendar");
    }

    @Test
    @Order(4)
    void aCalendarOfVisitsOpensUnderItsAddressUntilItIsClosed() throws Exception {
        gives(0, "calendar", "open", "--room", "Suite 1");
        var address = desk.lines().get(0);
        var id = desk.err.replaceAll("(?s).*calendar close (\\S+).*", "$1");
        assertThat(text(address)).startsWith("BEGIN:VCALENDAR\r\n").contains("NAME:Visits: North/Suite 1\r\n");
        gives(0, "calendar", "list");
        assertThat(desk.out).contains("North/Suite 1\topen").doesNotContain(address);
        gives(0, "calendar", "close", id);
        assertThat(status(address)).isEqualTo(404);
        gives(2, "calendar", "open");
        gives(1, "calendar", "open", "--calibrator", "Nobody");
        assertThat(desk.err).contains("no calibrator of this name");
        assertThat(service.log()).doesNotContain(address.substring(address.lastIndexOf('/')));
    }

    @Test
    @Order(5)
    void panelHoursComeFromAFileAndWhatDoesNotGoTogetherIsAskedAbout() {
        desk.write(
                "counters.csv",
                "display,at,hours,note",
                "Suite 1/Main,2026-01-01T10:00:00Z,1000,",
                "Suite 1/Main,2026-01-11T10:00:00Z,11000,from the menu",
                "Suite 1/Main,2026-01-21T10:00:00Z,1200,");
        gives(0, "display", "hours", "read", "counters.csv");
        assertThat(desk.err).contains("3 added, 0 there already, 1 questions");
        assertThat(desk.out).contains("North/Suite 1/Main\tcontradicted\t11000");
        var id = column(0, 4);
        gives(0, "display", "hours", "read", "counters.csv");
        assertThat(desk.err).contains("0 added, 3 there already");
        gives(3, "room", "sheet", "Suite 1"); // not ready: nothing was ever calibrated
        assertThat(desk.out).contains("panelbook display hours answer " + id);

        gives(2, "display", "hours", "answer", id, "perhaps");
        gives(0, "display", "hours", "answer", id, "typing-error", "--corrected", "1100");
        gives(0, "display", "hours", "list", "Suite 1/Main");
        assertThat(desk.out).contains("\t1100\t").doesNotContain("11000");
        gives(0, "display", "hours", "questions");
        assertThat(desk.out).isEmpty();
        gives(0, "display", "hours", "questions", "--answered");
        assertThat(desk.out).contains("typing-error");
    }

    @Test
    @Order(6)
    void aBadLineKeepsTheWholeFileOutAndIsNamedWithItsField() {
        desk.write(
                "bad.csv",
                "display,at,hours",
                "Suite 1/Main,2026-02-01T10:00:00Z,1300",
                "Suite 1/Nobody,yesterday,lots",
                "Suite 1/Main,2999-01-01T10:00:00Z,1300,,");
        gives(1, "display", "hours", "read", "bad.csv");
        assertThat(desk.err)
                .contains("Nothing was entered", "bad.csv, line 3, display: ", "bad.csv, line 3, at: ")
                .contains("bad.csv, line 3, hours: ", "bad.csv, line 4, row: ");
        desk.write("late.csv", "display,at,hours", "Suite 1/Main,2999-01-01T10:00:00Z,1300");
        gives(1, "display", "hours", "read", "late.csv");
        assertThat(desk.err).contains("late.csv, line 2, at: Must not lie in the future");
        gives(0, "display", "hours", "list", "Suite 1/Main");
        assertThat(desk.out).doesNotContain("1300");
    }

    private static String column(int line, int column) {
        return desk.lines().get(line).split("\t", -1)[column];
    }

    private static int status(String address) throws Exception {
        return connection(address).getResponseCode();
    }

    private static String text(String address) throws Exception {
        try (var in = connection(address).getInputStream()) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private static HttpURLConnection connection(String address) throws Exception {
        return (HttpURLConnection) URI.create(address).toURL().openConnection();
    }
}
