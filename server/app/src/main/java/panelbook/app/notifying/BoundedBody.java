package panelbook.app.notifying;

import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.Flow;
import org.jspecify.annotations.Nullable;

/** Reads the beginning of an answer's body, and lets go of the connection where a receiver sends more. */
final class BoundedBody implements HttpResponse.BodySubscriber<String> {

    private static final int MOST_BYTES = 1000;

    private final CompletableFuture<String> body = new CompletableFuture<>();
    private final StringBuilder text = new StringBuilder();
    private Flow.@Nullable Subscription subscription;

    @Override
    public CompletionStage<String> getBody() {
        return body;
    }

    @Override
    public void onSubscribe(Flow.Subscription given) {
        subscription = given;
        given.request(1);
    }

    @Override
    public void onNext(List<ByteBuffer> buffers) {
        buffers.forEach(buffer -> text.append(StandardCharsets.UTF_8.decode(buffer)));
        if (text.length() < MOST_BYTES && subscription != null) {
            subscription.request(1);
            return;
        }
        if (subscription != null) {
            subscription.cancel();
        }
        onComplete();
    }

    @Override
    public void onError(Throwable failure) {
        body.completeExceptionally(failure);
    }

    @Override
    public void onComplete() {
        body.complete(text.toString());
    }
}
