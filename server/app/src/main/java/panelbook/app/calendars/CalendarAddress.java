package panelbook.app.calendars;

import java.net.InetAddress;
import java.net.URI;
import java.net.URISyntaxException;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Which addresses calendars are fetched from. */
final class CalendarAddress {

    private static final int LONGEST = 2000;

    private CalendarAddress() {}

    /** What is wrong with an address as it was typed, without a word of it; null when nothing is. */
    static @Nullable String wrong(String text) {
        if (text.length() > LONGEST) {
            return "An address may have at most " + LONGEST + " characters.";
        }
        try {
            return wrong(new URI(text));
        } catch (URISyntaxException noAddress) {
            return "This is no address: it reads like https://calendar.example/room.ics.";
        }
    }

    /** What is wrong with an address, without a word of it; null when nothing is. */
    static @Nullable String wrong(URI address) {
        var scheme = String.valueOf(address.getScheme()).toLowerCase(Locale.ROOT);
        if (scheme.equals("webcal")) {
            return "Write https: in place of webcal:.";
        }
        if (!scheme.equals("https") && !scheme.equals("http")) {
            return "The address must begin with https: or http:.";
        }
        if (address.getHost() == null) {
            return "The address names no host.";
        }
        return address.getRawUserInfo() == null ? null : "The address must not hold a name and password.";
    }

    /**
     * Whether a host may be asked. What hosts of a network tell about themselves under link-local addresses, such as credentials
     * of the machine, is no calendar.
     */
    static boolean mayBeAsked(InetAddress host) {
        return !host.isLinkLocalAddress() && !host.isMulticastAddress() && !host.isAnyLocalAddress();
    }
}
