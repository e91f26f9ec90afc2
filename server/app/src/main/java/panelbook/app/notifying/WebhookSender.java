package panelbook.app.notifying;

import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.springframework.stereotype.Component;
import panelbook.wire.ChannelKind;

/** Posts messages as CloudEvents in structured mode, signed. A redirect is an answer like any other: it is not followed. */
@Component
class WebhookSender implements Sender {

    static final String CONTENT_TYPE = "application/cloudevents+json";

    /** The receiver understood and won't take it; others, 401, 404 and 429 among them, people may put right meanwhile. */
    private static final Set<Integer> REFUSALS = Set.of(400, 410, 413, 415, 422);

    private static final Duration LONGEST_PAUSE = Duration.ofHours(1);

    private final HttpClient client;
    private final NotifyingRules rules;
    private final Clock clock;

    WebhookSender(NotifyingRules rules, Clock clock) {
        this.rules = rules;
        this.clock = clock;
        this.client = HttpClient.newBuilder()
                .version(HttpClient.Version.HTTP_1_1)
                .followRedirects(HttpClient.Redirect.NEVER)
                .connectTimeout(rules.attemptTimeout())
                .build();
    }

    @Override
    public ChannelKind kind() {
        return ChannelKind.WEBHOOK;
    }

    @Override
    public Answer send(Outgoing message) {
        // the timeout of a request ends with the headers: a body that never comes is cut off here
        var exchange = client.sendAsync(request(message), info -> new BoundedBody());
        try {
            return answer(exchange.get(rules.attemptTimeout().toMillis(), TimeUnit.MILLISECONDS));
        } catch (TimeoutException e) {
            exchange.cancel(true);
            return Answer.failed("No answer within " + rules.attemptTimeout().toMillis() / 1000.0 + " s.");
        } catch (ExecutionException e) {
            return Answer.failed("The receiver could not be reached: " + reason(e));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            exchange.cancel(true);
            return Answer.failed("The service stopped meanwhile.");
        }
    }

    private HttpRequest request(Outgoing message) {
        var now = clock.instant();
        var id = message.id().toString();
        var secret = Objects.requireNonNull(message.secret());
        return HttpRequest.newBuilder(URI.create(Objects.requireNonNull(message.url())))
                .header("Content-Type", CONTENT_TYPE)
                .header("webhook-id", id)
                .header("webhook-timestamp", Long.toString(now.getEpochSecond()))
                .header("webhook-signature", WebhookSignature.of(secret, id, now, message.body()))
                .POST(HttpRequest.BodyPublishers.ofString(message.body()))
                .build();
    }

    private static Answer answer(HttpResponse<String> response) {
        var status = response.statusCode();
        var text = "The receiver answered " + status + (response.body().isBlank() ? "." : ": " + response.body());
        if (status >= 200 && status < 300) {
            return Answer.delivered("The receiver answered " + status + ".");
        }
        if (REFUSALS.contains(status)) {
            return Answer.refused(text);
        }
        var pause = response.headers().firstValue("Retry-After").flatMap(WebhookSender::seconds);
        return new Answer(Answer.Result.FAILED, text, List.of(), pause.orElse(null));
    }

    private static Optional<Duration> seconds(String retryAfter) {
        if (!retryAfter.matches("\\d{1,9}")) {
            return Optional.empty();
        }
        var asked = Duration.ofSeconds(Long.parseLong(retryAfter));
        return Optional.of(asked.compareTo(LONGEST_PAUSE) > 0 ? LONGEST_PAUSE : asked);
    }

    private static String reason(ExecutionException e) {
        var cause = e.getCause() == null ? e : e.getCause();
        var message = cause.getMessage();
        return cause.getClass().getSimpleName() + (message == null ? "" : ", " + message);
    }
}
