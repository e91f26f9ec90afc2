package panelbook.app.notifying;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.Message;
import jakarta.mail.internet.MimeMessage;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import panelbook.app.alerts.CauseReport;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.ChannelDraft;
import panelbook.wire.ChannelKind;
import panelbook.wire.ChannelTrial;
import panelbook.wire.Closure;
import panelbook.wire.DisplayDraft;
import panelbook.wire.NotificationSettingsDraft;
import panelbook.wire.PresetDraft;

/** Alerts told by mail, to a real SMTP server that is away or stalls where a test wants it to. */
class MailTest extends NotifyingTest {

    private static final int PORT = freePort();

    private final GreenMail server = new GreenMail(new ServerSetup(PORT, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));

    @DynamicPropertySource
    static void mail(DynamicPropertyRegistry registry) {
        registry.add("spring.mail.host", () -> "127.0.0.1");
        registry.add("spring.mail.port", () -> PORT);
        registry.add("spring.mail.properties[mail.smtp.timeout]", () -> 1000);
        registry.add("panelbook.notify.mail-from", () -> "panelbook@facility.example");
    }

    @BeforeEach
    void start() {
        server.start();
    }

    @AfterEach
    void stop() {
        server.stop();
    }

    @Test
    void aMailSaysWhatWhereSinceWhenAndWhatToDo() throws Exception {
        var channel = mailTo("engineer@facility.example", "night@facility.example");
        var alert = openAlert();
        sendGathered();
        var mails = server.getReceivedMessages();
        assertThat(mails).as("one for each address").hasSize(2);
        assertThat(mails[0].getSubject()).startsWith("Panelbook: Alert: " + studio.name());
        assertThat(mails[0].getFrom()[0]).hasToString("panelbook@facility.example");
        assertThat(mails[0].getHeader("Auto-Submitted", null)).as("RFC 3834").isEqualTo("auto-generated");
        assertThat(mails[0].getContent().toString())
                .contains("does not meet its target", studio.name() + "/Grading 1/", "(Europe/Lisbon)")
                .contains("What to do:", "panelbook alert show " + alert, "panelbook alert ack " + alert)
                .contains("photosensitive viewers", "qualified service staff");
        assertThat(channel(channel).waiting()).isZero();
    }

    @Test
    void aMailOnAMeterThatSteppedSendsNobodyToTheMenus() throws Exception {
        mailTo("engineer@facility.example");
        var like = engineer().get("/alerts/" + openAlert()).as(Alert.class);
        sendGathered();
        var meter = studio.instrument();
        report(like, CauseReport.SubjectKind.INSTRUMENT, meter, AlertCause.STEPPED, 1);
        sendGathered();
        report(like, CauseReport.SubjectKind.INSTRUMENT, meter, AlertCause.STEPPED, 0);
        assertThat(server.getReceivedMessages()[1].getContent().toString())
                .contains("What to do: have the meter checked")
                .doesNotContain("menu");
    }

    /** RFC 5322, 3.6.4: identification fields. */
    @Test
    void allMailsOfAnAlertMakeOneThread() throws Exception {
        mailTo("engineer@facility.example");
        var alert = openAlert();
        sendGathered();
        engineer()
                .post("/alerts/" + alert + "/closure", new Closure("panel swapped"))
                .expect(200);
        sendGathered();
        var mails = server.getReceivedMessages();
        assertThat(mails).hasSize(2);
        var first = mails[0].getMessageID();
        assertThat(first).matches("<[0-9a-f-]{36}@facility\\.example>");
        assertThat(mails[0].getHeader("In-Reply-To")).isNull();
        assertThat(mails[1].getHeader("In-Reply-To", null)).isEqualTo(first);
        assertThat(mails[1].getHeader("References", null)).isEqualTo(first);
        assertThat(mails[1].getSubject()).startsWith("Panelbook: Closed:");
    }

    @Test
    void aServerThatIsAwayGetsTheMailWhenItIsBackUnderTheSameId() throws Exception {
        server.stop();
        var channel = mailTo("engineer@facility.example");
        openAlert();
        sendGathered();
        assertThat(channel(channel).lastError()).contains("could not be sent");
        server.start();
        sendAfter(Duration.ofSeconds(12));
        assertThat(ids()).containsExactly("<" + deliveries(channel).get(0).id() + "@facility.example>");
        assertThat(deliveries(channel).get(0).attempts()).isEqualTo(2);
    }

