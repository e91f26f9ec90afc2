package panelbook.app.calendars;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.URI;
import java.net.UnknownHostException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodySubscriber;
import java.nio.ByteBuffer;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Flow;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.annotation.Lazy;
import org.springframework.stereotype.Component;
import org.springframework.util.unit.DataSize;

/**
 * Fetches calendars over HTTP, with bounds on everything that the other side decides: the time, the size, the redirects and where
 * they lead. What it says of a failure never holds the address or what was answered.
 */
@Component
@Lazy
class CalendarFetcher {

    private static final Duration CONNECT = Duration.ofSeconds(5);
    private static final int MOST_REDIRECTS = 5;
    private static final int NOT_MODIFIED = 304;
    private static final List<Integer> REDIRECTS = List.of(301, 302, 303, 307, 308);

    private final Duration wholly;
    private final long mostBytes;
    private final HttpClient client = HttpClient.newBuilder()
            .connectTimeout(CONNECT)
            .followRedirects(HttpClient.Redirect.NEVER)
            .build();

    /**
     * A fetcher.
     *
     * @param wholly {@code panelbook.bookings.within}: too short, and slow servers are never read; too long, and one that stalls
     *     keeps the others waiting
     * @param most {@code panelbook.bookings.max-size}: too small, and long calendars are refused; too large, and one takes the memory
     */
    CalendarFetcher(
            @Value("${panelbook.bookings.within:PT30S}") Duration wholly,
            @Value("${panelbook.bookings.max-size:8MB}") DataSize most) {
        this.wholly = wholly;
        this.mostBytes = most.toBytes();
    }

    /**
     * A calendar as it was answered.
     *
     * @param text null when it has not changed since the last time
     */
    record Fetched(
            byte @Nullable [] text,
            @Nullable String etag,
            @Nullable String lastModified) {}

    /** Why a calendar was not fetched, in words for people. */
    static final class NotFetchedException extends Exception {
        NotFetchedException(String message) {
            super(message);
        }
    }

    /**
     * Fetches a calendar.
     *
     * @param etag of the last answer; null to have it whole
     * @param lastModified of the last answer; null to have it whole
     */
    Fetched fetch(String url, @Nullable String etag, @Nullable String lastModified) throws NotFetchedException {
        var deadline = System.nanoTime() + wholly.toNanos();
        var address = URI.create(url);
        for (var hops = 0; hops <= MOST_REDIRECTS; hops++) {
            check(address);
            var answer = send(request(address, etag, lastModified), deadline);
            if (answer.statusCode() == NOT_MODIFIED) {
                return new Fetched(null, etag, lastModified);
            }
            if (!REDIRECTS.contains(answer.statusCode())) {
                return body(answer);
            }
            address = next(address, answer);
        }
        throw new NotFetchedException("The server leads on and on: more than " + MOST_REDIRECTS + " redirects.");
    }

    private static void check(URI address) throws NotFetchedException {
        var wrong = CalendarAddress.wrong(address);
        if (wrong != null) {
            throw new NotFetchedException("The server leads to an address that is not read. " + wrong);
        }
        try {
            for (var host : InetAddress.getAllByName(address.getHost())) {
                if (!CalendarAddress.mayBeAsked(host)) {
                    throw new NotFetchedException("The host of the address lies where no calendars are read from.");
                }
            }
        } catch (UnknownHostException unknown) {
            throw new NotFetchedException(
                    "The host of the address is not known here: look at its spelling, or at the network.");
        }
    }

    private static HttpRequest request(URI address, @Nullable String etag, @Nullable String lastModified) {
        var request = HttpRequest.newBuilder(address)
                .header("Accept", "text/calendar, text/plain;q=0.5")
                .header("User-Agent", "Panelbook");
        if (etag != null) {
            request.header("If-None-Match", etag);
        }
        if (lastModified != null) {
            request.header("If-Modified-Since", lastModified);
        }
        return request.build();
    }

    private HttpResponse<byte[]> send(HttpRequest request, long deadline) throws NotFetchedException {
        var sending = client.sendAsync(request, head -> new Limited(mostBytes));
        try {
            return sending.get(Math.max(0, deadline - System.nanoTime()), TimeUnit.NANOSECONDS);
        } catch (TimeoutException late) {
            sending.cancel(true);
            throw new NotFetchedException("The server did not answer within " + wholly.toSeconds() + " s.");
        } catch (InterruptedException interrupted) {
            sending.cancel(true);
            Thread.currentThread().interrupt();
            throw new NotFetchedException("The service was stopped meanwhile.");
        } catch (ExecutionException failed) {
            throw new NotFetchedException(
                    hasCause(failed, TooLargeException.class)
                            ? "The calendar is larger than " + mostBytes + " bytes. (panelbook.bookings.max-size)"
                            : hasCause(failed, javax.net.ssl.SSLException.class)
                                    ? "No secure connection to the host of the address comes about: look at its certificate."
                                    : "The host of the address cannot be reached, or it broke off.");
        }
    }

    private static boolean hasCause(Throwable failure, Class<? extends Throwable> type) {
        for (@Nullable Throwable cause = failure; cause != null; cause = cause.getCause()) {
            if (type.isInstance(cause)) {
                return true;
            }
        }
        return false;
    }

    private static Fetched body(HttpResponse<byte[]> answer) throws NotFetchedException {
        if (answer.statusCode() != 200) {
            throw new NotFetchedException(
                    "The server answered " + answer.statusCode() + ": is the address still right?");
        }
        return new Fetched(
                answer.body(),
                answer.headers().firstValue("ETag").orElse(null),
                answer.headers().firstValue("Last-Modified").orElse(null));
    }

    private static URI next(URI address, HttpResponse<byte[]> answer) throws NotFetchedException {
        var location = answer.headers().firstValue("Location");
        try {
            var next = address.resolve(location.orElseThrow(() -> new IllegalArgumentException("no location")));
            if ("https".equalsIgnoreCase(address.getScheme()) && "http".equalsIgnoreCase(next.getScheme())) {
                throw new NotFetchedException("The server leads from a secure address to one that is not.");
            }
            return next;
        } catch (IllegalArgumentException noAddress) {
            throw new NotFetchedException("The server leads to what is no address.");
        }
    }

    /** The bytes of a body, up to a limit. */
    private static final class Limited implements BodySubscriber<byte[]> {

        private final long most;
        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        private final CompletableFuture<byte[]> body = new CompletableFuture<>();
        private Flow.@Nullable Subscription subscription;

        Limited(long most) {
            this.most = most;
        }

        @Override
        public CompletionStage<byte[]> getBody() {
            return body;
        }

        @Override
        public void onSubscribe(Flow.Subscription given) {
            subscription = given;
            given.request(Long.MAX_VALUE);
        }

        @Override
        public void onNext(List<ByteBuffer> buffers) {
            for (var buffer : buffers) {
                if (body.isDone() || bytes.size() + buffer.remaining() > most) {
                    stop();
                    return;
                }
                var part = new byte[buffer.remaining()];
                buffer.get(part);
                bytes.writeBytes(part);
            }
        }

        private void stop() {
            if (subscription != null) {
                subscription.cancel();
            }
            body.completeExceptionally(new TooLargeException());
        }

        @Override
        public void onError(Throwable failure) {
            body.completeExceptionally(failure);
        }

        @Override
        public void onComplete() {
            body.complete(bytes.toByteArray());
        }
    }

    private static final class TooLargeException extends IOException {}
}
