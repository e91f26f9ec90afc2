package panelbook.app.calendars.ics;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import net.fortuna.ical4j.model.Calendar;
import net.fortuna.ical4j.model.ParameterList;
import net.fortuna.ical4j.model.Property;
import net.fortuna.ical4j.model.component.VEvent;
import net.fortuna.ical4j.model.parameter.Value;
import net.fortuna.ical4j.model.property.Description;
import net.fortuna.ical4j.model.property.DtEnd;
import net.fortuna.ical4j.model.property.DtStamp;
import net.fortuna.ical4j.model.property.DtStart;
import net.fortuna.ical4j.model.property.LastModified;
import net.fortuna.ical4j.model.property.Location;
import net.fortuna.ical4j.model.property.Name;
import net.fortuna.ical4j.model.property.ProdId;
import net.fortuna.ical4j.model.property.RefreshInterval;
import net.fortuna.ical4j.model.property.Sequence;
import net.fortuna.ical4j.model.property.Summary;
import net.fortuna.ical4j.model.property.Uid;
import net.fortuna.ical4j.model.property.immutable.ImmutableCalScale;
import net.fortuna.ical4j.model.property.immutable.ImmutableStatus;
import net.fortuna.ical4j.model.property.immutable.ImmutableVersion;

/** Writes calendars (RFC 5545; name and refresh interval of RFC 7986). The same entries give the same bytes. */
public final class CalendarWriter {

    private static final int LONGEST_LINE_OCTETS = 75;
    private static final Duration REFRESH = Duration.ofHours(1);

    private CalendarWriter() {}

    /** How sure an entry is. */
    public enum Standing {
        /** It may still move. */
        TENTATIVE,
        /** It stands. */
        CONFIRMED,
        /** It will not be. */
        CANCELLED
    }

    /**
     * An entry.
     *
     * @param uid the same for ever
     * @param sequence rises with every change
     * @param changedAt when it was last changed
     */
    public record Entry(
            String uid,
            long sequence,
            Instant changedAt,
            Instant startsAt,
            Instant endsAt,
            String summary,
            String location,
            String description,
            Standing standing) {}

    /** A calendar, in UTF-8. */
    public static byte[] write(String name, List<Entry> entries) {
        var calendar = new Calendar();
        calendar.add(new ProdId("-//Panelbook//Visits//EN"));
        calendar.add(ImmutableVersion.VERSION_2_0);
        calendar.add(ImmutableCalScale.GREGORIAN);
        calendar.add(new Name(name));
        calendar.add(new RefreshInterval(new ParameterList(List.of(Value.DURATION)), REFRESH));
        entries.forEach(entry -> calendar.add(event(entry)));
        return folded(calendar.toString());
    }

    private static VEvent event(Entry entry) {
        // without the library's own time stamp, which is now
        var event = new VEvent(false);
        List.of(
                        new Uid(entry.uid()),
                        new DtStamp(entry.changedAt()),
                        new LastModified(entry.changedAt()),
                        new Sequence((int) Math.min(entry.sequence(), Integer.MAX_VALUE)),
                        new DtStart<>(entry.startsAt()),
                        new DtEnd<>(entry.endsAt()),
                        new Summary(entry.summary()),
                        new Location(entry.location()),
                        new Description(entry.description()),
                        status(entry.standing()))
                .forEach(event::add);
        return event;
    }

    private static Property status(Standing standing) {
        return switch (standing) {
            case TENTATIVE -> ImmutableStatus.VEVENT_TENTATIVE;
            case CONFIRMED -> ImmutableStatus.VEVENT_CONFIRMED;
            case CANCELLED -> ImmutableStatus.VEVENT_CANCELLED;
        };
    }

    /** Lines of at most 75 octets, cut between characters (RFC 5545, 3.1); the library would count characters. */
    static byte[] folded(String text) {
        var folded = new StringBuilder(text.length());
        for (var line : text.split("\r\n", -1)) {
            var octets = 0;
            for (var at = 0; at < line.length(); ) {
                var character = line.codePointAt(at);
                var length = Character.toString(character).getBytes(StandardCharsets.UTF_8).length;
                if (octets + length > LONGEST_LINE_OCTETS) {
                    folded.append("\r\n ");
                    octets = 1;
                }
                folded.appendCodePoint(character);
                octets += length;
                at += Character.charCount(character);
            }
            folded.append("\r\n");
        }
        // the text ends with a line end, after which nothing stands
        folded.setLength(folded.length() - (text.endsWith("\r\n") ? 2 : 0));
        return folded.toString().getBytes(StandardCharsets.UTF_8);
    }
}
