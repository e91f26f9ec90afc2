package panelbook.app.notifying;

import java.time.Duration;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What came of one attempt to send a message.
 *
 * @param text what the receiver said or what went wrong; holds no secret
 * @param taken addresses of mail that this attempt reached
 * @param retryAfter how long the receiver asked to be left alone
 */
record Answer(
        Result result,
        String text,
        List<String> taken,
        @Nullable Duration retryAfter) {

    private static final int LONGEST = 500;

    enum Result {
        DELIVERED,
        /** It may work later. */
        FAILED,
        /** The receiver will not take this message, however often it comes. */
        REFUSED
    }

    Answer {
        text = cut(text.replaceAll("[\\p{Cntrl}]+", " ").strip());
    }

    static Answer delivered(String text) {
        return new Answer(Result.DELIVERED, text, List.of(), null);
    }

    static Answer failed(String text) {
        return new Answer(Result.FAILED, text, List.of(), null);
    }

    static Answer refused(String text) {
        return new Answer(Result.REFUSED, text, List.of(), null);
    }

    boolean delivered() {
        return result == Result.DELIVERED;
    }

    private static String cut(String text) {
        return text.length() <= LONGEST ? text : text.substring(0, LONGEST) + "…";
    }
}
