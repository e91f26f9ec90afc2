package panelbook.app.notifying;

import static org.assertj.core.api.Assertions.assertThat;

import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.internet.MimeMessage;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Queue;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import panelbook.app.testing.Http;
import panelbook.app.testing.Instance;
import panelbook.app.testing.Studio;
import panelbook.db.testing.TestDatabase;
import panelbook.wire.ChannelDraft;
import panelbook.wire.ChannelKind;
import panelbook.wire.NotificationSettings;
import panelbook.wire.NotificationSettingsDraft;
import panelbook.wire.Purpose;
import panelbook.wire.RunUpload;
import tools.jackson.databind.json.JsonMapper;

/** Two instances of the service on one database, killed again and again while alerts open and close. */
class TwoInstancesKillTest {

    private static final long SEED = 4;
    private static final int KILLS = 5;
    private static final int UPLOADS_BETWEEN_KILLS = 5;
    private static final long PATIENCE_SECONDS = 60;
    private static final Pattern SHOWN = Pattern.compile("panelbook alert show ([0-9a-f-]{36})");
    private static final JsonMapper JSON = JsonMapper.builder().build();

    @TempDir
    private Path folder;

    private final TestDatabase database = TestDatabase.empty();
    private final Semaphore mayUpload = new Semaphore(0);
    private final AtomicInteger uploaded = new AtomicInteger();
    private final Queue<String> refusals = new ConcurrentLinkedQueue<>();
    private final Random random = new Random(SEED);
    private List<Instance> instances = List.of();

