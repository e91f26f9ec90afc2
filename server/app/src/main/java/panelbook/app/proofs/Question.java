package panelbook.app.proofs;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import panelbook.wire.ProofContent;

/**
 * What a proof is asked of.
 *
 * @param from start of the day
 * @param end of the day's readiness, exclusive
 * @param asOf the moment that the figures are of
 * @param wholeDay whether the day was over
 */
record Question(UUID roomId, LocalDate day, ZoneId zone, Instant from, Instant end, Instant asOf, boolean wholeDay) {

    /** Of a day in a zone, asked at a moment that is not before it. */
    static Question of(UUID roomId, LocalDate day, ZoneId zone, Instant askedAt) {
        var from = day.atStartOfDay(zone).toInstant();
        var end = day.plusDays(1).atStartOfDay(zone).toInstant();
        return askedAt.isBefore(end)
                ? new Question(roomId, day, zone, from, askedAt, askedAt, false)
                // the last moment of the day that the book can tell from the next
                : new Question(roomId, day, zone, from, end, end.minus(1, ChronoUnit.MICROS), true);
    }

    /** The one that was answered by this content. */
    static Question answeredBy(ProofContent content) {
        var zone = ZoneId.of(content.timeZone());
        return new Question(
                content.roomId(),
                content.day(),
                zone,
                content.from(),
                content.wholeDay()
                        ? content.day().plusDays(1).atStartOfDay(zone).toInstant()
                        : content.asOf(),
                content.asOf(),
                content.wholeDay());
    }

    /** When the day is over in its zone. */
    Instant endOfDay() {
        return day.plusDays(1).atStartOfDay(zone).toInstant();
    }
}