    @Test
    void aServerThatTakesTheCallAndSaysNothingIsGivenUpOnSoon() throws Exception {
        server.stop();
        var channel = mailTo("engineer@facility.example");
        try (var silent = new ServerSocket(PORT, 5, InetAddress.getLoopbackAddress());
                var receiver = new Receiver()) {
            webhook(receiver);
            openAlert();
            sendGathered();
            assertThat(silent.isBound()).isTrue();
            assertThat(receiver.requests).as("others are told meanwhile").hasSize(1);
        }
        assertThat(channel(channel).lastError()).isNotBlank();
        server.start();
        sendAfter(Duration.ofSeconds(12));
        assertThat(ids()).hasSize(1);
    }

    @Test
    void anAddressThatTookAMailGetsItNoMoreWhileTheOthersAreTriedAgain() throws Exception {
        server.stop();
        var channel = mailTo("here@facility.example", "full@facility.example", "gone@facility.example");
        try (var strict = new StrictMailServer(PORT)) {
            strict.answers.put("full@facility.example", "452 the box is full");
            strict.answers.put("gone@facility.example", "550 no such person");
            openAlert();
            sendGathered();
            assertThat(strict.mails).containsExactly(List.of("here@facility.example"));
            strict.answers.remove("full@facility.example");
            sendAfter(Duration.ofSeconds(12));
            assertThat(strict.mails)
                    .containsExactly(List.of("here@facility.example"), List.of("full@facility.example"));
            for (var i = 0; i < 4; i++) {
                sendAfter(Duration.ofMinutes(3));
            }
            assertThat(strict.mails).as("nobody is mailed twice").hasSize(2);
            assertThat(deliveries(channel).get(0).givenUpAt())
                    .as("the address that is none is given up")
                    .isNotNull();
            assertThat(deliveries(channel).get(0).lastError()).contains("gone@facility.example");
        }
    }

    @Test
    void aBurstMakesOneMailThatListsAll() throws Exception {
        set(new NotificationSettingsDraft(240, 1440, 3, 30));
        mailTo("engineer@facility.example");
        var all = List.of(openAlert(), openAlert(), openAlert(), openAlert());
        sendGathered();
        var mails = server.getReceivedMessages();
        assertThat(mails).hasSize(1);
        assertThat(mails[0].getSubject()).contains("4 events of alerts at once");
        assertThat(mails[0].getContent().toString())
                .contains(all.stream().map(id -> "panelbook alert show " + id).toList());
    }

    @Test
    void namesThatLookLikeHeadersStayText() throws Exception {
        mailTo("engineer@facility.example");
        var name = unique("Bcc: all@facility.example é ✓");
        var display = new DisplayDraft(
                UUID.randomUUID(), studio.facility(), studio.room(), name, "model lcd", "lcd", null, null);
        engineer().post("/displays", display).expect(201);
        var preset = new PresetDraft(UUID.randomUUID(), display.id(), "User 1", studio.target());
        engineer().post("/presets", preset).expect(201);
        offTarget(preset.id(), 0.5);
        sendGathered();
        var mail = server.getReceivedMessages()[0];
        assertThat(mail.getSubject()).contains(name);
        assertThat(mail.getHeader("Bcc")).isNull();
        assertThat(mail.getRecipients(Message.RecipientType.TO)).hasSize(1);
        engineer()
                .post("/channels", draft("engineer@facility.example\r\nBcc: all@facility.example"))
                .expect(400);
        engineer()
                .post("/channels", draft("An Engineer <engineer@facility.example>"))
                .expect(400);
        engineer().post("/channels", draft("engineer")).expect(400);
    }

    @Test
    void aTrialMailSaysThatItIsOne() throws Exception {
        var channel = mailTo("engineer@facility.example");
        assertThat(engineer()
                        .post("/channels/" + channel + "/test")
                        .expect(200)
                        .as(ChannelTrial.class)
                        .delivered())
                .isTrue();
        assertThat(server.getReceivedMessages()[0].getSubject()).isEqualTo("Panelbook: A test of this channel");
    }

    private List<String> ids() {
        return Arrays.stream(server.getReceivedMessages()).map(MailTest::id).toList();
    }

    private static String id(MimeMessage mail) {
        try {
            return mail.getMessageID();
        } catch (jakarta.mail.MessagingException e) {
            throw new AssertionError(e);
        }
    }

    private UUID mailTo(String... addresses) {
        return add(draft(addresses)).channel().id();
    }

    private ChannelDraft draft(String... addresses) {
        return new ChannelDraft(
                UUID.randomUUID(),
                unique("mail"),
                ChannelKind.EMAIL,
                studio.facility(),
                List.of(),
                false,
                List.of(addresses),
                null);
    }

    private static int freePort() {
        try (var socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }
}
