package panelbook.cli.service;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;
import panelbook.cli.json.Json;
import panelbook.cli.json.Records;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Surroundings.Sleeper;
import panelbook.wire.AlertEvent;

/**
 * The stream of alert events (server-sent events, WHATWG HTML, section 9.2), kept open: when it breaks it is opened again
 * after a pause that grows to half a minute, from the last event seen, so that none is missed and none comes twice.
 */
public final class AlertStream {

    // the service sends a comment every 15 s; three missed ones mean that nobody is there
    private static final int SILENCE_MILLIS = 45_000;
    private static final long FIRST_PAUSE_MILLIS = 250;
    private static final long LONGEST_PAUSE_MILLIS = 30_000;

    private final Service service;
    private final Sleeper sleeper;
    private final RandomGenerator random;
    private final Consumer<String> notices;
    private @Nullable Long last;
    private long pause = FIRST_PAUSE_MILLIS;
    private boolean broken;

    /**
     * A stream.
     *
     * @param random spreads the attempts of many clients after an outage
     * @param notices hears when the stream breaks and when it is back
     * @param after sequence of the last event seen; null for events from now on
     */
    public AlertStream(
            Service service, Sleeper sleeper, RandomGenerator random, Consumer<String> notices, @Nullable Long after) {
        this.service = service;
        this.sleeper = sleeper;
        this.random = random;
        this.notices = notices;
        this.last = after;
    }

    /**
     * Hands every event to {@code listener} until it says false.
     *
     * @param position hears of every place reached, also of one that comes without an event
     * @throws Refused when the service does not let this person listen
     */
    public void follow(Predicate<AlertEvent> listener, Consumer<Long> position) {
        while (true) {
            try {
                if (!readOnce(listener, position)) {
                    return;
                }
                interrupted("it ended the stream");
            } catch (IOException e) {
                interrupted(e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage());
            } catch (ServiceAway e) {
                interrupted(e.text());
            }
            rest();
        }
    }

    private void interrupted(String why) {
        if (!broken) {
            broken = true;
            notices.accept(
                    "The stream from " + service.address() + " broke (" + why + "). Trying again until it is back.");
        }
    }

    private void rest() {
        try {
            sleeper.sleep(pause / 2 + random.nextLong(pause / 2 + 1));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw Failure.failed("Following was interrupted.", e);
        }
        pause = Math.min(2 * pause, LONGEST_PAUSE_MILLIS);
    }

    private boolean readOnce(Predicate<AlertEvent> listener, Consumer<Long> position) throws IOException {
        var connection = service.openStream("/alerts/stream", last, SILENCE_MILLIS);
        try (var reader =
                new BufferedReader(new InputStreamReader(connection.getInputStream(), StandardCharsets.UTF_8))) {
            opened();
            return readEvents(reader, listener, position);
        } finally {
            connection.disconnect();
        }
    }

    private void opened() {
        if (broken) {
            notices.accept("The stream is back.");
        }
        broken = false;
        pause = FIRST_PAUSE_MILLIS;
    }

    private boolean readEvents(BufferedReader reader, Predicate<AlertEvent> listener, Consumer<Long> position)
            throws IOException {
        @Nullable Long id = null;
        var data = new StringBuilder();
        for (var line = reader.readLine(); line != null; line = reader.readLine()) {
            if (line.startsWith("id:")) {
                id = sequence(line.substring(3).strip());
            } else if (line.startsWith("data:")) {
                data.append(line.startsWith("data: ") ? line.substring(6) : line.substring(5))
                        .append('\n');
            } else if (line.isEmpty()) {
                if (!dispatched(id, data.toString(), listener, position)) {
                    return false;
                }
                id = null;
                data.setLength(0);
            }
        }
        return true;
    }

    private boolean dispatched(@Nullable Long id, String data, Predicate<AlertEvent> listener, Consumer<Long> position)
            throws IOException {
        if (id != null && last != null && id <= last) {
            return true; // seen before the stream broke
        }
        var goOn = data.isEmpty() || listener.test(event(data));
        if (id != null) {
            last = id;
            position.accept(id);
        }
        return goOn;
    }

    private static @Nullable Long sequence(String text) {
        try {
            return Long.valueOf(text);
        } catch (NumberFormatException e) {
            return null;
        }
    }

    private AlertEvent event(String data) throws IOException {
        var event = Json.parse(data) instanceof Map<?, ?> map
                ? Records.read(AlertEvent.class, map).value()
                : null;
        if (event == null) {
            throw Failure.failed(
                    "The service at " + service.address()
                            + " sent an event that this client does not understand. Are client and service of the same version?");
        }
        return event;
    }
}
