package panelbook.app.notifying;

import java.util.List;
import panelbook.wire.AlertEventKind;
import panelbook.wire.MessageKind;

/** One line for each message. */
final class Headings {

    private Headings() {}

    static String of(MessageKind kind, List<Told> told) {
        return switch (kind) {
            case ALERT ->
                lead(told.get(0).event().kind()) + ": " + told.get(0).event().subject();
            case SUMMARY -> told.size() + " events of alerts at once: " + places(told);
            case AFTER_QUIET -> "A quiet period ended, " + count(told.size()) + " to know of: " + places(told);
            case TEST -> "A test of this channel";
        };
    }

    /** What an event means, in words for a heading. */
    static String lead(AlertEventKind kind) {
        return switch (kind) {
            case OPENED -> "Alert";
            case REOPENED -> "Alert is back";
            case RELEASED -> "Alert by itself now";
            case UPDATED -> "Alert grew worse";
            case ESCALATED -> "Not acknowledged in time";
            case REMINDED -> "Still not acknowledged";
            case CLOSED -> "Closed";
            case ACKNOWLEDGED -> "Acknowledged";
            case HELD_BACK -> "Held back";
        };
    }

    private static String count(int alerts) {
        return alerts == 1 ? "1 alert" : alerts + " alerts";
    }

    private static String places(List<Told> told) {
        var subjects =
                told.stream().map(one -> one.event().subject()).distinct().toList();
        return subjects.size() <= 2
                ? String.join(", ", subjects)
                : subjects.get(0) + " and " + (subjects.size() - 1) + " more";
    }
}