    /**
     * Each instance is killed at random moments and started again; uploads go to either and are repeated at the other
     * where no answer came. The receiver of webhooks fails and stalls, the line to the mail server is cut. In the end
     * every event that was to be told was told by webhook and by mail, once when repeats are told by their ids, and each
     * display that left tolerance has one alert.
     */
    @Test
    @Timeout(value = 300, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void killsOfTwoInstancesLoseNoNotificationAndDoubleNoAlert() throws Exception {
        var mailServer = new GreenMail(new ServerSetup(Instance.freePort(), "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
        mailServer.start();
        try (var receiver = new Receiver();
                var door = new FlakyDoor(mailServer.getSmtp().getPort(), SEED);
                var one = new Instance(database, folder, "one", properties(door));
                var other = new Instance(database, folder, "other", properties(door))) {
            instances = List.of(one, other);
            one.start();
            one.awaitReady();
            other.start();
            var studio = new Studio(one.engineer(), "Kill studio");
            addChannels(one.engineer(), studio, receiver);
            receiver.moods(new Random(SEED));
            var runs = runs(studio);
            var uploader = new Thread(() -> runs.forEach(this::upload), "uploader");
            uploader.start();
            killAgainAndAgain(receiver);
            mayUpload.release(runs.size());
            uploader.join();
            assertThat(refusals).as("uploads that were refused").isEmpty();
            receiver.moods(null);
            door.beCalm();
            awaitAllTold();
            mustHaveOneAlertForEachDisplay(runs);
            mustHaveToldByWebhook(receiver);
            mustHaveToldByMail(mailServer);
        } finally {
            mailServer.stop();
        }
    }

    private static List<String> properties(FlakyDoor door) {
        return List.of(
                "--panelbook.notify.first=PT0.1S",
                "--panelbook.notify.look-every=PT0.1S",
                "--panelbook.notify.lease=PT2S",
                "--panelbook.notify.attempt-timeout=PT0.5S",
                "--panelbook.notify.first-retry=PT0.2S",
                "--panelbook.notify.longest-retry=PT1S",
                "--panelbook.notify.mail-from=panelbook@facility.example",
                "--spring.mail.host=127.0.0.1",
                "--spring.mail.port=" + door.port(),
                "--spring.mail.properties[mail.smtp.timeout]=500");
    }

    private static void addChannels(Http engineer, Studio studio, Receiver receiver) {
        var path = "/facilities/" + studio.facility() + "/notification-settings";
        engineer.get(path).expect(200).as(NotificationSettings.class);
        engineer.put(path, new NotificationSettingsDraft(null, null, 2, 1), "\"0\"")
                .expect(200);
        var webhook = new ChannelDraft(
                UUID.randomUUID(),
                "webhook",
                ChannelKind.WEBHOOK,
                studio.facility(),
                List.of(),
                false,
                List.of(),
                receiver.url());
        engineer.post("/channels", webhook).expect(201);
        var mail = new ChannelDraft(
                UUID.randomUUID(),
                "mail",
                ChannelKind.EMAIL,
                studio.facility(),
                List.of(),
                false,
                List.of("engineer@facility.example"),
                null);
        engineer.post("/channels", mail).expect(201);
    }

    /** A display that leaves tolerance for each upload that a kill allows; every other one is put right later. */
    private static List<RunUpload> runs(Studio studio) {
        var runs = new ArrayList<RunUpload>();
        var takenAt = Instant.now().minusSeconds(3600);
        for (var i = 0; runs.size() < (KILLS + 2) * UPLOADS_BETWEEN_KILLS; i++) {
            var preset = studio.display("Display " + i, "lcd");
            runs.add(studio.run(preset, Purpose.AS_LEFT, takenAt.plusSeconds(i), Studio.dimmed(0.5)));
            if (i % 2 == 0) {
                runs.add(studio.run(preset, Purpose.AS_LEFT, takenAt.plusSeconds(600 + i), Studio.asAimed()));
            }
        }
        return runs;
    }

    private void killAgainAndAgain(Receiver receiver) {
        for (var kill = 0; kill < KILLS; kill++) {
            var victim = instances.get(kill % 2);
            victim.awaitReady();
            var wanted = uploaded.get() + UPLOADS_BETWEEN_KILLS - 1;
            mayUpload.release(UPLOADS_BETWEEN_KILLS);
            while (uploaded.get() < wanted) {
                assertThat(victim.endsWithin(5)).as(victim::logText).isFalse();
            }
            if (kill % 2 == 0) {
                // hits the upload, the gathering or what comes after
                victim.endsWithin(random.nextInt(1500));
            } else {
                awaitArrival(receiver, victim);
            }
            victim.kill();
            victim.start();
        }
    }

    /** Until a message comes in: a kill now hits the time between its sending and the note of it, if the victim sent it. */
    private static void awaitArrival(Receiver receiver, Instance victim) {
        var before = receiver.requests.size();
        for (var looks = 0; looks < 1500 && receiver.requests.size() == before; looks++) {
            victim.endsWithin(2);
        }
    }

    /** To one of the instances, else to the other, until one of them says that it has it. */
    private void upload(RunUpload run) {
        mayUpload.acquireUninterruptibly();
        for (var at = random.nextInt(2); !accepted(instances.get(at % 2), run); at++) {
            Thread.onSpinWait();
        }
        uploaded.incrementAndGet();
    }

    private boolean accepted(Instance instance, RunUpload run) {
        try {
            var answer = instance.engineer().post("/runs", run);
            if (answer.status() / 100 == 4) {
                refusals.add(answer.text());
            }
            return answer.status() < 500;
        } catch (UncheckedIOException away) {
            return false;
        }
    }

    /** By the service's own record; whether that is true is looked at afterwards, where it was told. */
    private void awaitAllTold() throws Exception {
        var deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
        while (count("select count(*) from notification n left join message m on m.id = n.message_id"
                        + " where m.delivered_at is null")
                > 0) {
            assertThat(instances.get(0).endsWithin(50))
                    .as(instances.get(0)::logText)
                    .isFalse();
            assertThat(System.nanoTime())
                    .as("all is told in time: " + instances.get(0).logText())
                    .isLessThan(deadline);
        }
    }

    private void mustHaveOneAlertForEachDisplay(List<RunUpload> runs) throws Exception {
        var displays = runs.stream().map(RunUpload::presetId).distinct().count();
        assertThat(count("select count(*) from alert"))
                .as("one alert for each display")
                .isEqualTo(displays);
        assertThat(count("select count(*) from alert_event where kind = 'opened'"))
                .isEqualTo(displays);
        assertThat(count("select count(*) from alert_event where kind = 'closed'"))
                .as("one closing for each display put right")
                .isEqualTo(runs.size() - displays);
    }

    private void mustHaveToldByWebhook(Receiver receiver) throws Exception {
        Map<String, String> bodies = new HashMap<>();
        for (var request : List.copyOf(receiver.taken)) {
            var id = request.header("webhook-id");
            assertThat(bodies.putIfAbsent(id, request.body()))
                    .as("a repeat of %s says the same", id)
                    .isIn(null, request.body());
        }
        var told = new ArrayList<Long>();
        bodies.values()
                .forEach(body -> JSON.readTree(body)
                        .at("/data/notifications")
                        .forEach(one -> told.add(one.at("/event/sequence").asLong())));
        assertThat(told)
                .as("every event is told by webhook once")
                .doesNotHaveDuplicates()
                .containsExactlyInAnyOrderElementsOf(eventsToTell().keySet());
        System.out.println(KILLS + " kills, " + told.size() + " events in " + bodies.size() + " webhooks, "
                + (receiver.taken.size() - bodies.size()) + " repeats, "
                + (receiver.requests.size() - receiver.taken.size()) + " not taken");
    }

    private void mustHaveToldByMail(GreenMail mailServer) throws Exception {
        Map<String, String> texts = new TreeMap<>();
        for (MimeMessage mail : mailServer.getReceivedMessages()) {
            texts.put(mail.getMessageID(), mail.getContent().toString());
        }
        var told = new ArrayList<String>();
        texts.values().forEach(text -> SHOWN.matcher(text).results().forEach(found -> told.add(found.group(1))));
        assertThat(told.stream().sorted().toList())
                .as("every event is told by mail once")
                .isEqualTo(eventsToTell().values().stream().sorted().toList());
        System.out.println(told.size() + " events in " + texts.size() + " mails, "
                + (mailServer.getReceivedMessages().length - texts.size()) + " repeats");
    }

    /** Each event by its sequence number, with its alert: all that happened is an opening or a closing. */
    private Map<Long, String> eventsToTell() throws Exception {
        Map<Long, String> events = new TreeMap<>();
        var kinds = new TreeSet<String>();
        try (var connection = database.connect();
                var statement = connection.createStatement();
                var rows = statement.executeQuery("select seq, alert_id, kind from alert_event")) {
            while (rows.next()) {
                events.put(rows.getLong(1), rows.getString(2));
                kinds.add(rows.getString(3));
            }
        }
        assertThat(kinds).containsExactly("closed", "opened");
        return events;
    }

    private long count(String question) throws Exception {
        try (var connection = database.connect();
                var statement = connection.createStatement();
                var row = statement.executeQuery(question)) {
            row.next();
            return row.getLong(1);
        }
    }
}
